/**
 * Risks and probabilities of JCGM 106:2012 and of papers on guard bands. Examples of clauses 7 and 8 are from memory;
 * 9.5.4 and the general anchors are as in suncal (test_risk.py and a notebook citing 9.5.4), recomputed with scipy.
 */
import { describe, expect, test } from 'vitest';
import {
  acceptanceLimits,
  decideWithinCircle,
  guardBandFor,
  largestProvableU,
  probabilityWithinCircle,
  probabilityWithinT,
} from '../../core/uncertainty/conformity.ts';
import { normalProbability, normalQuantile, tQuantile } from '../../core/uncertainty/coverage.ts';
import { type DecisionRule, decide, probabilityWithin } from '../../core/uncertainty/decision.ts';
import { fTail, tProbability } from '../../core/uncertainty/fDistribution.ts';
import { gammaPrior, globalRisk, guardBandForRisk, normalPrior } from '../../core/uncertainty/globalRisk.ts';
import { integral } from '../../core/uncertainty/quadrature.ts';

describe('JCGM 106 9.5.4: run-out of ball bearings, um', () => {
  const prior = gammaPrior(4, 0.25);
  const tolerance = { upper: 2 };

  test('4.2 % of production does not conform; a rule without guard band: consumer 0.8 %, producer 1.7 %', () => {
    const found = globalRisk(prior, 0.25, tolerance);
    expect(found.nonconforming).toBeCloseTo(0.042380111992, 10);
    expect(found.consumer).toBeCloseTo(0.008019111884, 10);
    expect(found.producer).toBeCloseTo(0.017444569, 8);
  });

  test('a consumer risk of 0.1 % takes a guard band of 0.328, and the producer then pays 7.5 %', () => {
    const guard = guardBandForRisk(prior, 0.25, tolerance, 0.001);
    expect(guard).toBeCloseTo(0.3281712285, 8);
    const found = globalRisk(prior, 0.25, tolerance, { upper: 2 - guard });
    expect(2 - guard).toBeCloseTo(1.6718287716, 8);
    expect(found.consumer).toBeCloseTo(0.001, 10);
    expect(found.producer).toBeCloseTo(0.075493876, 8);
  });

  test('the prior itself: it sums to one, its mean is 1 and its deviation 0.5', () => {
    const moment = (f: (x: number) => number) =>
      integral((x) => prior.density(x) * f(x), prior.from, prior.to, 60);
    expect(moment(() => 1)).toBeCloseTo(1, 12);
    expect(moment((x) => x)).toBeCloseTo(1, 12);
    expect(moment((x) => (x - 1) * (x - 1))).toBeCloseTo(0.25, 11);
    expect(prior.density(-0.1)).toBe(0);
  });
});

describe('papers on guard bands: process 1, limits +-', () => {
  test('test 0.25: false accept 0.8 % at +-2 and 0.25 % at +-2.5', () => {
    const risk = (limit: number) =>
      globalRisk(normalPrior(0, 1), 0.25, { lower: -limit, upper: limit }).consumer;
    expect(Math.abs(risk(2) - 0.008)).toBeLessThan(5e-4);
    expect(Math.abs(risk(2.5) - 0.0025)).toBeLessThan(5e-4);
  });

  test('test 0.5, limits +-2 drawn in to 0.91: false accept 0.8 %, false reject 6.6 %', () => {
    const found = globalRisk(normalPrior(0, 1), 0.5, { lower: -2, upper: 2 }, { lower: -1.82, upper: 1.82 });
    expect(Math.abs(found.consumer - 0.008)).toBeLessThan(5e-4);
    expect(Math.abs(found.producer - 0.066)).toBeLessThan(5e-4);
  });

  const rows = [
    [0.6, 4.83860326, 8.26008199],
    [0.7, 3.92234109, 5.72322042],
    [0.8, 2.85583037, 3.63227145],
    [0.9, 1.59995312, 1.7988043],
    [0.95, 0.87100925, 0.92389664],
    [0.99, 0.19991684, 0.20243866],
  ] as const;
  test.each(rows)(
    'in tolerance %d, test four times better: false accept %d %%, of the accepted %d %%',
    (p, all, accepted) => {
      const sigma = 1 / normalQuantile((1 + p) / 2);
      const found = globalRisk(normalPrior(0, sigma), sigma / 4, { lower: -1, upper: 1 });
      expect(1 - found.nonconforming).toBeCloseTo(p, 10);
      expect(Math.abs(100 * found.consumer - all)).toBeLessThan(1e-6);
      expect(Math.abs(100 * found.consumerAmongAccepted - accepted)).toBeLessThan(1e-6);
    },
  );

  test('specific risk: N(10, 0.4) between 9 and 11 is 1.242 % outside; N(10.5, 0.4) 10.574 %', () => {
    const limits = { lower: 9, upper: 11 };
    expect(1 - probabilityWithin(10, 0.4, limits)).toBeCloseTo(0.01242, 5);
    expect(1 - probabilityWithin(10, 0.4, { upper: 11 })).toBeCloseTo(0.00621, 5);
    expect(1 - probabilityWithin(10.5, 0.4, limits)).toBeCloseTo(0.10574, 5);
  });
});

