/**
 * From a line of text to a value. The pattern is a person's own; it is matched in time that grows with the length of the
 * line and the size of the pattern only (RE2's automaton), so that no pattern and no line can hold the program up.
 *
 * A line is read as it stands or not at all: nothing in it is put right.
 */
import { RE2JS, RE2JSException } from 're2js';
import { KEPT_UNIT, knownUnits, SUFFIXES, type WrittenUnit } from '../entry/unitSuffixes.ts';
import { err, ok, type Result } from '../result.ts';
import { type InstrumentFault, instrumentFault } from './fault.ts';
import { type LineFormat, MOST_LINE, MOST_PATTERN, type StreamedKind } from './schema.ts';

/** The unit a streamed value is kept in. */
export type StreamedUnit = (typeof KEPT_UNIT)[StreamedKind];

/** A value read off a line, in the kept unit of its kind. Empty texts where the pattern has no such group. */
export type StreamedValue = {
  readonly value: number;
  readonly unit: StreamedUnit;
  readonly channel: string;
  readonly quality: string;
};

/** What a line says: a value; something wrong; or a value of another channel, which is neither. */
export type LineAnswer = Result<StreamedValue | undefined, InstrumentFault>;

/** Reads lines of one format. */
export type LineReader = (line: string) => LineAnswer;

/** Steps of the automaton at most: 500 steps over a line of 256 characters are a fraction of a millisecond. */
const MOST_STEPS = 500;

const GROUPS = ['value', 'unit', 'channel', 'quality'] as const;
type GroupName = (typeof GROUPS)[number];

/** Sign, digits with one decimal sign (comma or point, never grouping), exponent; blanks after the sign. */
const NUMBER = /^([+-]?) *(\d{1,15}(?:[.,]\d{0,15})?|[.,]\d{1,15})(?:[eE]([+-]?\d{1,2}))?$/;

/** The number a text says, or undefined. `+0012,50` is 12.5; `1,234.5` is none. */
export function streamedNumber(text: string): number | undefined {
  const match = NUMBER.exec(text.trim().replace('\u2212', '-'));
  if (match === null) return undefined;
  const value = Number(`${match[1] ?? ''}${(match[2] ?? '').replace(',', '.')}e${match[3] ?? '0'}`);
  return Number.isFinite(value) ? value : undefined;
}

function unitOf(kind: StreamedKind, text: string): WrittenUnit | undefined {
  return SUFFIXES[kind].get(text.trim().toLowerCase());
}

function known(kind: StreamedKind): string {
  return knownUnits(kind).join(', ');
}

function compiled(pattern: string): Result<RE2JS, InstrumentFault> {
  if (pattern.length > MOST_PATTERN) {
    return err(instrumentFault('instrument.patternTooLong', { most: `${MOST_PATTERN}` }));
  }
  try {
    const matcher = RE2JS.compile(pattern);
    return matcher.programSize() > MOST_STEPS
      ? err(instrumentFault('instrument.patternTooLarge'))
      : ok(matcher);
  } catch (thrown) {
    if (!(thrown instanceof RE2JSException)) throw thrown;
    const problem = thrown.message.replace(/^error parsing regexp: /, '');
    return err(
      problem.startsWith('invalid repeat count')
        ? instrumentFault('instrument.patternTooLarge')
        : instrumentFault('instrument.patternUnreadable', { problem }),
    );
  }
}

function groupsFault(names: readonly string[], format: LineFormat): InstrumentFault | undefined {
  const unknown = names.find((name) => !(GROUPS as readonly string[]).includes(name));
  if (unknown !== undefined) return instrumentFault('instrument.unknownGroup', { group: unknown });
  if (!names.includes('value')) return instrumentFault('instrument.noValueGroup');
  if (format.good.length > 0 && !names.includes('quality')) {
    return instrumentFault('instrument.goodWithoutQuality');
  }
  if (format.unit === '' && !names.includes('unit')) return instrumentFault('instrument.unitMissing');
  if (format.unit !== '' && unitOf(format.kind, format.unit) === undefined) {
    const values = { unit: format.unit, known: known(format.kind) };
    return instrumentFault('instrument.fixedUnitUnknown', values);
  }
  return undefined;
}

/**
 * A reader for lines of this format, or what is wrong with the format.
 *
 * @example pattern `(?<value>[-+0-9.]+) *(?<unit>mm|in)`, kind `length`: the line `D1 +1.50 in` is 38.1 mm.
 */
export function lineReader(format: LineFormat): Result<LineReader, InstrumentFault> {
  const pattern = compiled(format.pattern);
  if (!pattern.ok) return pattern;
  const names = Object.keys(pattern.value.namedGroups());
  const fault = groupsFault(names, format);
  if (fault !== undefined) return err(fault);
  return ok((line) => readLine(pattern.value, new Set(names), format, line));
}

function readLine(pattern: RE2JS, names: ReadonlySet<string>, format: LineFormat, line: string): LineAnswer {
  if (line.length > MOST_LINE)
    return err(instrumentFault('instrument.lineTooLong', { most: `${MOST_LINE}` }));
  const match = pattern.matcher(line);
  if (!match.find()) return err(instrumentFault('instrument.noMatch'));
  const part = (name: GroupName) => (names.has(name) ? (match.group(name) ?? '').trim() : '');
  const channel = part('channel');
  if (format.channel !== '' && channel !== format.channel) return ok(undefined);
  const quality = part('quality');
  if (format.good.length > 0 && !format.good.includes(quality)) {
    return err(instrumentFault('instrument.qualityBad', { quality }));
  }
  const number = streamedNumber(part('value'));
  if (number === undefined) return err(instrumentFault('instrument.notANumber', { text: part('value') }));
  const written = part('unit') === '' ? format.unit : part('unit');
  if (written === '') return err(instrumentFault('instrument.unitNotSaid'));
  const unit = unitOf(format.kind, written);
  if (unit === undefined) {
    return err(instrumentFault('instrument.unitUnknown', { unit: written, known: known(format.kind) }));
  }
  return ok({ value: unit.toKept(number), unit: KEPT_UNIT[format.kind], channel, quality });
}
