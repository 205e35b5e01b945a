/**
 * NIST Statistical Reference Datasets (https://www.itl.nist.gov/div898/strd), univariate and one-way analysis of
 * variance. Certified values as published; the log relative error is the number of certified digits reproduced.
 */
import { describe, expect, test } from 'vitest';
import { oneWay } from '../../core/uncertainty/oneWay.ts';
import { lagOneCorrelation, mean, standardDeviation } from '../../core/uncertainty/typeA.ts';
import { digitsRight } from './logRelativeError.ts';

// biome-ignore format: Mavro, as published
const MAVRO = [
    2.00180, 2.00170, 2.00180, 2.00190, 2.00180, 2.00170, 2.00150, 2.00140, 2.00150, 2.00150,
    2.00170, 2.00180, 2.00180, 2.00190, 2.00190, 2.00210, 2.00200, 2.00160, 2.00140, 2.00130,
    2.00130, 2.00150, 2.00150, 2.00160, 2.00150, 2.00140, 2.00130, 2.00140, 2.00150, 2.00140,
    2.00150, 2.00160, 2.00150, 2.00160, 2.00190, 2.00200, 2.00200, 2.00210, 2.00220, 2.00230,
    2.00240, 2.00250, 2.00270, 2.00260, 2.00260, 2.00260, 2.00270, 2.00260, 2.00250, 2.00240,
];

// biome-ignore format: SiRstv, as published
const SI_RSTV = [
    [196.3052, 196.1240, 196.1890, 196.2569, 196.3403],
    [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
    [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
    [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
    [196.2119, 196.1051, 196.1850, 196.0052, 196.2090],
];

/** A first value, then two values in turn, 500 times. */
function alternating(first: number, low: number, high: number): readonly number[] {
  return [first, ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high))];
}

/** SmLs sets: nine groups, each its base, then base - 0.1 and base + 0.1 in turn; all moved by `offset`. */
function smls(offset: number, pairs: number): readonly (readonly number[])[] {
  // Written in tenths and as decimal text, so that each reading is the double nearest to the published one.
  const reading = (tenths: number): number => Number(`${offset + Math.floor(tenths / 10)}.${tenths % 10}`);
  return [14, 13, 15, 13, 15, 13, 15, 13, 15].map((base) => [
    reading(base),
    ...Array.from({ length: 2 * pairs }, (_, i) => reading(i % 2 === 0 ? base - 1 : base + 1)),
  ]);
}

describe('univariate: mean, standard deviation, lag-1 autocorrelation', () => {
  // Least digits for each: the data of NumAcc3 and 4 are themselves rounded to 1e-16 of a million and more.
  const rows = [
    ['Mavro', MAVRO, 2.001856, 0.000429123454003053, 0.937989183438248, [15, 12, 11]],
    ['NumAcc1', [10000001, 10000003, 10000002], 10000002, 1, -0.5, [15, 15, 15]],
    ['NumAcc2', alternating(1.2, 1.1, 1.3), 1.2, 0.1, -0.999, [15, 14, 14]],
    ['NumAcc3', alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, -0.999, [15, 9, 9]],
    ['NumAcc4', alternating(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, -0.999, [15, 8, 8]],
  ] as const;

  test.each(rows)('%s', (_, data, average, s, lag, least) => {
    const found = [
      digitsRight(mean(data), average),
      digitsRight(standardDeviation(data), s),
      digitsRight(lagOneCorrelation(data), lag),
    ];
    found.forEach((digits, i) => {
      expect(digits, `figure ${i} of ${found.map((d) => d.toFixed(1)).join(' ')}`).toBeGreaterThanOrEqual(
        least[i] ?? 15,
      );
    });
  });

  test('the sets are whole', () => {
    expect(MAVRO).toHaveLength(50);
    expect(alternating(0, 1, 2)).toHaveLength(1001);
  });
});

describe('one-way analysis of variance', () => {
  test('SiRstv, lower difficulty: the table to nine digits and more', () => {
    const { between, within, f, rSquared } = oneWay(SI_RSTV);
    expect([between.dof, within.dof]).toEqual([4, 20]);
    const certified = [
      [between.squares, 5.11462616e-2],
      [between.meanSquare, 1.27865654e-2],
      [within.squares, 2.1663656e-1],
      [within.meanSquare, 1.0831828e-2],
      [f, 1.18046237440255],
      [rSquared, 1.90999039051129e-1],
      [Math.sqrt(within.meanSquare), 1.04076068334656e-1],
    ] as const;
    for (const [found, value] of certified) expect(digitsRight(found, value), `${value}`).toBeGreaterThan(11);
  });

  test('SmLs01 (21 a group) and SmLs02 (201), lower difficulty', () => {
    for (const [pairs, between, within, f, r] of [
      [10, 1.68, 1.8, 21, 4.82758620689655e-1],
      [100, 16.08, 18, 201, 4.71830985915493e-1],
    ] as const) {
      const found = oneWay(smls(0, pairs));
      expect(found.within.dof).toBe(9 * (2 * pairs + 1) - 9);
      for (const [value, certified] of [
        [found.between.squares, between],
        [found.within.squares, within],
        [found.f, f],
        [found.rSquared, r],
        [Math.sqrt(found.within.meanSquare), 0.1],
      ] as const) {
        expect(digitsRight(value, certified), `${certified}`).toBeGreaterThan(12);
      }
    }
  });

  test('SmLs04 (a million added) and SmLs07 (1e12 added): what a double still holds of the readings', () => {
    const digits = (offset: number): number => digitsRight(oneWay(smls(offset, 10)).f, 21);
    expect(digits(1e6)).toBeGreaterThan(8);
    // Readings of 1e12 are rounded to 1.2e-4, a thousandth of their differences: no arithmetic can give more.
    expect(digits(1e12)).toBeGreaterThan(2);
    expect(digits(1e12)).toBeLessThan(5);
  });

  test('groups that do not differ give a large p, groups that do a tiny one', () => {
    expect(oneWay(SI_RSTV).p).toBeCloseTo(0.3494, 3);
    expect(oneWay(smls(0, 10)).p).toBeLessThan(1e-20);
    expect(() => oneWay([[1, 2]])).toThrow(/two groups/);
    expect(() => oneWay([[1], [2]])).toThrow(/repeats/);
  });
});
