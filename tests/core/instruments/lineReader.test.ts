import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type LineFormat,
  lineFormatSchema,
  lineReader,
  MOST_LINE,
  portNameSchema,
  streamSourceSchema,
} from '../../../core/instruments/index.ts';
import { streamedNumber } from '../../../core/instruments/lineReader.ts';
import { templateOf } from '../../../core/words/index.ts';
import { slotsOf } from '../../../core/words/say.ts';

const format = (pattern: string, change: Partial<LineFormat> = {}): LineFormat => ({
  pattern,
  kind: 'length',
  unit: 'mm',
  channel: '',
  good: [],
  ...change,
});

/** What a format makes of a line: the value, the key of a fault, or `other channel`. */
function said(of: LineFormat, line: string): number | string {
  const reader = lineReader(of);
  if (!reader.ok) return reader.error.key;
  const read = reader.value(line);
  if (!read.ok) return read.error.key;
  return read.value?.value ?? 'other channel';
}

const anywhere = format('(?<value>[-+]? *[0-9.,]+)');

describe('numbers as instruments write them', () => {
  test.each([
    ['12.5', 12.5],
    ['+0012,50', 12.5],
    ['-0.001', -0.001],
    ['- 3', -3],
    ['\u22127', -7],
    ['.5', 0.5],
    ['5.', 5],
    ['1.5E+03', 1500],
    ['2e-2', 0.02],
    ['  8 ', 8],
    ['1,234.5', undefined],
    ['1 234', undefined],
    ['', undefined],
    ['-', undefined],
    ['--1', undefined],
    ['0x10', undefined],
    ['NaN', undefined],
    ['1e999', undefined],
    ['12.5mm', undefined],
  ])('%j is %j', (text, value) => {
    expect(streamedNumber(text)).toBe(value);
  });

  test('every number written with a fixed count of decimals comes back (seed 41)', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.constantFrom('.', ','), (thousandths, sign) => {
        const value = thousandths / 1000;
        expect(streamedNumber(value.toFixed(3).replace('.', sign))).toBe(value);
      }),
      { seed: 41 },
    );
  });
});

describe('a line becomes a value in the kept unit', () => {
  test.each<readonly [string, LineFormat, string, number | string]>([
    ['a bare number in the unit of the format', anywhere, '  +0012.50', 12.5],
    ['inches of the format', format(anywhere.pattern, { unit: 'in' }), '1.5', 38.1],
    ['the unit of the line wins', format('(?<value>[0-9.]+) *(?<unit>[a-z]+)?', { unit: 'in' }), '2 cm', 20],
    ['the unit of the format where the line has none', format('(?<value>[0-9.]+) *(?<unit>[a-z]+)?'), '2', 2],
    ['a unit in capitals', format('(?<value>[0-9.]+) *(?<unit>[A-Za-z]+)', { unit: '' }), '2 MM', 2],
    ['an angle', format(anywhere.pattern, { kind: 'angle', unit: 'deg' }), '180', Math.PI],
    ['a slope', format(anywhere.pattern, { kind: 'angle', unit: 'mm/m' }), '-1000', -Math.PI / 4],
    ['a pressure', format(anywhere.pattern, { kind: 'pressure', unit: 'bar' }), '2.4', 240],
    ['the channel asked for', format('(?<channel>[AB]):(?<value>[0-9]+)', { channel: 'B' }), 'B:7', 7],
    [
      'another channel is none',
      format('(?<channel>[AB]):(?<value>[0-9]+)', { channel: 'B' }),
      'A:7',
      'other channel',
    ],
    ['any channel where none is asked for', format('(?<channel>[AB]):(?<value>[0-9]+)'), 'A:7', 7],
    ['a good mark', format('(?<quality>[A-Z]+) (?<value>[0-9]+)', { good: ['OK', 'G'] }), 'G 7', 7],
    [
      'a bad mark',
      format('(?<quality>[A-Z]+) (?<value>[0-9]+)', { good: ['OK'] }),
      'ERR 7',
      'instrument.qualityBad',
    ],
    ['any mark where none is named', format('(?<quality>[A-Z]+) (?<value>[0-9]+)'), 'ERR 7', 7],
    ['the other way to write a group', format('(?P<value>[0-9]+)'), '7', 7],
  ])('%s', (_name, of, line, wanted) => {
    const got = said(of, line);
    if (typeof wanted === 'number') expect(got).toBeCloseTo(wanted, 12);
    else expect(got).toBe(wanted);
  });

  test.each<readonly [string, LineFormat, string, string]>([
    ['nothing that fits', anywhere, 'ERR--', 'instrument.noMatch'],
    ['no number', format('=(?<value>.*)'), '=1.2.3', 'instrument.notANumber'],
    ['an empty value', format('=(?<value>.*)'), '=', 'instrument.notANumber'],
    ['a unit nobody knows', format('(?<value>[0-9]+)(?<unit>[a-z]*)'), '7furlong', 'instrument.unitUnknown'],
    ['a unit of another kind', format('(?<value>[0-9]+)(?<unit>[a-z]*)'), '7bar', 'instrument.unitUnknown'],
    ['no unit', format('(?<value>[0-9]+)(?<unit>[a-z]*)', { unit: '' }), '7', 'instrument.unitNotSaid'],
    ['too long a line', anywhere, '1'.repeat(MOST_LINE + 1), 'instrument.lineTooLong'],
  ])('%s is a fault: %s', (_name, of, line, key) => {
    expect(said(of, line)).toBe(key);
  });

  test('a line is read the same however often, and whatever was read between', () => {
    const reader = lineReader(format('^(?<value>[0-9]+)$'));
    if (!reader.ok) throw new Error(reader.error.key);
    const lines = ['7', 'x', '8', '7', '', '8'];
    const once = lines.map((line) => reader.value(line));
    expect(lines.map((line) => reader.value(line))).toEqual(once);
  });
});

