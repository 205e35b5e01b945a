import { describe, expect, test } from 'vitest';
import { numericalTolerance } from '../../../core/uncertainty/adaptive.ts';
import { linearAgrees } from '../../../core/uncertainty/agreement.ts';
import {
  meanAndDeviation,
  shortestInterval,
  summarise,
  symmetricInterval,
} from '../../../core/uncertainty/coverageInterval.ts';
import {
  type Distribution,
  distributionDeviation,
  distributionMean,
  distributionOf,
} from '../../../core/uncertainty/distribution.ts';
import { simulate, simulateAdaptively } from '../../../core/uncertainty/monteCarlo.ts';
import { quantity } from '../../../core/uncertainty/quantity.ts';
import { randomFrom, randomFromState } from '../../../core/uncertainty/random.ts';
import { jointNormalSampler, sampler, standardNormal } from '../../../core/uncertainty/sampler.ts';

const SEED = 20_240_229;

describe('random numbers', () => {
  test('one seed, one stream; another seed, another; 0 is a seed like any other', () => {
    const first = (seed: number) => Array.from({ length: 5 }, randomFrom(seed).bits);
    expect(first(7)).toEqual(first(7));
    expect(first(7)).not.toEqual(first(8));
    expect(new Set(first(0)).size).toBe(5);
  });

  test('uniform numbers stay inside 0 and 1, and every tenth is filled alike', () => {
    const { uniform } = randomFrom(SEED);
    const counts = Array.from({ length: 10 }, () => 0);
    const n = 1e5;
    for (let i = 0; i < n; i++) {
      const x = uniform();
      if (!(x > 0 && x < 1)) throw new Error(`${x} is not between 0 and 1`);
      const cell = Math.floor(10 * x);
      counts[cell] = (counts[cell] ?? 0) + 1;
    }
    // Chi-square of nine degrees of freedom stays below 27.9 in 999 of 1000 seeds; this seed is fixed.
    expect(counts.reduce((sum, count) => sum + (count - n / 10) ** 2 / (n / 10), 0)).toBeLessThan(27.9);
  });

  test('seeds that are no whole 32-bit number, and a state of zeros, are bugs', () => {
    for (const seed of [-1, 0.5, 2 ** 32, Number.NaN]) expect(() => randomFrom(seed)).toThrow(/seed/);
    expect(() => randomFromState([0, 0, 0, 0])).toThrow(/zeros/);
  });
});

describe('distributions', () => {
  const all: readonly Distribution[] = [
    { kind: 'normal', mean: 3, u: 2 },
    { kind: 'rectangular', lower: -1, upper: 4 },
    { kind: 'triangular', lower: -1, upper: 4 },
    { kind: 'arcsine', lower: -1, upper: 4 },
    { kind: 'trapezoidal', lower: -1, upper: 4, top: 0.4 },
    { kind: 'curvilinearTrapezoid', lower: -1, upper: 4, doubt: 1.5 },
    { kind: 't', mean: 3, scale: 2, dof: 7.5 },
  ];

  test.each(all)('$kind: drawn mean and deviation are the stated ones', (distribution) => {
    const draw = sampler(distribution, randomFrom(SEED));
    const n = 1e5;
    const { value, u } = meanAndDeviation(Float64Array.from({ length: n }, draw));
    const sigma = distributionDeviation(distribution);
    expect(Math.abs(value - distributionMean(distribution))).toBeLessThan((4 * sigma) / Math.sqrt(n));
    // The deviation of a t of few degrees of freedom is itself the least certain: 2 % covers all.
    expect(Math.abs(u / sigma - 1)).toBeLessThan(0.02);
  });

  test.each(all.slice(1, 6))('$kind: never beyond its limits, and near them both', (distribution) => {
    const draw = sampler(distribution, randomFrom(SEED));
    const reach = distribution.kind === 'curvilinearTrapezoid' ? distribution.doubt : 0;
    const drawn = Float64Array.from({ length: 2e4 }, draw).sort();
    expect(drawn[0]).toBeGreaterThanOrEqual(-1 - reach);
    expect(drawn[0]).toBeLessThan(-0.9);
    expect(drawn.at(-1)).toBeLessThanOrEqual(4 + reach);
    expect(drawn.at(-1)).toBeGreaterThan(3.9);
  });

  test('t of five degrees of freedom leaves 5 % beyond 2.571, where a normal leaves 1 %', () => {
    const draw = sampler({ kind: 't', mean: 0, scale: 1, dof: 5 }, randomFrom(SEED));
    let beyond = 0;
    const n = 1e5;
    for (let i = 0; i < n; i++) if (Math.abs(draw()) > 2.570581835636) beyond++;
    expect(Math.abs(beyond / n - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / n));
  });

  test('a quantity becomes a normal when well known, else a t with u as its scale', () => {
    expect(distributionOf(quantity('x', 5, 0.2))).toEqual({ kind: 'normal', mean: 5, u: 0.2 });
    expect(distributionOf(quantity('x', 5, 0.2, 4))).toEqual({ kind: 't', mean: 5, scale: 0.2, dof: 4 });
    expect(distributionDeviation({ kind: 't', mean: 0, scale: 1, dof: 2 })).toBe(Number.POSITIVE_INFINITY);
  });

  test('distributions that cannot be are bugs', () => {
    const bad: readonly Distribution[] = [
      { kind: 'normal', mean: 0, u: -1 },
      { kind: 'rectangular', lower: 1, upper: 1 },
      { kind: 'trapezoidal', lower: 0, upper: 1, top: 1.1 },
      { kind: 'curvilinearTrapezoid', lower: 0, upper: 1, doubt: 0.6 },
      { kind: 't', mean: 0, scale: 1, dof: 0 },
    ];
    for (const distribution of bad)
      expect(() => sampler(distribution, randomFrom(1)), distribution.kind).toThrow();
  });
});

