import { describe, expect, test } from 'vitest';
import { ELLIPSE_95, errorEllipse } from '../../../core/drawing/errorEllipse.ts';
import { degFromRad } from '../../../core/units.ts';

describe('one-sigma ellipses of published adjustments', () => {
  test('braced square (Benning 2011, example 8-2, p. 256), point 3', () => {
    // Covariance and ellipse recomputed from the published readings; the printed deviations are 0.901 and 0.637 cm.
    const ellipse = errorEllipse({ xx: 81.2043, xy: -27.069, yy: 40.6016 }, 1);
    expect(ellipse.semiMajorMm).toBeCloseTo(9.73339, 4);
    expect(ellipse.semiMinorMm).toBeCloseTo(5.20259, 4);
    expect(degFromRad(ellipse.turnRad + Math.PI)).toBeCloseTo(153.4346, 3);
    expect(Math.sqrt(81.2043) / 10).toBeCloseTo(0.901, 3);
    expect(Math.sqrt(40.6016) / 10).toBeCloseTo(0.637, 3);
  });

  test('braced square, point 4', () => {
    const ellipse = errorEllipse({ xx: 81.1997, xy: 27.0657, yy: 40.6002 }, 1);
    expect(ellipse.semiMajorMm).toBeCloseTo(9.73306, 4);
    expect(ellipse.semiMinorMm).toBeCloseTo(5.20264, 4);
    expect(degFromRad(ellipse.turnRad)).toBeCloseTo(26.5647, 3);
  });

  test('distance intersection (Ghilani, Adjustment Computations, example 14.2 inputs)', () => {
    // Cofactors and ellipse recomputed from the printed readings, feet; azimuth is clockwise from y.
    const s2 = 0.0976593729 * 0.0976593729;
    const ellipse = errorEllipse({ xx: s2 * 0.6301889656, xy: s2 * -0.7283538659, yy: s2 * 2.4946885355 }, 1);
    expect(ellipse.semiMajorMm).toBeCloseTo(0.1618166, 6);
    expect(ellipse.semiMinorMm).toBeCloseTo(0.0601535, 6);
    expect(90 - degFromRad(ellipse.turnRad)).toBeCloseTo(161, 1);
  });
});

describe('the ellipse of any covariance', () => {
  const cases = [
    { xx: 4, xy: 0, yy: 9 },
    { xx: 9, xy: 0, yy: 4 },
    { xx: 5, xy: 2.5, yy: 3 },
    { xx: 5, xy: -2.5, yy: 3 },
    { xx: 1, xy: 0, yy: 1 },
    { xx: 1, xy: 1, yy: 1 },
  ];

  test.each(cases)('has the variance along each axis that the covariance gives: %o', ({ xx, xy, yy }) => {
    const { semiMajorMm, semiMinorMm, turnRad } = errorEllipse({ xx, xy, yy }, 1);
    const variance = (way: number): number => {
      const c = Math.cos(way);
      const s = Math.sin(way);
      return c * c * xx + 2 * c * s * xy + s * s * yy;
    };
    expect(variance(turnRad)).toBeCloseTo(semiMajorMm * semiMajorMm, 12);
    expect(variance(turnRad + Math.PI / 2)).toBeCloseTo(semiMinorMm * semiMinorMm, 12);
    expect(semiMajorMm).toBeGreaterThanOrEqual(semiMinorMm);
  });

  test('is drawn for 95 %: the square of its factor is the chi-square point -2 ln 0.05', () => {
    expect(ELLIPSE_95 * ELLIPSE_95).toBeCloseTo(-2 * Math.log(0.05), 5);
    expect(errorEllipse({ xx: 1, xy: 0, yy: 4 }).semiMajorMm).toBeCloseTo(2 * ELLIPSE_95, 12);
  });

  test('what is no covariance is a bug', () => {
    expect(() => errorEllipse({ xx: -1, xy: 0, yy: 1 })).toThrow(/covariance/);
    expect(() => errorEllipse({ xx: 1, xy: 2, yy: 1 })).toThrow(/covariance/);
  });
});
