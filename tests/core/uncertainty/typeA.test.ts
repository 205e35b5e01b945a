import { describe, expect, test } from 'vitest';
import {
  compensatedSum,
  correlationOfReadings,
  lagOneCorrelation,
  mean,
  pooledDeviation,
  squaresAboutMean,
  standardDeviation,
  typeA,
} from '../../../core/uncertainty/typeA.ts';

describe('Type A', () => {
  test('what a plain sum loses is kept', () => {
    expect(compensatedSum([1e16, 1, -1e16])).toBe(1);
    expect(compensatedSum(Array.from({ length: 10 }, () => 0.1))).toBe(1);
    expect(compensatedSum([])).toBe(0);
  });

  test('readings that share seven digits keep their deviation', () => {
    expect(standardDeviation([1e9 + 4, 1e9 + 7, 1e9 + 13, 1e9 + 16])).toBeCloseTo(Math.sqrt(30), 12);
    expect(squaresAboutMean([5, 5, 5])).toBe(0);
  });

  test('three readings: mean, s / sqrt 3, two degrees of freedom', () => {
    expect(typeA('r', [1350, 1351, 1352])).toEqual({
      id: 'r',
      label: 'r',
      value: 1351,
      u: 1 / Math.sqrt(3),
      dof: 2,
    });
  });

  test('too few readings are bugs', () => {
    expect(() => mean([])).toThrow(/no readings/);
    expect(() => standardDeviation([1])).toThrow(/two readings/);
    expect(() => pooledDeviation([[1], [2]])).toThrow(/pooling/);
    expect(() => correlationOfReadings([1, 2], [1])).toThrow(/pairs/);
    expect(() => correlationOfReadings([1, 2], [3, 3])).toThrow(/never change/);
  });

  test('correlation: 1 for a rising line, -1 for a falling one, 0 for a symmetric bow, never past 1', () => {
    const x = [0.1, 0.2, 0.3, 0.4, 0.5];
    expect(
      correlationOfReadings(
        x,
        x.map((v) => 3 * v + 7),
      ),
    ).toBeCloseTo(1, 12);
    expect(correlationOfReadings(x, x)).toBeLessThanOrEqual(1);
    expect(
      correlationOfReadings(
        x,
        x.map((v) => -v),
      ),
    ).toBeCloseTo(-1, 12);
    expect(correlationOfReadings([-2, -1, 0, 1, 2], [4, 1, 0, 1, 4])).toBeCloseTo(0, 14);
  });

  test('a drift remembers the reading before, an alternation opposes it', () => {
    expect(lagOneCorrelation(Array.from({ length: 50 }, (_, i) => i))).toBeGreaterThan(0.9);
    expect(lagOneCorrelation(Array.from({ length: 50 }, (_, i) => i % 2))).toBeLessThan(-0.9);
  });

  test('pooling takes each group about its own mean: where the groups lie plays no part', () => {
    const pooled = pooledDeviation([
      [10, 12],
      [500, 503, 506],
    ]);
    expect(pooled.dof).toBe(3);
    expect(pooled.s).toBeCloseTo(Math.sqrt((2 + 18) / 3), 12);
    expect(pooledDeviation([[0, 2], [3]]).dof).toBe(1);
  });
});