describe('JCGM 106 clauses 7 and 8 (from memory)', () => {
  test('Table 1: guard bands for 80, 90, 95, 99, 99.9 % are 0.84, 1.28, 1.64, 2.33, 3.09 u', () => {
    const rows = [
      [0.8, '0.84', 0.841621],
      [0.9, '1.28', 1.281552],
      [0.95, '1.64', 1.644854],
      [0.99, '2.33', 2.326348],
      [0.999, '3.09', 3.090232],
    ] as const;
    for (const [p, printed, exact] of rows) {
      expect(guardBandFor(p, 1).toFixed(2)).toBe(printed);
      expect(guardBandFor(p, 1)).toBeCloseTo(exact, 6);
      expect(probabilityWithin(-guardBandFor(p, 0.3), 0.3, { upper: 0 })).toBeCloseTo(p, 12);
    }
    expect(() => guardBandFor(1, 1)).toThrow(/between/);
  });

  test('ILAC-G8:09/2019: a guard band of U = 2 u leaves 97.725 % at the limit of acceptance', () => {
    expect(normalProbability(2)).toBeCloseTo(0.977249868, 9);
    expect(
      probabilityWithin(acceptanceLimits({ upper: 1 }, 0.1, 'fullU').upper ?? 0, 0.1, { upper: 1 }),
    ).toBeCloseTo(0.977249868, 7);
  });
});

describe('the three zones for each rule, limits +-1, u 0.1', () => {
  const limits = { lower: -1, upper: 1 };
  const found = (d: number, rule: DecisionRule): string => {
    const { verdict, wording } = decide(d, 0.1, limits, rule);
    return wording === undefined ? verdict : wording;
  };
  // biome-ignore format: a table
  const rows: readonly (readonly [number, string, string, string])[] = [
    // deviation, guarded (0.1645), simple (0), full U (0.2)
    [0.00, 'proven',  'proven',  'proven'],
    [0.79, 'proven',  'proven',  'proven'],
    [0.80, 'proven',  'proven',  'within'],
    [0.83, 'proven',  'proven',  'within'],
    [0.90, 'within',  'proven',  'within'],
    [0.99, 'within',  'proven',  'within'],
    [1.01, 'beyond',  'outside', 'beyond'],
    [1.10, 'beyond',  'outside', 'beyond'],
    [1.17, 'outside', 'outside', 'beyond'],
    [1.20, 'outside', 'outside', 'outside'],
    [1.21, 'outside', 'outside', 'outside'],
  ];

  test.each(rows)('%d: guarded %s, simple %s, full U %s', (d, guarded, simple, fullU) => {
    for (const side of [1, -1]) {
      expect(found(side * d, 'guarded')).toBe(guarded);
      expect(found(side * d, 'simple')).toBe(simple);
      expect(found(side * d, 'fullU')).toBe(fullU);
    }
  });

  test('just inside its limits of acceptance a deviation is proven, just outside it is not', () => {
    for (const rule of ['guarded', 'simple', 'fullU'] as const) {
      const { lower = Number.NaN, upper = Number.NaN } = acceptanceLimits(limits, 0.1, rule);
      expect(found(upper - 1e-10, rule)).toBe('proven');
      expect(found(upper + 1e-10, rule)).not.toBe('proven');
      expect(found(lower + 1e-10, rule)).toBe('proven');
      expect(found(lower - 1e-10, rule)).not.toBe('proven');
    }
    expect(acceptanceLimits({ upper: 1 }, 0.1, 'guarded').lower).toBeUndefined();
  });

  test('the largest u that can prove a tolerance, centred exactly', () => {
    expect(largestProvableU(limits, 'guarded')).toBeCloseTo(1 / 1.645, 12);
    expect(largestProvableU({ lower: -1, upper: 3 }, 'fullU')).toBeCloseTo(1, 4);
    expect(largestProvableU(limits, 'fullU', 5)).toBeCloseTo(1 / 2.649, 3);
    expect(largestProvableU({ upper: 1 }, 'guarded')).toBe(Number.POSITIVE_INFINITY);
    expect(largestProvableU(limits, 'simple')).toBe(Number.POSITIVE_INFINITY);
    const u = largestProvableU(limits, 'guarded');
    expect(decide(0, 0.999 * u, limits).verdict).toBe('proven');
    expect(decide(0, 1.001 * u, limits).verdict).not.toBe('proven');
  });
});

