/** One table of what people type and what is understood, run in every language: the language changes words, never a value. */
import { describe, expect, test } from 'vitest';
import {
  type EntrySpec,
  parseQuantity,
  questionReading,
  type ReadingContext,
} from '../../../core/entry/index.ts';
import { fillTemplate, inLanguage, LANGUAGES, templateOf, wordFaults } from '../../../core/words/index.ts';

const mm: EntrySpec = { kind: 'length', numbersIn: 'mm', startsAt: 'zero' };
const cm: EntrySpec = { kind: 'length', numbersIn: 'cm', startsAt: 'zero' };
const inch: EntrySpec = { kind: 'length', numbersIn: 'in', startsAt: 'hook' };
const hook: EntrySpec = { kind: 'length', numbersIn: 'mm', startsAt: 'hook' };
const hundred: EntrySpec = { kind: 'length', numbersIn: 'mm', startsAt: 'hundred' };

/** Typed, on which tape, understood in mm. */
const READ: readonly (readonly [string, EntrySpec, number])[] = [
  ['1350', mm, 1350],
  ['1350,5', mm, 1350.5],
  ['1350.5', mm, 1350.5],
  [',5', mm, 0.5],
  ['.5', mm, 0.5],
  ['1,35 m', mm, 1350],
  ['1.35 m', mm, 1350],
  ['135,05', cm, 1350.5],
  ['135.05 cm', mm, 1350.5],
  ['3 1/2"', mm, 88.9],
  ['3 1/2', inch, 88.9],
  ['47¼ in', mm, 1200.15],
  ['47,25 Zoll', mm, 1200.15],
  ['47.25 inch', mm, 1200.15],
  ['5\' 3 1/2"', mm, 1612.9],
  ['5 Fuß 3 Zoll', mm, 1600.2],
  ['5 ft 3 in', mm, 1600.2],
  ['1200 mm', inch, 1200],
  ['1450', hook, 1450],
  ['1450', hundred, 1350],
  ['145,0 cm', hundred, 1350],
  ['10 in', hundred, 154],
];

/** Typed, asked about, and the first cure, mm. */
const GROUPED = [
  ['1,350', 1350],
  ['1.350', 1350],
] as const;

const REFUSED = [
  ['', 'entry.empty'],
  ['abc', 'entry.notANumber'],
  ['1,350.5', 'entry.twoDecimalSigns'],
  ['1 350', 'entry.twoNumbers'],
  ['3 5/4 in', 'entry.badFraction'],
  ['12 furlongs', 'entry.unknownUnit'],
  ['3" 4\'', 'entry.unitsOutOfOrder'],
  ['1234567890', 'entry.tooManyDigits'],
  ['1'.repeat(61), 'entry.tooLong'],
] as const;

const limits = { min: 0, max: 8000 };
const about = (expected: number): ReadingContext => ({ limits, expected });

/** Read, what is known, asked, first cure. */
const SLIPS: readonly (readonly [number, ReadingContext, string, number])[] = [
  [13500, about(1352), 'slip.tenTimesTooBig', 1350],
  [135, about(1352), 'slip.tenTimesTooSmall', 1350],
  [53.15, about(1352), 'slip.inchesAsMm', 1350.01],
  [34290, about(1352), 'slip.mmAsInches', 1350],
  [1450, about(1352), 'slip.hundredTooMuch', 1350],
  [1250, about(1352), 'slip.hundredTooLittle', 1350],
  [-1350, { limits }, 'slip.negative', 1350],
  [2000, about(1352), 'slip.farOff', 2000],
];

describe.each(LANGUAGES)('typed in a window that speaks %s', (language) => {
  /** The words a person is shown for a key; fails where this language has none of its own. */
  function shown(key: string, values: Readonly<Record<string, string>> = {}): string {
    const template = templateOf(key, language) ?? '';
    expect(template).not.toBe('');
    if (language !== 'en') expect(template).not.toBe(templateOf(key, 'en'));
    return fillTemplate(template, values);
  }

  test.each(READ)('%s', (text, spec, wanted) => {
    const read = inLanguage(language, () => parseQuantity(text, spec));
    expect(read).toMatchObject({ ok: true, value: { text, unit: 'mm', questions: [] } });
    expect(read.ok ? read.value.value : Number.NaN).toBeCloseTo(wanted, 9);
  });

  test.each(GROUPED)('%s is asked about, and may be %f', (text, grouped) => {
    const read = inLanguage(language, () => parseQuantity(text, mm));
    const [question] = read.ok ? read.value.questions : [];
    expect(question?.key).toBe('slip.grouped');
    expect(question?.cures[0]?.value).toBe(grouped);
    expect(inLanguage(language, () => wordFaults(shown('slip.grouped')))).toEqual([]);
  });

  test.each(REFUSED)('%j is refused: %s', (text, key) => {
    const read = inLanguage(language, () => parseQuantity(text, mm));
    expect(read).toMatchObject({ ok: false, error: { key } });
    if (!read.ok) expect(shown(read.error.key, read.error.values)).not.toContain('{');
  });

  test.each(SLIPS)('%f where it is unlikely', (value, context, key, cure) => {
    const question = inLanguage(language, () => questionReading(value, context));
    expect(question?.key).toBe(key);
    expect(question?.cures[0]?.value).toBeCloseTo(cure, 6);
    expect(shown(key)).toMatch(/[.?]$/);
    for (const each of question?.cures ?? [])
      expect(shown(each.key, { value: '1350 mm' })).toContain('1350 mm');
  });
});
