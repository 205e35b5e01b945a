import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../core/procedure/evaluate.ts';
import { parseExpression } from '../../core/procedure/expression.ts';
import { lengthOf } from '../../core/procedure/measure.ts';

const SEED = 4211;
const inputs = new Map([['reach', lengthOf(870)]]);

/** Random trees with the value worked out beside them; every leaf is a length, so sums always match. */
const sum: fc.Arbitrary<{ readonly text: string; readonly mm: number }> = fc.letrec<{
  tree: { readonly text: string; readonly mm: number };
  leaf: { readonly text: string; readonly mm: number };
}>((tie) => ({
  leaf: fc.oneof(
    fc.integer({ min: 0, max: 2000 }).map((n) => ({ text: `${n} mm`, mm: n })),
    fc.integer({ min: 0, max: 80 }).map((n) => ({ text: `${n} in`, mm: n * 25.4 })),
    fc.constant({ text: 'reach', mm: 870 }),
  ),
  tree: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    tie('leaf'),
    fc
      .tuple(tie('tree'), tie('tree'))
      .map(([a, b]) => ({ text: `(${a.text} + ${b.text})`, mm: a.mm + b.mm })),
    fc
      .tuple(tie('tree'), tie('tree'))
      .map(([a, b]) => ({ text: `(${a.text} - ${b.text})`, mm: a.mm - b.mm })),
    fc.tuple(tie('tree'), tie('tree')).map(([a, b]) => ({
      text: `max(${a.text}, ${b.text})`,
      mm: Math.max(a.mm, b.mm),
    })),
    fc.tuple(tie('tree'), fc.integer({ min: 1, max: 9 })).map(([a, n]) => ({
      text: `${a.text} * ${n} / 2`,
      mm: (a.mm * n) / 2,
    })),
  ),
})).tree;

describe(`expressions (seed ${SEED})`, () => {
  test('have the value that is worked out beside them', () => {
    fc.assert(
      fc.property(sum, ({ text, mm }) => {
        const parsed = parseExpression(text);
        if (!parsed.ok) {
          expect(parsed.error.code).toMatch(/TooLong|TooComplex/);
          return;
        }
        const value = evaluate(parsed.value, inputs);
        expect(value.ok && value.value.value).toBeCloseTo(mm, 6);
        expect(value.ok && value.value.length).toBe(1);
      }),
      { seed: SEED, numRuns: 500 },
    );
  });

  test('no text throws, and what evaluates is finite', () => {
    const text = fc.oneof(
      fc.string({ maxLength: 320 }),
      fc.string({ unit: fc.constantFrom(...'0123456789.,+-*/^() mindegreachsqrt=[]{}:;'), maxLength: 60 }),
    );
    fc.assert(
      fc.property(text, (typed) => {
        const parsed = parseExpression(typed);
        if (!parsed.ok) return;
        const value = evaluate(parsed.value, inputs);
        if (value.ok) expect(Number.isFinite(value.value.value)).toBe(true);
        else expect(value.error.code.startsWith('procedure/')).toBe(true);
      }),
      { seed: SEED, numRuns: 3000 },
    );
  });
});
