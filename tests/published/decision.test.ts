/** Conformity: JCGM 106:2012 worked numbers, the three zones of ISO 14253-1, ILAC-G8:09/2019. */
import { describe, expect, test } from 'vitest';
import { normalQuantile } from '../../core/uncertainty/coverage.ts';
import { decide, probabilityWithin } from '../../core/uncertainty/decision.ts';

describe('probability of conformity', () => {
  test('7.3, one limit: breakdown voltage -5.47 V, u 0.05, limit -5.40 (example from memory): 0.92', () => {
    const p = probabilityWithin(-5.47, 0.05, { upper: -5.4 });
    expect(p).toBeCloseTo(0.919243341, 9);
    expect(p.toFixed(2)).toBe('0.92');
  });

  test('7.4, two limits: viscosity 13.6, u 1.8, limits 12.5 and 16.3 (example from memory): 0.66', () => {
    const p = probabilityWithin(13.6, 1.8, { lower: 12.5, upper: 16.3 });
    expect(p).toBeCloseTo(0.933192799 - 0.270563012, 8);
    expect(p.toFixed(2)).toBe('0.66');
  });

  test('Table 1: z for 0.80, 0.90, 0.95, 0.99, 0.999', () => {
    const rows = [
      [0.8, 0.841621],
      [0.9, 1.281552],
      [0.95, 1.644854],
      [0.99, 2.326348],
      [0.999, 3.090232],
    ] as const;
    for (const [p, z] of rows) {
      expect(normalQuantile(p)).toBeCloseTo(z, 6);
      expect(probabilityWithin(-z, 1, { upper: 0 })).toBeCloseTo(p, 6);
    }
  });

  test('a guard band of U = 2u leaves 97.7 % at its edge (ILAC-G8)', () => {
    expect(probabilityWithin(-2, 1, { upper: 0 })).toBeCloseTo(0.977249868, 9);
  });

  test('N(10, 0.4) within 9..11: 1.242 % outside (suncal, specific risk)', () => {
    expect(1 - probabilityWithin(10, 0.4, { lower: 9, upper: 11 })).toBeCloseTo(0.01242, 5);
    expect(1 - probabilityWithin(10.5, 0.4, { lower: 9, upper: 11 })).toBeCloseTo(0.10574, 5);
  });
});

describe('ISO 14253-1 zones for limits -1 and +1, u = 0.1 (guard band 0.1645)', () => {
  const limits = { lower: -1, upper: 1 };
  const rows = [
    [0.8, 'proven', undefined],
    [0.9, 'notProven', 'within'],
    [1.1, 'notProven', 'beyond'],
    [1.2, 'outside', undefined],
    [-0.8, 'proven', undefined],
    [-0.9, 'notProven', 'within'],
    [-1.1, 'notProven', 'beyond'],
    [-1.2, 'outside', undefined],
  ] as const;

  test.each(rows)('a deviation of %d is %s (%s)', (deviation, verdict, wording) => {
    expect(decide(deviation, 0.1, limits)).toMatchObject({ verdict });
    expect(decide(deviation, 0.1, limits).wording).toBe(wording);
  });

  test('exactly at the edge of the guard band, 0.8355, the stricter verdict holds', () => {
    expect(decide(0.8355, 0.1, limits)).toMatchObject({ verdict: 'notProven', wording: 'within' });
    expect(decide(0.8355 - 1e-8, 0.1, limits).verdict).toBe('proven');
    expect(decide(1.1645, 0.1, limits).verdict).toBe('outside');
    expect(decide(1.1645 - 1e-8, 0.1, limits)).toMatchObject({ verdict: 'notProven', wording: 'beyond' });
  });
});