describe('joint normal numbers', () => {
  function covarianceOf(means: readonly number[], covariance: readonly (readonly number[])[]): number[][] {
    const fill = jointNormalSampler(means, covariance, standardNormal(randomFrom(SEED)));
    const n = means.length;
    const sums = Array.from({ length: n }, () => Array.from({ length: n }, () => 0));
    const x = new Float64Array(n);
    const trials = 4e4;
    for (let k = 0; k < trials; k++) {
      fill(x);
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          const row = sums[i] ?? [];
          row[j] = (row[j] ?? 0) + ((x[i] ?? 0) - (means[i] ?? 0)) * ((x[j] ?? 0) - (means[j] ?? 0));
        }
      }
    }
    return sums.map((row) => row.map((sum) => sum / trials));
  }

  test('the drawn covariance is the stated one', () => {
    const stated = [
      [4, 1.2, -0.5],
      [1.2, 1, 0.1],
      [-0.5, 0.1, 0.25],
    ];
    const found = covarianceOf([10, -3, 0], stated);
    stated.forEach((row, i) => {
      row.forEach((value, j) => {
        const size = Math.sqrt((stated[i]?.[i] ?? 0) * (stated[j]?.[j] ?? 0));
        expect(Math.abs((found[i]?.[j] ?? Number.NaN) - value), `${i} ${j}`).toBeLessThan(0.025 * size);
      });
    });
  });

  test('a singular covariance: two quantities that are one', () => {
    const fill = jointNormalSampler(
      [5, 10],
      [
        [1, 2],
        [2, 4],
      ],
      standardNormal(randomFrom(SEED)),
    );
    const x = new Float64Array(2);
    for (let k = 0; k < 100; k++) {
      fill(x);
      expect(x[1]).toBeCloseTo(2 * (x[0] ?? 0), 9);
    }
    expect(x[0]).not.toBe(5);
  });

  test('what is no covariance is a bug', () => {
    const normal = standardNormal(randomFrom(SEED));
    const matrix = (r12: number, r21: number) => [
      [1, r12],
      [r21, 1],
    ];
    expect(() => jointNormalSampler([0, 0], matrix(0.5, 0.4), normal)).toThrow(/symmetric/);
    expect(() => jointNormalSampler([0, 0], matrix(1.1, 1.1), normal)).toThrow(/eigenvalue/);
    expect(() => jointNormalSampler([0, 0], [[1]], normal)).toThrow(/elements/);
  });
});

describe('coverage intervals', () => {
  const ramp = Float64Array.from({ length: 1000 }, (_, i) => i);

  test('7.7.3: of a thousand results the symmetric 95 % interval leaves 25 below', () => {
    expect(symmetricInterval(ramp, 0.95)).toEqual({ low: 24, high: 974 });
  });

  test('7.7.4: the shortest interval of a skew set begins at its crowded end', () => {
    const skew = Float64Array.from({ length: 1000 }, (_, i) => i * i);
    expect(shortestInterval(skew, 0.95)).toEqual({ low: 0, high: 950 * 950 });
    const { low, high } = symmetricInterval(skew, 0.95);
    expect(high - low).toBeGreaterThan(950 * 950);
  });

  test('mean and deviation keep their digits far from zero', () => {
    const far = meanAndDeviation(Float64Array.of(1e9 + 1, 1e9 + 2, 1e9 + 3));
    expect(far).toEqual({ value: 1e9 + 2, u: 1 });
  });

  test('too few results for the level, or no level at all, are bugs', () => {
    expect(() => symmetricInterval(Float64Array.of(1, 2), 0.95)).toThrow(/too few/);
    expect(() => shortestInterval(ramp, 1)).toThrow(/level/);
    expect(() => meanAndDeviation(Float64Array.of(1))).toThrow(/two results/);
    expect(summarise(Float64Array.of(3, 1, 2), 0.5).value).toBe(2);
  });
});