describe('a format that cannot be used says why', () => {
  test.each<readonly [LineFormat, string]>([
    [format('(?<value>[0-9]+'), 'instrument.patternUnreadable'],
    [format('(?<value>[0-9]+)(?=x)'), 'instrument.patternUnreadable'],
    [format('(?<value>.)\\1'), 'instrument.patternUnreadable'],
    [format('[0-9]+'), 'instrument.noValueGroup'],
    [format('(?<Value>[0-9]+)'), 'instrument.unknownGroup'],
    [format('(?<value>[0-9]+)(?<wert>x)'), 'instrument.unknownGroup'],
    [format('(?<value>[0-9]+)', { unit: '' }), 'instrument.unitMissing'],
    [format('(?<value>[0-9]+)', { unit: 'furlong' }), 'instrument.fixedUnitUnknown'],
    [format('(?<value>[0-9]+)', { good: ['OK'] }), 'instrument.goodWithoutQuality'],
    [format(`(?<value>${'1'.repeat(200)})`), 'instrument.patternTooLong'],
    [format('(?<value>(?:a{30}){30})'), 'instrument.patternTooLarge'],
    [format('(?<value>(?:(?:a{99}){99}){99})'), 'instrument.patternTooLarge'],
  ])('$pattern: %s', (of, key) => {
    const reader = lineReader(of);
    expect(reader.ok ? 'usable' : reader.error.key).toBe(key);
    const template = templateOf(key) ?? '';
    expect(reader.ok ? [] : Object.keys(reader.error.values).sort()).toEqual([...slotsOf(template)].sort());
  });
});

describe('no pattern holds the program up', () => {
  // What a backtracking matcher needs ages for: the count of its steps doubles with every character.
  test.each(['^(?<value>(a+)+)$', '^(?<value>(a|a)*)$', '^(?<value>(.*)*)x$', '(?<value>(a*)*b)'])(
    '%s',
    (pattern) => {
      const reader = lineReader(format(pattern));
      if (!reader.ok) throw new Error(reader.error.key);
      expect(reader.value(`${'a'.repeat(MOST_LINE - 1)}!`)).toMatchObject({ ok: false });
    },
  );
});

describe('what comes from outside is bounded', () => {
  test.each(['ttyUSB0', 'ttyACM12', 'ttyS1', 'COM7', 'cu.usbserial-A1', 'rfcomm0'])(
    '%s is a port',
    (name) => {
      expect(portNameSchema.safeParse(name).success).toBe(true);
    },
  );

  test.each(['/dev/ttyUSB0', '../mem', 'ttyUSB0/../sda', 'sda', 'cu.a/b', '', 'COM'])(
    '%j is none',
    (name) => {
      expect(portNameSchema.safeParse(name).success).toBe(false);
    },
  );

  test.each(['10.0.0.7', 'laser.local', 'fe80::1', 'a'])('%s is a host', (host) => {
    expect(streamSourceSchema.safeParse({ kind: 'tcp', host, port: 4001 }).success).toBe(true);
  });

  test.each(['', 'a b', 'http://x', '-x', 'x/', 'a\n'])('%j is none', (host) => {
    expect(streamSourceSchema.safeParse({ kind: 'tcp', host, port: 4001 }).success).toBe(false);
  });

  test('a format has no members of its own', () => {
    expect(lineFormatSchema.safeParse({ ...anywhere, code: 'x' }).success).toBe(false);
  });
});
