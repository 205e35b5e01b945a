import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MOST_TAKEN, recentValues, TAKE_MS, takeOf } from '../../../core/instruments/index.ts';

describe('a take', () => {
  test('of nothing is none, of one value has no spread', () => {
    expect(takeOf([])).toBeUndefined();
    expect(takeOf([12.5])).toEqual({ n: 1, mean: 12.5, s: null });
  });

  test('has mean and sample standard deviation', () => {
    // By hand: mean 5, squares 9 + 1 + 1 + 1 + 0 + 0 + 4 + 16 = 32, s = sqrt(32 / 7).
    expect(takeOf([2, 4, 4, 4, 5, 5, 7, 9])).toEqual({ n: 8, mean: 5, s: Math.sqrt(32 / 7) });
  });

  test('of equal values has no spread at all, however long the number', () => {
    expect(takeOf(Array.from({ length: 1000 }, () => 0.1 + 0.2))).toEqual({ n: 1000, mean: 0.1 + 0.2, s: 0 });
  });

  test('does not lose a small spread on a large value', () => {
    const take = takeOf([1e9, 1e9 + 1, 1e9 + 2]);
    expect(take).toEqual({ n: 3, mean: 1e9 + 1, s: 1 });
  });

  test('moves with its values and scales with them (seed 7)', () => {
    const values = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 50 });
    fc.assert(
      fc.property(values, fc.integer({ min: -500, max: 500 }), (list, by) => {
        const [one, moved, doubled] = [list, list.map((v) => v + by), list.map((v) => 2 * v)].map(takeOf);
        expect(moved?.mean).toBeCloseTo((one?.mean ?? 0) + by, 9);
        expect(moved?.s).toBeCloseTo(one?.s ?? -1, 9);
        expect(doubled?.s).toBeCloseTo(2 * (one?.s ?? -1), 9);
      }),
      { seed: 7 },
    );
  });
});

describe('the values of the last moment', () => {
  test('older ones are forgotten', () => {
    const recent = recentValues();
    for (let n = 0; n < 10; n += 1) recent.add(n, n * 200);
    expect(recent.take(1800)).toEqual(takeOf([5, 6, 7, 8, 9]));
    expect(recent.take(1800 + TAKE_MS - 1)).toEqual(takeOf([9]));
    expect(recent.take(1800 + TAKE_MS)).toBeUndefined();
  });

  test('of too many the newest are taken', () => {
    const recent = recentValues();
    for (let n = 0; n < 5 * MOST_TAKEN; n += 1) recent.add(n, 10);
    expect(recent.take(10)).toEqual(takeOf(Array.from({ length: MOST_TAKEN }, (_, n) => 4 * MOST_TAKEN + n)));
  });

  test('are gone after a break', () => {
    const recent = recentValues();
    recent.add(1, 0);
    recent.clear();
    expect(recent.take(1)).toBeUndefined();
  });
});
