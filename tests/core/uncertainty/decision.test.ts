import { describe, expect, test } from 'vitest';
import { type Decision, decide, GUARD_FACTOR, type Tolerance } from '../../../core/uncertainty/decision.ts';

function words({ verdict, wording }: Decision): string {
  return wording === undefined ? verdict : `${verdict}: ${wording}`;
}

describe('guarded rule, limits -4 and +4', () => {
  const limits = { lower: -4, upper: 4 };

  test('|d| + 1.645 u <= T is proven, |d| - 1.645 u > T is outside, else not proven', () => {
    const rows = [
      [0, 1, 'proven'],
      [2.3, 1, 'proven'],
      [-2.3, 1, 'proven'],
      [2.4, 1, 'notProven: within'],
      [-2.4, 1, 'notProven: within'],
      [3.9, 1, 'notProven: within'],
      [4.1, 1, 'notProven: beyond'],
      [-4.1, 1, 'notProven: beyond'],
      [5.6, 1, 'notProven: beyond'],
      [5.7, 1, 'outside'],
      [-5.7, 1, 'outside'],
    ] as const;
    for (const [d, u, expected] of rows) expect(words(decide(d, u, limits)), `d = ${d}`).toBe(expected);
  });

  test('2 u > T cannot be judged where it is neither proven nor outside, on either side of the limit', () => {
    expect(words(decide(1, 2.1, limits))).toBe('notProven: cannotBeJudged');
    expect(words(decide(5, 2.1, limits))).toBe('notProven: cannotBeJudged');
    expect(words(decide(1, 1.9, limits))).toBe('notProven: within');
    // Far enough out even a poor reading decides; near enough to the middle too.
    expect(words(decide(20, 2.1, limits))).toBe('outside');
    expect(words(decide(0.4, 2.1, limits))).toBe('proven');
  });

  test('within 1e-9 of a limit the stricter verdict holds', () => {
    const edge = 4 - GUARD_FACTOR;
    expect(words(decide(edge, 1, limits))).toBe('notProven: within');
    expect(words(decide(edge - 0.9e-9, 1, limits))).toBe('notProven: within');
    expect(words(decide(edge - 1.1e-9, 1, limits))).toBe('proven');
    expect(words(decide(4, 1, limits))).toBe('notProven: beyond');
    expect(words(decide(4 - 0.9e-9, 1, limits))).toBe('notProven: beyond');
    expect(words(decide(4 - 1.1e-9, 1, limits))).toBe('notProven: within');
    const far = 4 + GUARD_FACTOR;
    expect(words(decide(far, 1, limits))).toBe('outside');
    expect(words(decide(far - 0.9e-9, 1, limits))).toBe('outside');
    expect(words(decide(far - 1.1e-9, 1, limits))).toBe('notProven: beyond');
    // 2 u = T exactly: cannot be judged.
    expect(words(decide(3, 2, limits))).toBe('notProven: cannotBeJudged');
    expect(words(decide(3, 2 - 1e-8, limits))).toBe('notProven: within');
  });

  test('the same numbers mirrored give the mirrored verdict and the same probability', () => {
    for (const d of [0.3, 2.2, 2.5, 3.7, 4.2, 6]) {
      const [plus, minus] = [decide(d, 0.9, limits), decide(-d, 0.9, limits)];
      expect(words(plus)).toBe(words(minus));
      expect(plus.probability).toBeCloseTo(minus.probability, 14);
    }
  });

  test('at the edge of proven the probability of conformity is at least 95 %', () => {
    const { verdict, probability } = decide(4 - GUARD_FACTOR * 0.5 - 2e-9, 0.5, limits);
    expect(verdict).toBe('proven');
    expect(probability).toBeGreaterThanOrEqual(0.95);
    expect(probability).toBeLessThan(0.9502);
  });
});

describe('other tolerances', () => {
  test('one-sided: only its own limit counts', () => {
    const above: Tolerance = { upper: 5 };
    expect(words(decide(-1000, 1, above))).toBe('proven');
    expect(words(decide(4, 1, above))).toBe('notProven: within');
    expect(words(decide(6, 1, above))).toBe('notProven: beyond');
    expect(words(decide(7, 1, above))).toBe('outside');
    expect(words(decide(4, 3, above))).toBe('notProven: cannotBeJudged');
    expect(decide(-1000, 1, above).probability).toBe(1);
    const below: Tolerance = { lower: -5 };
    expect(words(decide(1000, 1, below))).toBe('proven');
    expect(words(decide(-7, 1, below))).toBe('outside');
  });

  test('a single limit at no deviation leaves room on its other side: a better position helps, so it can be judged', () => {
    expect(words(decide(-0.5, 1, { upper: 0 }))).toBe('notProven: within');
    expect(words(decide(-2, 1, { upper: 0 }))).toBe('proven');
    expect(words(decide(0.5, 1, { upper: 0 }))).toBe('notProven: beyond');
  });

  test('unequal: the nearer limit decides, half the width is what 2 u is measured by', () => {
    const limits = { lower: -2, upper: 6 };
    expect(words(decide(-1, 1, limits))).toBe('notProven: within');
    expect(words(decide(1, 1, limits))).toBe('proven');
    expect(words(decide(-4, 1, limits))).toBe('outside');
    expect(words(decide(5, 1, limits))).toBe('notProven: within');
    expect(words(decide(-1, 2.1, limits))).toBe('notProven: cannotBeJudged');
  });

  test('a range that does not contain zero', () => {
    const range = { lower: 1300, upper: 1400 };
    expect(words(decide(1350, 5, range))).toBe('proven');
    expect(words(decide(1303, 5, range))).toBe('notProven: within');
    expect(words(decide(1280, 5, range))).toBe('outside');
  });

  test('limits in the wrong order, or a deviation that is no number, are bugs', () => {
    expect(() => decide(0, 1, { lower: 1, upper: -1 })).toThrow(/tolerance/);
    expect(() => decide(Number.NaN, 1, { upper: 1 })).toThrow(/deviation/);
  });
});

describe('other rules', () => {
  const limits = { lower: -4, upper: 4 };

  test('simple: no guard band, nothing between proven and outside', () => {
    expect(words(decide(3.99, 3, limits, 'simple'))).toBe('proven');
    expect(words(decide(4.01, 3, limits, 'simple'))).toBe('outside');
    expect(words(decide(4, 3, limits, 'simple'))).toBe('outside');
    expect(decide(3.99, 3, limits, 'simple').guard).toBe(0);
  });

  test('fullU: the whole U on both sides, 2 u unless U is given', () => {
    expect(words(decide(1.9, 1, limits, 'fullU'))).toBe('proven');
    expect(words(decide(2.1, 1, limits, 'fullU'))).toBe('notProven: within');
    expect(words(decide(5.9, 1, limits, 'fullU'))).toBe('notProven: beyond');
    expect(words(decide(6.1, 1, limits, 'fullU'))).toBe('outside');
    expect(words(decide(1.9, 1, limits, 'fullU', 2.3))).toBe('notProven: within');
    expect(decide(1.9, 1, limits, 'fullU', 2.3).guard).toBe(2.3);
  });

  test('no uncertainty at all: probability one inside and nought outside', () => {
    expect(decide(3, 0, limits)).toMatchObject({ verdict: 'proven', probability: 1 });
    expect(decide(5, 0, limits)).toMatchObject({ verdict: 'outside', probability: 0 });
  });
});
