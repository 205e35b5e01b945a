/**
 * Published plane trilaterations, to their printed digits. Units are those of the sources (m); the adjuster only sees
 * numbers. Coordinates, residuals and variances were also recomputed independently with scipy; values marked
 * "recomputed" are from there, the others are as published.
 */
import { describe, expect, test } from 'vitest';
import { derive } from '../../core/adjust/derive.ts';
import type { Solution } from '../../core/adjust/solution.ts';
import { solve } from '../../core/adjust/solve.ts';
import { ELLIPSE_95 } from '../../core/drawing/errorEllipse.ts';
import { symmetricEigen } from '../../core/linalg/eigen.ts';
import { fixedPoint, freePoint, level, network, side, solved } from '../core/adjust/networks.ts';

function index(solution: Solution, id: string): number {
  return solution.unknowns.findIndex((unknown) => unknown.id === id);
}

function covariance(solution: Solution, a: string, b: string): number {
  return (
    solution.covariance[index(solution, a) * solution.unknowns.length + index(solution, b)] ?? Number.NaN
  );
}

/** s0 of the textbooks: square root of chi-square over dof. We report it, they scale by it. */
function s0(solution: Solution): number {
  return Math.sqrt(solution.globalTest.chiSquare / solution.globalTest.dof);
}

function ellipse(solution: Solution, point: string) {
  const x = `${point}/x`;
  const y = `${point}/y`;
  const q = Float64Array.of(
    covariance(solution, x, x),
    covariance(solution, x, y),
    covariance(solution, x, y),
    covariance(solution, y, y),
  );
  const { values, vectors } = symmetricEigen(q, 2);
  const [minor = 0, major = 0] = [...values].map(Math.sqrt);
  const degrees = (Math.atan2(vectors[3] ?? 0, vectors[2] ?? 0) * 180) / Math.PI;
  return { minor, major, degrees: (degrees + 180) % 180 };
}

function u(solution: Solution, id: string): number {
  return solution.unknowns[index(solution, id)]?.u ?? Number.NaN;
}

describe('Strang & Borre 1997, Linear Algebra, Geodesy and GPS, example 10.1 (p. 345) / 12.4 (p. 411)', () => {
  const layout = (start: boolean) =>
    network({
      points: [
        fixedPoint('1', 170.71, 270.71),
        fixedPoint('2', 100, 100),
        fixedPoint('3', 241.42, 100),
        start ? freePoint('P', 170.71, 170.71) : freePoint('P'),
      ],
      readings: [level('1', 'P', 100.01, 0.01), level('2', 'P', 100.02, 0.01), level('3', 'P', 100.03, 0.01)],
    });

  for (const start of [true, false]) {
    describe(start ? 'from the printed start' : 'from a constructed start', () => {
      const solution = solved(solve(layout(start)));
      const p = solution.estimates.point('P');

      test('coordinates, printed 170.7029 and 170.7234, with the digits of the GNU Gama reference file', () => {
        expect(p.xMm).toBeCloseTo(170.702925444184, 8);
        expect(p.yMm).toBeCloseTo(170.7233566122466, 8);
      });

      test('a posteriori standard deviations, printed 3.303, 2.335 and 4.045 cm', () => {
        expect((100 * s0(solution) * u(solution, 'P/x')).toFixed(3)).toBe('3.303');
        expect((100 * s0(solution) * u(solution, 'P/y')).toFixed(3)).toBe('2.335');
        const both = Math.hypot(u(solution, 'P/x'), u(solution, 'P/y'));
        expect((100 * s0(solution) * both).toFixed(3)).toBe('4.045');
      });

      test('weighted squares 10.909363 with one redundant reading fail the global test (limit 3.841)', () => {
        expect(solution.globalTest.chiSquare).toBeCloseTo(10.909363, 6);
        expect(s0(solution)).toBeCloseTo(3.3029324, 6);
        expect(solution.globalTest.dof).toBe(1);
        expect(solution.globalTest.limit).toBeCloseTo(3.841459, 6);
        expect(solution.globalTest.passed).toBe(false);
      });

      test('a priori covariance is not scaled: 1.000189e-4, -3.5e-9, 4.99953e-5 (recomputed)', () => {
        expect(covariance(solution, 'P/x', 'P/x')).toBeCloseTo(1.000189e-4, 10);
        expect(covariance(solution, 'P/x', 'P/y')).toBeCloseTo(-3.5e-9, 10);
        expect(covariance(solution, 'P/y', 'P/y')).toBeCloseTo(4.99953e-5, 10);
        const square = s0(solution) * s0(solution) * 1e6;
        expect(square * covariance(solution, 'P/x', 'P/x')).toBeCloseTo(1091.1424, 3);
        expect(square * covariance(solution, 'P/y', 'P/y')).toBeCloseTo(545.41664, 3);
      });

      test('adjusted distances of the reference file and residuals (observed minus computed)', () => {
        const computed = solution.rows.map((row) => row.computed);
        expect(computed[0]).toBeCloseTo(99.98664364, 8);
        expect(computed[1]).toBeCloseTo(100.00348412, 8);
        expect(computed[2]).toBeCloseTo(100.01348811, 8);
        expect(solution.rows[0]?.residual).toBeCloseTo(0.023356362, 8);
        expect(solution.rows[1]?.residual).toBeCloseTo(0.0165158773, 8);
        expect(solution.rows[2]?.residual).toBeCloseTo(0.0165118874, 8);
      });

      test('redundancy numbers 0.5000472, 0.2500368, 0.2499160 (recomputed) add up to the dof', () => {
        const r = solution.rows.map((row) => row.redundancy);
        expect(r[0]).toBeCloseTo(0.5000472, 7);
        expect(r[1]).toBeCloseTo(0.2500368, 7);
        expect(r[2]).toBeCloseTo(0.249916, 6);
        expect(r.reduce((sum, value) => sum + value, 0)).toBeCloseTo(1, 10);
      });

      test('error ellipse 0.0100009 by 0.0070707 along 179.996 degrees (recomputed)', () => {
        const { major, minor, degrees } = ellipse(solution, 'P');
        expect(major).toBeCloseTo(0.0100009, 7);
        expect(minor).toBeCloseTo(0.0070707, 7);
        expect(degrees).toBeCloseTo(179.996, 3);
      });

      test('with one redundant reading all three are suspected together', () => {
        expect([...(solution.suspicions[0]?.sources ?? [])].sort()).toEqual(['1-P', '2-P', '3-P']);
        expect(solution.suspicions).toHaveLength(1);
        for (const row of solution.rows) expect(Math.abs(row.standardised ?? 0)).toBeCloseTo(3.3029324, 6);
      });
    });
  }
});