describe('positions in the plane', () => {
  /** Non-central chi-square of two degrees of freedom as its Poisson series, each term in closed form. */
  function circleSeries(distance: number, u: number, radius: number): number {
    const [half, x] = [(distance * distance) / (2 * u * u), (radius * radius) / (2 * u * u)];
    let weight = Math.exp(-half);
    let term = Math.exp(-x);
    let tail = term;
    let sum = 0;
    for (let k = 0; k < 400; k++) {
      sum += weight * (1 - tail);
      weight *= half / (k + 1);
      term *= x / (k + 1);
      tail += term;
    }
    return sum;
  }

  test('no deviation, equal u: 1 - exp(-R^2 / 2 u^2)', () => {
    for (const radius of [0.5, 1, 2, 3]) {
      expect(probabilityWithinCircle({ x: 0, y: 0, uX: 1, uY: 1 }, radius)).toBeCloseTo(
        1 - Math.exp((-radius * radius) / 2),
        12,
      );
    }
  });

  test('with a deviation, against the non-central chi-square', () => {
    for (const [distance, u, radius] of [
      [1, 1, 1],
      [3, 1, 5],
      [4.9, 0.2, 5],
      [6, 1, 5],
      [2, 3, 5],
      [9, 2, 10],
    ] as const) {
      const expected = circleSeries(distance, u, radius);
      for (const heading of [0, 0.7, 2, 4.5]) {
        const [x, y] = [distance * Math.cos(heading), distance * Math.sin(heading)];
        expect(probabilityWithinCircle({ x, y, uX: u, uY: u }, radius), `${distance}`).toBeCloseTo(
          expected,
          9,
        );
      }
    }
  });

  test('one exact coordinate leaves one normal; full correlation too', () => {
    expect(probabilityWithinCircle({ x: 0.5, y: 0, uX: 0.4, uY: 0 }, 1)).toBeCloseTo(
      probabilityWithin(0.5, 0.4, { lower: -1, upper: 1 }),
      9,
    );
    const diagonal = { x: 0.3, y: 0.3, uX: 0.2, uY: 0.2, r: 1 };
    expect(probabilityWithinCircle(diagonal, 1)).toBeCloseTo(
      probabilityWithin(Math.hypot(0.3, 0.3), Math.hypot(0.2, 0.2), { lower: -1, upper: 1 }),
      9,
    );
  });

  test('correlation is the same as turned axes', () => {
    const turned = probabilityWithinCircle({ x: 2, y: 1, uX: 1, uY: 1, r: 0.6 }, 3);
    const c = Math.SQRT1_2;
    const straight = { x: c * 3, y: c * -1, uX: Math.sqrt(1.6), uY: Math.sqrt(0.4) };
    expect(turned).toBeCloseTo(probabilityWithinCircle(straight, 3), 11);
  });

  test('exact positions: 1 inside and on the circle, 0 outside; far out 0', () => {
    expect(probabilityWithinCircle({ x: 3, y: 4, uX: 0, uY: 0 }, 5)).toBe(1);
    expect(probabilityWithinCircle({ x: 3, y: 4.1, uX: 0, uY: 0 }, 5)).toBe(0);
    expect(probabilityWithinCircle({ x: 50, y: 0, uX: 1, uY: 1 }, 5)).toBe(0);
    expect(() => probabilityWithinCircle({ x: 0, y: 0, uX: 1, uY: 1 }, 0)).toThrow(/radial/);
  });

  test('the verdict: proven well inside, outside well outside; u along the deviation', () => {
    const at = (x: number, y: number) => decideWithinCircle({ x, y, uX: 0.5, uY: 2 }, 10);
    expect(at(8.5, 0)).toMatchObject({ verdict: 'proven' });
    // Nearer the limit the wide error across it is what slips past the circle.
    expect(at(9.1, 0)).toMatchObject({ verdict: 'notProven', wording: 'within' });
    expect(at(0, 9)).toMatchObject({ verdict: 'notProven', wording: 'within' });
    expect(at(0, 6.6)).toMatchObject({ verdict: 'proven' });
    expect(at(11, 0)).toMatchObject({ verdict: 'outside' });
    expect(at(0, 11)).toMatchObject({ verdict: 'notProven', wording: 'beyond' });
    // Close to the middle the longer axis is what counts.
    expect(at(0, 0).guard).toBeCloseTo(1.645 * 2, 9);
  });

  test('proven is never said below 95 % of the whole circle, which curves away from its tangent', () => {
    for (const u of [0.2, 1, 2, 4]) {
      const verdicts = [-0.2, 0, 0.05, 0.1, 0.2, 0.4, 0.8].map((further) => {
        const found = decideWithinCircle(
          { x: Math.max(0, 10 - 1.645 * u - further * u), y: 0, uX: u, uY: u },
          10,
        );
        expect(found.verdict === 'proven', `u ${u}, ${further}`).toBe(
          further > 0 && found.probability >= 0.95,
        );
        return found.verdict;
      });
      expect(verdicts[0]).not.toBe('proven');
      expect(verdicts.at(-1)).toBe('proven');
    }
    const edge = decideWithinCircle({ x: 10 - 3.29 - 1e-6, y: 0, uX: 2, uY: 2 }, 10);
    expect(edge).toMatchObject({ verdict: 'notProven', wording: 'within' });
    expect(edge.probability).toBeCloseTo(0.936, 3);
  });
});

