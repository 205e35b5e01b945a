import { describe, expect, test } from 'vitest';
import { FINE_STEPS, niceBelow } from '../../../core/drawing/niceScale.ts';

describe('round numbers under a limit', () => {
  test.each([
    [37, 20],
    [50, 50],
    [99.9, 50],
    [100, 100],
    [0.3, 0.2],
    [0.02, 0.02],
    [1, 1],
    [7.3, 5],
  ])('under %d it is %d', (limit, expected) => {
    expect(niceBelow(limit)).toBeCloseTo(expected, 12);
  });

  test.each([
    [93, 80],
    [37, 30],
    [29, 25],
    [1.9, 1.5],
    [180, 150],
  ])('in fine steps under %d it is %d', (limit, expected) => {
    expect(niceBelow(limit, FINE_STEPS)).toBeCloseTo(expected, 12);
  });

  test('never wastes more than the gap between two steps', () => {
    for (let limit = 0.013; limit < 5000; limit *= 1.17) {
      expect(niceBelow(limit)).toBeLessThanOrEqual(limit * (1 + 1e-9));
      expect(niceBelow(limit)).toBeGreaterThan(limit / 2.5000001);
      expect(niceBelow(limit, FINE_STEPS)).toBeGreaterThan(limit / 1.5000001);
    }
  });

  test('a quotient that misses a round number by its last figures still finds it', () => {
    expect(niceBelow(50 * (1 - 1e-15))).toBe(50);
  });

  test('a limit that is no length is a bug', () => {
    expect(() => niceBelow(0)).toThrow(/positive/);
    expect(() => niceBelow(-3)).toThrow(/positive/);
    expect(() => niceBelow(Number.POSITIVE_INFINITY)).toThrow(/positive/);
  });
});