describe('Benning 2011, Statistik in Geodaesie, example 8-2 (p. 256): braced square', () => {
  const readings = [
    level('1', '3', 1000.02, 0.01),
    level('1', '4', 1414.2, 0.01),
    level('2', '3', 1414.24, 0.01),
    level('2', '4', 999.98, 0.01),
    level('3', '4', 1000, 0.01),
  ];
  const corners = [fixedPoint('1', 0, 1000), fixedPoint('2', 1000, 1000)];
  const starts = {
    printed: network({ points: [...corners, freePoint('3', 0, 0), freePoint('4', 1000, 0)], readings }),
    constructed: network({
      points: [...corners, freePoint('3'), freePoint('4')],
      readings,
      sides: [side('3', '1', '2', 'right'), side('4', '1', '2', 'right')],
    }),
  };

  for (const [name, document] of Object.entries(starts)) {
    describe(`from the ${name} start`, () => {
      const solution = solved(solve(document));

      test('adjusted coordinates', () => {
        const [three, four] = [solution.estimates.point('3'), solution.estimates.point('4')];
        expect(three.xMm).toBeCloseTo(-0.0095845047, 7);
        expect(three.yMm).toBeCloseTo(-0.0226012125, 7);
        expect(four.xMm).toBeCloseTo(999.993015999, 7);
        expect(four.yMm).toBeCloseTo(0.0173986619, 7);
      });

      test('chi-square 0.473676408 with one dof passes; s0 = 0.6882415335', () => {
        expect(solution.globalTest.chiSquare).toBeCloseTo(0.473676408, 7);
        expect(solution.globalTest.dof).toBe(1);
        expect(solution.globalTest.passed).toBe(true);
        expect(s0(solution)).toBeCloseTo(0.6882415335, 7);
        expect(solution.suspicions).toEqual([]);
      });

      test('printed standard deviations 0.901, 0.637, 1.104 cm of both points', () => {
        for (const point of ['3', '4']) {
          const [ux, uy] = [u(solution, `${point}/x`), u(solution, `${point}/y`)];
          expect((100 * s0(solution) * ux).toFixed(3)).toBe('0.901');
          expect((100 * s0(solution) * uy).toFixed(3)).toBe('0.637');
          expect((100 * s0(solution) * Math.hypot(ux, uy)).toFixed(3)).toBe('1.104');
        }
      });

      test('residuals, observed minus computed', () => {
        const published = [0.0026012584, -0.0036787541, -0.0036788581, 0.0026013624, 0.0026013037];
        published.forEach((adjustedMinusObserved, i) => {
          expect(solution.rows[i]?.residual).toBeCloseTo(-adjustedMinusObserved, 7);
        });
      });

      test('a posteriori covariance, 1e-6 m2', () => {
        const names = ['3/x', '3/y', '4/x', '4/y'];
        const upper = [
          81.2043, -27.069, 60.9016, 20.3008, 40.6016, -20.3003, -6.7669, 81.1997, 27.0657, 40.6002,
        ];
        const scale = 1e6 * s0(solution) * s0(solution);
        let k = 0;
        names.forEach((a, i) => {
          for (const b of names.slice(i)) {
            expect(scale * covariance(solution, a, b)).toBeCloseTo(upper[k++] ?? Number.NaN, 3);
          }
        });
      });

      test('ellipses: a posteriori at 3 and 4, a priori at 3', () => {
        const three = ellipse(solution, '3');
        const four = ellipse(solution, '4');
        expect(1000 * s0(solution) * three.major).toBeCloseTo(9.73339, 4);
        expect(1000 * s0(solution) * three.minor).toBeCloseTo(5.20259, 4);
        expect(three.degrees).toBeCloseTo(153.4346, 3);
        expect(1000 * s0(solution) * four.major).toBeCloseTo(9.73306, 4);
        expect(1000 * s0(solution) * four.minor).toBeCloseTo(5.20264, 4);
        expect(four.degrees).toBeCloseTo(26.5647, 3);
        expect(1000 * three.major).toBeCloseTo(14.14241, 4);
        expect(1000 * three.minor).toBeCloseTo(7.55925, 4);
      });
    });
  }
});