describe('few degrees of freedom', () => {
  test("Student's t against its own quantiles, and as a normal when well known", () => {
    for (const dof of [1, 2, 5, 16.5]) {
      for (const p of [0.001, 0.2, 0.5, 0.975])
        expect(tProbability(tQuantile(p, dof), dof)).toBeCloseTo(p, 11);
    }
    expect(tProbability(1.3, Number.POSITIVE_INFINITY)).toBe(normalProbability(1.3));
  });

  test('a deviation 1.645 u inside one limit: 95 % when well known, 91 % with four degrees of freedom', () => {
    const limit = { upper: 1 };
    expect(probabilityWithinT(1 - 0.1645, 0.1, 1e9, limit)).toBeCloseTo(0.95, 4);
    expect(probabilityWithinT(1 - 0.1645, 0.1, 4, limit)).toBeCloseTo(0.9123, 3);
    expect(probabilityWithinT(0.5, 0, 4, limit)).toBe(1);
    expect(probabilityWithinT(0, 0.5, 3, { lower: -1, upper: 1 })).toBeCloseTo(
      1 - 2 * tProbability(-2, 3),
      12,
    );
  });

  test('F tails: 5 % points 4.351 (1, 20), 3.098 (10, 10 is 2.978); far out they keep their digits', () => {
    expect(fTail(4.351243503, 1, 20)).toBeCloseTo(0.05, 9);
    expect(fTail(2.978237016, 10, 10)).toBeCloseTo(0.05, 9);
    expect(fTail(0, 3, 4)).toBe(1);
    // With two above, the tail is (1 + 2 f / d)^(-d / 2).
    expect(fTail(1000, 2, 20) / 101 ** -10).toBeCloseTo(1, 10);
  });
});
