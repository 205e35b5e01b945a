/**
 * The parser of typed quantities. Comma and point are both the decimal sign in every language and digits are
 * never grouped; fractions and mixed numbers, feet and inches, degrees and minutes are read as people write
 * them on a tape or a drawing. The text typed is kept with the value. Nothing that could be true is refused:
 * what is doubtful is accepted and questioned (`questions`), only what has no reading at all is refused.
 */
import { err, ok, type Result } from '../result.ts';
import type { ENTRY_WORDS } from '../words/entry.ts';
import {
  type EntryKind,
  KEPT_UNIT,
  knownUnits,
  limitAfter,
  mayFollow,
  SUFFIXES,
  unitWithoutSuffix,
  type WrittenUnit,
} from './unitSuffixes.ts';

/** What the field takes, and how the instrument shows it. */
export type EntrySpec = {
  readonly kind: EntryKind;
  /** The unit of a number typed without one: a tape's `mm`, `cm`, `in`; an inclinometer's `deg`, `mm/m`, `%`. */
  readonly numbersIn?: string;
  /** Where a tape starts; at `hundred` 100 mm is subtracted. Only for lengths read off a tape. */
  readonly startsAt?: 'hook' | 'zero' | 'hundred';
};

type WordsOf<P extends string> = Extract<keyof typeof ENTRY_WORDS, `${P}.${string}`>;

/** A key that says why a text has no reading. */
export type RefusalKey = WordsOf<'entry'>;
/** A key that asks about a doubtful reading. */
export type QuestionKey = WordsOf<'slip'>;
/** A key that names a cure. */
export type CureKey = WordsOf<'cure'>;

/** A value that one tap takes; `pairValue` is what the partner field becomes when both are exchanged. */
export type Cure = { readonly key: CureKey; readonly value: number; readonly pairValue?: number };

/** A question shown beside a field; `cures` has the likeliest first and may be empty. */
export type EntryQuestion = { readonly key: QuestionKey; readonly cures: readonly Cure[] };

/** A text without a reading: plain message key, its slot values, and texts that would have one. */
export type EntryRefusal = {
  readonly code: 'entry/unreadable';
  readonly key: RefusalKey;
  readonly values: Readonly<Record<string, string>>;
  readonly suggestions: readonly string[];
};

/** A typed quantity: `value` in mm, rad, kPa, lx, km, °C, % or a bare count, by the kind asked for. */
export type TypedQuantity = {
  readonly value: number;
  readonly unit: (typeof KEPT_UNIT)[EntryKind];
  /** As typed, untouched. */
  readonly text: string;
  /** Name of the unit the text was read in. */
  readonly readIn: string;
  /** What was taken off because the tape starts at 100 mm; 0 otherwise. */
  readonly subtractedMm: number;
  readonly questions: readonly EntryQuestion[];
};

/** A journal keeps at most this many characters of a typed text. */
export const ENTRY_TEXT_LIMIT = 60;
/** More digits than this before the decimal sign fit no instrument. */
const DIGIT_LIMIT = 9;
/** Where a tape that starts at its 100 mm mark starts. */
const TAPE_START_MM = 100;
/** No grouping is suspected when the ungrouped number would be longer than any bay, mm. */
const LONGEST_MM = 30_000;

function refusal(
  key: RefusalKey,
  values: Readonly<Record<string, string>> = {},
  suggestions: readonly string[] = [],
): Result<never, EntryRefusal> {
  return err({ code: 'entry/unreadable', key, values, suggestions });
}

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** One spelling for the many signs keyboards and other programs give: quotes, minus, fractions, spaces. */
function plainSigns(text: string): string {
  return text
    .replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign] ?? sign}`)
    .replace(/\u2044/g, '/')
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\u2019\u2018\u2032\u00b4`]/g, "'")
    .replace(/[\u201c\u201d\u2033]|''/g, '"')
    .replace(/[\u00a0\u2009\u202f\t]/g, ' ')
    .replace(/\u00ba/g, '°')
    .trim()
    .toLowerCase()
    .replace(/([a-z])\.$/, '$1');
}