describe('Ghilani 2010, Adjustment Computations (5th ed.), example 14.5 (p. 251): two-station trilateration', () => {
  const document = network({
    points: [
      fixedPoint('Badger', 2410000, 390000),
      fixedPoint('Bucky', 2411820, 386881.222),
      freePoint('Wisconsin'),
      freePoint('Campus'),
    ],
    readings: [
      level('Badger', 'Wisconsin', 5870.302, 0.01),
      level('Badger', 'Campus', 7297.588, 0.01),
      level('Wisconsin', 'Campus', 3616.434, 0.01),
      level('Wisconsin', 'Bucky', 5742.878, 0.01),
      level('Campus', 'Bucky', 5123.76, 0.01),
    ],
    sides: [side('Wisconsin', 'Bucky', 'Badger', 'right'), side('Campus', 'Bucky', 'Badger', 'right')],
  });
  const solution = solved(solve(document));

  test('adjusted coordinates at two million metres from the origin', () => {
    const [w, c] = [solution.estimates.point('Wisconsin'), solution.estimates.point('Campus')];
    expect(w.xMm).toBeCloseTo(2415776.9043781, 6);
    expect(w.yMm).toBeCloseTo(391043.2944928, 6);
    expect(c.xMm).toBeCloseTo(2416892.6955156, 6);
    expect(c.yMm).toBeCloseTo(387603.2551282, 6);
  });

  test('s0 = 13.5905358, adjusted distances', () => {
    expect(s0(solution)).toBeCloseTo(13.5905358, 6);
    const adjusted = [5870.35668354, 7297.50898945, 3616.47075096, 5742.81635543, 5123.82392672];
    adjusted.forEach((value, i) => {
      expect(solution.rows[i]?.computed).toBeCloseTo(value, 6);
    });
  });

  test('a posteriori standard deviations 14.879, 22.061 and 10.378, 27.054 cm', () => {
    const cm = (id: string) => 100 * s0(solution) * u(solution, id);
    expect(cm('Wisconsin/x')).toBeCloseTo(14.879, 3);
    expect(cm('Wisconsin/y')).toBeCloseTo(22.061, 3);
    expect(cm('Campus/x')).toBeCloseTo(10.378, 3);
    expect(cm('Campus/y')).toBeCloseTo(27.054, 3);
  });

  test('ellipses 0.2461836 by 0.1009931 at 119.1215 and 0.2726398 by 0.0981471 at 82.3785 degrees', () => {
    const [w, c] = [ellipse(solution, 'Wisconsin'), ellipse(solution, 'Campus')];
    expect(s0(solution) * w.major).toBeCloseTo(0.2461836, 6);
    expect(s0(solution) * w.minor).toBeCloseTo(0.1009931, 6);
    expect(w.degrees).toBeCloseTo(119.1215, 3);
    expect(s0(solution) * c.major).toBeCloseTo(0.2726398, 6);
    expect(s0(solution) * c.minor).toBeCloseTo(0.0981471, 6);
    expect(c.degrees).toBeCloseTo(82.3785, 3);
  });

  test('all five standardised residuals equal 13.5905: one redundancy cannot tell them apart', () => {
    for (const row of solution.rows) expect(Math.abs(row.standardised ?? 0)).toBeCloseTo(13.5905, 4);
    expect(solution.suspicions[0]?.sources).toHaveLength(5);
    expect(solution.suspicions[0]?.repeatToSeparate).toBeDefined();
  });

  test('the declared side decides: without it the mirror image is not guessed', () => {
    const undeclared = solve({ ...document, sides: [] });
    expect(undeclared.ok ? 'solved' : undeclared.error.code).toBe('adjust/mirrorUndeclared');
  });
});

