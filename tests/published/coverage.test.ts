/** Coverage factors and effective degrees of freedom: JCGM 100:2008 (GUM), Tables G.1 and G.2, clause G.4. */
import { describe, expect, test } from 'vitest';
import { budget } from '../../core/uncertainty/budget.ts';
import {
  chiSquareQuantile,
  chiSquareTail,
  coverageFactor,
  normalProbability,
  normalQuantile,
  tQuantile,
} from '../../core/uncertainty/coverage.ts';
import {
  dofFromDoubt,
  fromResolution,
  quantity,
  rectangular,
  triangular,
} from '../../core/uncertainty/quantity.ts';
import { effectiveDof } from '../../core/uncertainty/welchSatterthwaite.ts';

describe('Table G.2: t for 68.27, 90, 95, 95.45, 99 and 99.73 %', () => {
  const levels = [0.6827, 0.9, 0.95, 0.9545, 0.99, 0.9973];
  // biome-ignore format: as printed
  const rows: readonly (readonly [number, string, string, string, string, string, string])[] = [
    [1, '1.84', '6.31', '12.71', '13.97', '63.66', '235.80'], [2, '1.32', '2.92', '4.30', '4.53', '9.92', '19.21'],
    [3, '1.20', '2.35', '3.18', '3.31', '5.84', '9.22'], [4, '1.14', '2.13', '2.78', '2.87', '4.60', '6.62'],
    [5, '1.11', '2.02', '2.57', '2.65', '4.03', '5.51'], [6, '1.09', '1.94', '2.45', '2.52', '3.71', '4.90'],
    [7, '1.08', '1.89', '2.36', '2.43', '3.50', '4.53'], [8, '1.07', '1.86', '2.31', '2.37', '3.36', '4.28'],
    [9, '1.06', '1.83', '2.26', '2.32', '3.25', '4.09'], [10, '1.05', '1.81', '2.23', '2.28', '3.17', '3.96'],
    [11, '1.05', '1.80', '2.20', '2.25', '3.11', '3.85'], [12, '1.04', '1.78', '2.18', '2.23', '3.05', '3.76'],
    [13, '1.04', '1.77', '2.16', '2.21', '3.01', '3.69'], [14, '1.04', '1.76', '2.14', '2.20', '2.98', '3.64'],
    [15, '1.03', '1.75', '2.13', '2.18', '2.95', '3.59'], [16, '1.03', '1.75', '2.12', '2.17', '2.92', '3.54'],
    [17, '1.03', '1.74', '2.11', '2.16', '2.90', '3.51'], [18, '1.03', '1.73', '2.10', '2.15', '2.88', '3.48'],
    [19, '1.03', '1.73', '2.09', '2.14', '2.86', '3.45'], [20, '1.03', '1.72', '2.09', '2.13', '2.85', '3.42'],
    [25, '1.02', '1.71', '2.06', '2.11', '2.79', '3.33'], [30, '1.02', '1.70', '2.04', '2.09', '2.75', '3.27'],
    [40, '1.01', '1.68', '2.02', '2.06', '2.70', '3.20'], [45, '1.01', '1.68', '2.01', '2.06', '2.69', '3.18'],
    [50, '1.01', '1.68', '2.01', '2.05', '2.68', '3.16'],
  ];

  test.each(rows)('%d degrees of freedom', (dof, ...printed) => {
    levels.forEach((level, i) => {
      expect(coverageFactor(dof, level).toFixed(2)).toBe(i === 5 && dof === 1 ? '235.78' : printed[i]);
    });
  });

  test('235.8 is printed to four digits', () => {
    expect(coverageFactor(1, 0.9973).toPrecision(4)).toBe('235.8');
  });

  test('well known: 1.000, 1.645, 1.960, 2.000, 2.576, 3.000', () => {
    const printed = ['1.000', '1.645', '1.960', '2.000', '2.576', '3.000'];
    levels.forEach((level, i) => {
      expect(coverageFactor(Number.POSITIVE_INFINITY, level).toFixed(3)).toBe(printed[i]);
    });
  });

  test('anchors to nine digits (recomputed with scipy)', () => {
    const anchors = [
      [0.95, 1, 12.706204736],
      [0.95, 2, 4.302652729749],
      [0.95, 5, 2.570581835636],
      [0.95, 10, 2.228138851986],
      [0.95, 16, 2.119905299221],
      [0.99, 16, 2.9207816224],
      [0.9545, 50, 2.051250781852],
    ] as const;
    for (const [level, dof, value] of anchors) expect(coverageFactor(dof, level)).toBeCloseTo(value, 9);
  });

  test('the default is 95.45 %, k = 2.00 for well known uncertainties', () => {
    expect(coverageFactor(Number.POSITIVE_INFINITY)).toBeCloseTo(2, 4);
    expect(coverageFactor(10)).toBeCloseTo(2.28, 2);
    expect(coverageFactor(2e6)).toBe(coverageFactor(Number.POSITIVE_INFINITY));
  });

  test('no degrees of freedom is a bug', () => {
    expect(() => tQuantile(0.975, 0)).toThrow(/degrees of freedom/);
  });
});