type Part = {
  readonly number: string;
  readonly whole: string;
  readonly over: string;
  readonly under: string;
  readonly suffix: string;
};

/** A number (decimal, fraction or whole with fraction) followed by what is not a digit: its suffix. */
const PART =
  /\s*(?:(?<whole>\d+)(?:\s+|\s*-\s*)(?<over1>\d+)\s*\/\s*(?<under1>\d+)|(?<over2>\d+)\s*\/\s*(?<under2>\d+)|(?<number>\d+[.,]?\d*|[.,]\d+))\s*(?<suffix>[^\d\s.,+-][^\d.,+-]*)?/y;

function splitParts(text: string): readonly Part[] | undefined {
  const parts: Part[] = [];
  PART.lastIndex = 0;
  while (PART.lastIndex < text.length) {
    const at = PART.lastIndex;
    const groups = PART.exec(text)?.groups;
    if (groups === undefined || PART.lastIndex === at) return undefined;
    parts.push({
      number: groups.number ?? '',
      whole: groups.whole ?? '',
      over: groups.over1 ?? groups.over2 ?? '',
      under: groups.under1 ?? groups.under2 ?? '',
      suffix: (groups.suffix ?? '').trim().replace(/\s+/g, ' '),
    });
  }
  return parts;
}

/** Why no number could be found in the text, as helpfully as can be said. */
function unreadable(text: string): Result<never, EntryRefusal> {
  const signs = text.replace(/[^.,]/g, '');
  if (signs.length > 1 && /^[-+]?[\d., ]+\D*$/.test(text)) {
    const last = Math.max(text.lastIndexOf('.'), text.lastIndexOf(','));
    const ungrouped = signs.split('').every((sign) => sign === signs[0])
      ? text.replace(/[., ]/g, '')
      : `${text.slice(0, last).replace(/[., ]/g, '')}${text.slice(last)}`;
    return refusal('entry.twoDecimalSigns', {}, [ungrouped]);
  }
  return refusal('entry.notANumber');
}

/** The number of one part, or why its fraction or its length cannot be. */
function numberOf(part: Part): Result<number, EntryRefusal> {
  const longest = Math.max(
    part.number.replace(/[.,].*$/, '').length,
    part.whole.length,
    part.over.length,
    part.under.length,
  );
  if (longest > DIGIT_LIMIT) return refusal('entry.tooManyDigits');
  if (part.number !== '') return ok(Number(part.number.replace(',', '.')));
  const over = Number(part.over);
  const under = Number(part.under);
  if (under === 0 || (part.whole !== '' && over >= under)) return refusal('entry.badFraction');
  return ok((part.whole === '' ? 0 : Number(part.whole)) + over / under);
}

function unitOfPart(
  part: Part,
  spec: EntrySpec,
  before: WrittenUnit | undefined,
): Result<WrittenUnit, EntryRefusal> {
  if (part.suffix === '') {
    // `5' 3` and `1° 30` go on in the next smaller unit, as they are spoken.
    const smaller =
      before === undefined ? undefined : SUFFIXES[spec.kind].get(spec.kind === 'length' ? '"' : "'");
    if (before !== undefined && smaller !== undefined && mayFollow(before, smaller)) return ok(smaller);
    return ok(unitWithoutSuffix(spec.kind, spec.numbersIn));
  }
  const unit = SUFFIXES[spec.kind].get(part.suffix);
  if (unit !== undefined) return ok(unit);
  return refusal('entry.unknownUnit', { unit: part.suffix, known: knownUnits(spec.kind).join(', ') });
}

type Sum = { readonly value: number; readonly unit: WrittenUnit };