describe('Ghilani 2010, example 14.2: one station from three (feet, unit weights)', () => {
  // Inputs as printed; results recomputed with scipy (the printed solution was not seen).
  const document = network({
    points: [
      fixedPoint('A', 865.4, 4527.15),
      fixedPoint('B', 2432.55, 2047.25),
      fixedPoint('C', 2865.22, 27.15),
      freePoint('U'),
    ],
    readings: [level('A', 'U', 6049, 1), level('B', 'U', 4736.83, 1), level('C', 'U', 5446.49, 1)],
  });
  const solution = solved(solve(document));

  test('coordinates, residuals, S0 and cofactors', () => {
    const p = solution.estimates.point('U');
    expect(p.xMm).toBeCloseTo(6861.316788, 5);
    expect(p.yMm).toBeCloseTo(3727.818566, 5);
    expect(solution.rows.map((row) => -row.residual)).toEqual([
      expect.closeTo(-0.03737265, 6),
      expect.closeTo(0.07679284, 6),
      expect.closeTo(-0.04736557, 6),
    ]);
    expect(s0(solution)).toBeCloseTo(0.0976593729, 6);
    expect(covariance(solution, 'U/x', 'U/x')).toBeCloseTo(0.6301889656, 6);
    expect(covariance(solution, 'U/x', 'U/y')).toBeCloseTo(-0.7283538659, 6);
    expect(covariance(solution, 'U/y', 'U/y')).toBeCloseTo(2.4946885355, 6);
  });

  test('standard deviations and ellipse, whose axis stands at 161.0 degrees from north', () => {
    expect(s0(solution) * u(solution, 'U/x')).toBeCloseTo(0.0775263, 6);
    expect(s0(solution) * u(solution, 'U/y')).toBeCloseTo(0.1542489, 6);
    const { major, minor, degrees } = ellipse(solution, 'U');
    expect(s0(solution) * major).toBeCloseTo(0.1618166, 6);
    expect(s0(solution) * minor).toBeCloseTo(0.0601535, 6);
    // Azimuth runs clockwise from y: 90 - (direction from x).
    expect((90 - degrees + 360) % 180).toBeCloseTo(161, 1);
  });

  test('a derived distance to a fixed station carries the covariance of the point', () => {
    const toA = derive(solution, ({ point }) => {
      const [p, a] = [point('U'), point('A')];
      return Math.hypot(p.xMm - a.xMm, p.yMm - a.yMm);
    });
    const row = solution.rows[0];
    expect(toA.value).toBeCloseTo(row?.computed ?? 0, 9);
    // Variance of the adjusted reading: u^2 (1 - redundancy).
    expect(toA.u * toA.u).toBeCloseTo(1 - (row?.redundancy ?? 0), 7);
  });
});

describe('95 % ellipse of a plan position: root of chi-square with two degrees of freedom (any table: 5.991465)', () => {
  test('2.447747 standard deviations; its chance of missing is exp(-k^2 / 2) = 5 %', () => {
    expect(ELLIPSE_95).toBeCloseTo(Math.sqrt(5.991465), 6);
    expect(Math.exp(-(ELLIPSE_95 * ELLIPSE_95) / 2)).toBeCloseTo(0.05, 7);
  });
});