describe('normal and chi-square', () => {
  test('Table G.1: levels of k = 1, 1.645, 1.96, 2, 2.576, 3', () => {
    const rows = [
      [1, 68.26894921],
      [1.96, 95.00042097],
      [2, 95.44997361],
      [3, 99.73002039],
    ] as const;
    for (const [k, percent] of rows) {
      expect(100 * (normalProbability(k) - normalProbability(-k))).toBeCloseTo(percent, 7);
    }
    expect(100 * (2 * normalProbability(1.645) - 1)).toBeCloseTo(90.003, 3);
    expect(100 * (2 * normalProbability(2.576) - 1)).toBeCloseTo(99.00049, 4);
  });

  test('quantiles used in decisions and tests', () => {
    expect(normalQuantile(0.95)).toBeCloseTo(1.644853626951, 11);
    expect(chiSquareQuantile(0.95, 1)).toBeCloseTo(3.841458820694, 9);
    expect(chiSquareQuantile(0.95, 2)).toBeCloseTo(5.991464547108, 9);
    expect(chiSquareTail(3.841458820694, 1)).toBeCloseTo(0.05, 9);
    expect(chiSquareTail(0, 3)).toBe(1);
  });
});

describe('Welch-Satterthwaite (G.2b) and Type B divisors', () => {
  test('0.57 with 9 and 0.25 well known give 12.8', () => {
    const dof = effectiveDof([
      { u: 0.57, dof: 9 },
      { u: 0.25, dof: Number.POSITIVE_INFINITY },
    ]);
    expect(dof).toBeCloseTo(12.8, 1);
  });

  test('a quotient of three: y = 0.6967, u = 0.00494, dof about 27.7, U95 = 0.0101 (suncal, test_XRF)', () => {
    const found = budget(
      [
        quantity('x1', 0.182, 0.00093, 9),
        quantity('x2', 0.1823, 0.00058, 19),
        quantity('x3', 0.6978, 0.0026, 19),
      ],
      ([a = 0, b = 1, c = 0]) => (a / b) * c,
      0.95,
    );
    expect(found.value).toBeCloseTo(0.6967, 4);
    // Printed; exact arithmetic of the inputs gives 0.004932.
    expect(Math.abs(found.u - 0.00494)).toBeLessThan(1e-5);
    expect(found.u).toBeCloseTo(0.0049318, 7);
    expect(Math.abs(found.dof - 27.7)).toBeLessThan(0.5);
    expect(found.U).toBeCloseTo(0.0101, 4);
    expect(found.lines[0]?.input.id).toBe('x1');
    expect(found.lines.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  test('one input keeps its own dof; well known ones, and none at all, have infinitely many', () => {
    expect(effectiveDof([{ u: 3, dof: 7 }])).toBeCloseTo(7, 12);
    expect(effectiveDof([{ u: 3, dof: Number.POSITIVE_INFINITY }])).toBe(Number.POSITIVE_INFINITY);
    expect(effectiveDof([])).toBe(Number.POSITIVE_INFINITY);
  });

  test('4.3.7 rectangular, 4.3.9 triangular, F.2.2.1 resolution; G.3 doubts of 10, 25 and 50 %', () => {
    expect(rectangular(1)).toBeCloseTo(0.577350269, 9);
    expect(triangular(1)).toBeCloseTo(0.40824829, 9);
    expect(fromResolution(1)).toBeCloseTo(0.288675135, 9);
    expect([0.1, 0.25, 0.5].map(dofFromDoubt)).toEqual([expect.closeTo(50, 9), expect.closeTo(8, 9), 2]);
  });
});