/** Adds the parts of one entry (`5' 3 1/2"`), each brought to the kept unit first. */
function sumParts(parts: readonly Part[], spec: EntrySpec): Result<Sum, EntryRefusal> {
  let value = 0;
  let before: WrittenUnit | undefined;
  let first: WrittenUnit | undefined;
  for (const part of parts) {
    const number = numberOf(part);
    if (!number.ok) return number;
    const unit = unitOfPart(part, spec, before);
    if (!unit.ok) return unit;
    if (before !== undefined && !(mayFollow(before, unit.value) && number.value < limitAfter(before))) {
      return refusal('entry.unitsOutOfOrder');
    }
    value += unit.value.toKept(number.value);
    before = unit.value;
    first ??= unit.value;
  }
  return first === undefined ? refusal('entry.notANumber') : ok({ value, unit: first });
}

/** `1,350` and `1.350` in mm or cm: one sign, three digits behind, one to three before and no leading zero. */
function groupingQuestion(
  parts: readonly Part[],
  sum: Sum,
  spec: EntrySpec,
  negative: boolean,
): EntryQuestion | undefined {
  const [part] = parts;
  if (spec.kind !== 'length' || parts.length !== 1 || part === undefined) return undefined;
  if (sum.unit.name !== 'mm' && sum.unit.name !== 'cm') return undefined;
  const match = /^([1-9]\d{0,2})[.,](\d{3})$/.exec(part.number);
  if (match === null) return undefined;
  const ungrouped = sum.unit.toKept(Number(`${match[1] ?? ''}${match[2] ?? ''}`));
  if (ungrouped > LONGEST_MM) return undefined;
  const start = startOf(spec);
  const sign = negative ? -1 : 1;
  return {
    key: 'slip.grouped',
    cures: [
      { key: 'cure.take', value: sign * ungrouped - start },
      { key: 'cure.keep', value: sign * sum.value - start },
    ],
  };
}

function startOf(spec: EntrySpec): number {
  return spec.kind === 'length' && spec.startsAt === 'hundred' ? TAPE_START_MM : 0;
}

/** Two bare numbers such as `1 350`: a suggestion without the space when it looks like a grouped number. */
function twoBareNumbers(parts: readonly Part[], text: string): Result<never, EntryRefusal> | undefined {
  const bareBeforeLast = parts.slice(0, -1).some((part) => part.suffix === '');
  if (parts.length < 2 || !bareBeforeLast) return undefined;
  const grouped = /^[-+]?\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?=\D*$)/.test(text);
  return refusal('entry.twoNumbers', {}, grouped ? [text.replace(/(\d) (?=\d)/g, '$1')] : []);
}

/**
 * Reads one typed quantity. `parseQuantity('47 1/4 in', { kind: 'length' })` gives 1200.15 (mm);
 * `parseQuantity('1,350', ...)` gives 1.35 mm and the question whether 1350 was meant.
 */
export function parseQuantity(text: string, spec: EntrySpec): Result<TypedQuantity, EntryRefusal> {
  if (text.length > ENTRY_TEXT_LIMIT) return refusal('entry.tooLong');
  const plain = plainSigns(text);
  if (plain === '') return refusal('entry.empty');
  const negative = plain.startsWith('-');
  const unsigned = plain.replace(/^[-+]\s*/, '');
  const parts = splitParts(unsigned);
  if (parts === undefined) return unreadable(plain);
  if (/\d[.,]\d+[.,]\d/.test(unsigned)) return unreadable(plain);
  const two = twoBareNumbers(parts, plain);
  if (two !== undefined) return two;
  const sum = sumParts(parts, spec);
  if (!sum.ok) return sum;
  const start = startOf(spec);
  const question = groupingQuestion(parts, sum.value, spec, negative);
  return ok({
    value: (negative ? -sum.value.value : sum.value.value) - start,
    unit: KEPT_UNIT[spec.kind],
    text,
    readIn: sum.value.unit.name,
    subtractedMm: start,
    questions: question === undefined ? [] : [question],
  });
}
