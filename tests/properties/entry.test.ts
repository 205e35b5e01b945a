import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseQuantity, questionReading } from '../../core/entry/index.ts';
import { formatFixed, mmFromInch } from '../../core/units.ts';

const SEED = 7117;
const runs = { seed: SEED, numRuns: 200 };

describe(`typed quantities (seed ${SEED})`, () => {
  test('a number written with either decimal sign is read as the same number', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -30_000_00, max: 30_000_00 }),
        fc.constantFrom('.' as const, ',' as const),
        (hundredths, sign) => {
          const text = formatFixed(hundredths / 100, 2, sign);
          const read = parseQuantity(text, { kind: 'length' });
          expect(read.ok && read.value.value).toBeCloseTo(hundredths / 100, 9);
          expect(read.ok && read.value.questions).toEqual([]);
        },
      ),
      runs,
    );
  });

  test('a mixed number of inches is its whole and its fraction', () => {
    const sixteenths = fc.integer({ min: 1, max: 15 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 400 }), sixteenths, (whole, over) => {
        const read = parseQuantity(`${whole} ${over}/16"`, { kind: 'length' });
        expect(read.ok && read.value.value).toBeCloseTo(mmFromInch(whole + over / 16), 9);
      }),
      runs,
    );
  });

  test('no text throws, and what is read is finite and kept as typed', () => {
    const text = fc.oneof(
      fc.string({ maxLength: 70 }),
      fc.string({ unit: fc.constantFrom(...'0123456789.,/ -+\'"°minft%½'), maxLength: 20 }),
    );
    fc.assert(
      fc.property(text, fc.constantFrom('length' as const, 'angle' as const), (typed, kind) => {
        const read = parseQuantity(typed, { kind, startsAt: 'hundred' });
        if (!read.ok) {
          expect(read.error.key.startsWith('entry.')).toBe(true);
          return;
        }
        expect(Number.isFinite(read.value.value)).toBe(true);
        expect(read.value.text).toBe(typed);
      }),
      { ...runs, numRuns: 2000 },
    );
  });

  test('the offered cure of a factor slip raises no further question', () => {
    const factors = fc.constantFrom(10, 0.1, 1 / 25.4);
    fc.assert(
      fc.property(fc.integer({ min: 400, max: 6000 }), factors, (expected, factor) => {
        const context = { limits: { min: 0, max: 8000 }, expected };
        const question = questionReading(expected * factor, context);
        expect(question?.cures[0]?.key).toBe('cure.take');
        expect(questionReading(question?.cures[0]?.value ?? Number.NaN, context)).toBeUndefined();
      }),
      runs,
    );
  });
});