describe('simulation', () => {
  const x: Distribution = { kind: 'normal', mean: 0, u: 1 };

  test('the same seed gives the same result to the bit, another seed another', () => {
    const run = (seed: number) =>
      simulate({ inputs: { x }, formula: (v) => v.x * v.x }, { seed, trials: 2000, level: 0.95 });
    expect(run(3)).toEqual(run(3));
    expect(run(3).value).not.toBe(run(4).value);
  });

  test('inputs drawn together keep their correlation: the difference of two alike is exact', () => {
    const joint = [
      {
        names: ['a', 'b'] as const,
        means: [7, 5],
        covariance: [
          [1, 1],
          [1, 1],
        ],
      },
    ];
    const found = simulate(
      { inputs: {}, joint, formula: (v: { a: number; b: number }) => v.a - v.b },
      { seed: SEED, trials: 1000 },
    );
    expect(found.value).toBeCloseTo(2, 9);
    expect(found.u).toBeLessThan(1e-6);
  });

  test('a formula that fails for inputs it must take is a bug', () => {
    expect(() =>
      simulate({ inputs: { x }, formula: (v) => Math.log(v.x) }, { seed: 1, trials: 100 }),
    ).toThrow(/formula gave NaN/);
  });

  test('7.9.2: the numerical tolerance is half a unit of the last digit asked for', () => {
    expect(numericalTolerance(0.35, 2)).toBe(0.005);
    expect(numericalTolerance(0.35, 1)).toBe(0.05);
    expect(numericalTolerance(0.996, 2)).toBe(0.05);
    expect(numericalTolerance(2, 2)).toBe(0.05);
    expect(numericalTolerance(7341, 2)).toBe(50);
    expect(() => numericalTolerance(0, 2)).toThrow(/needs a u/);
  });

  test('7.9: one digit needs fewer trials than two; running out is said', () => {
    const model = { inputs: { x }, formula: (v: { x: number }) => v.x };
    const one = simulateAdaptively(model, { seed: SEED, digits: 1, level: 0.95 });
    expect(one.stable).toBe(true);
    expect(one.trials).toBe(2e4);
    const starved = simulateAdaptively(model, { seed: SEED, digits: 4, level: 0.95, mostTrials: 5e4 });
    expect(starved).toMatchObject({ stable: false, trials: 5e4, sequences: 5 });
    expect(starved.tolerance).toBeLessThan(1e-3);
  });

  test('7.9: a higher level needs longer sequences; an exact result is stable at once', () => {
    const still: Distribution = { kind: 'normal', mean: 4, u: 0 };
    const exact = simulateAdaptively(
      { inputs: { still }, formula: (v) => v.still },
      { seed: 1, level: 0.995 },
    );
    expect(exact).toMatchObject({ value: 4, u: 0, stable: true, sequences: 1 });
    expect(exact.trials).toBeGreaterThanOrEqual(2e4);
  });
});

describe('agreement of the linear result', () => {
  test('8.2: both ends within half a unit of the last digit of u', () => {
    const simulated = { symmetric: { low: -3.88, high: 3.94 } };
    expect(linearAgrees({ value: 0, u: 2, U: 3.92 }, simulated)).toMatchObject({
      agrees: true,
      tolerance: 0.05,
    });
    expect(linearAgrees({ value: 0.1, u: 2, U: 3.92 }, simulated).agrees).toBe(false);
    expect(linearAgrees({ value: 0.1, u: 2, U: 3.92 }, simulated, 1).agrees).toBe(true);
  });

  test('a formula flat at its middle has no linear u and agrees with nothing but an exact result', () => {
    expect(linearAgrees({ value: 0, u: 0, U: 0 }, { symmetric: { low: 0, high: 0.1 } }).agrees).toBe(false);
    expect(linearAgrees({ value: 0, u: 0, U: 0 }, { symmetric: { low: 0, high: 0 } }).agrees).toBe(true);
  });
});
