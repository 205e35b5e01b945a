/**
 * Worked examples of JCGM 101:2008 (propagation of distributions by Monte Carlo), clause 9.2, and the vectors of the
 * generator. Printed figures
 * are from memory unless a source is named; each was recomputed independently (numpy, up to 4e7 trials) or has a closed
 * form.
 */
import { describe, expect, test } from 'vitest';
import { linearAgrees } from '../../core/uncertainty/agreement.ts';
import type { Distribution } from '../../core/uncertainty/distribution.ts';
import { simulate, simulateAdaptively } from '../../core/uncertainty/monteCarlo.ts';
import { propagate, type Values } from '../../core/uncertainty/propagate.ts';
import { quantity } from '../../core/uncertainty/quantity.ts';
import { randomFromState } from '../../core/uncertainty/random.ts';

const ROOT3 = Math.sqrt(3);
const within = (found: number, expected: number, tolerance: number): void => {
  expect(Math.abs(found - expected), `${found} against ${expected}`).toBeLessThanOrEqual(tolerance);
};

describe('xoshiro128**, vectors of the C reference', () => {
  test('state 964d4a0c d40ab895 ad7fdecb 3006f0f0 (edorfaus/xoshiro-6502, test-rom/testdata.asm)', () => {
    const { bits } = randomFromState([0x964d4a0c, 0xd40ab895, 0xad7fdecb, 0x3006f0f0]);
    expect([bits(), bits(), bits(), bits()]).toEqual([0xf1391922, 0x6fe53806, 0xa5be2840, 0xf510ee70]);
  });

  test('state 0 1 2 3: the sixteen first numbers (a public suite that took them from the reference)', () => {
    const { bits } = randomFromState([0, 1, 2, 3]);
    // biome-ignore format: as listed
    expect(Array.from({ length: 16 }, bits)).toEqual([
      5760, 17280, 2966400, 32451840, 2604340873, 3891234569, 1254043636, 216095511,
      3291724652, 2070429911, 3403762308, 371730125, 2871333640, 1107719891, 407174912, 2984142590,
    ]);
  });
});

describe('9.2: the sum of four', () => {
  type Four = 'a' | 'b' | 'c' | 'd';
  const sum = (x: Values<Four>): number => x.a + x.b + x.c + x.d;
  const normal: Distribution = { kind: 'normal', mean: 0, u: 1 };
  const flat: Distribution = { kind: 'rectangular', lower: -ROOT3, upper: ROOT3 };
  const run = (one: Distribution, last: Distribution) =>
    simulate(
      { inputs: { a: one, b: one, c: one, d: last }, formula: sum },
      { seed: 1, trials: 1e6, level: 0.95 },
    );
  const linear = (last: number) =>
    propagate(
      {
        inputs: {
          a: quantity('a', 0, 1),
          b: quantity('b', 0, 1),
          c: quantity('c', 0, 1),
          d: quantity('d', 0, last),
        },
        formula: sum,
      },
      { level: 0.95 },
    );

  test('9.2.2, Table 2: normal inputs, u 2.00, interval +-3.92; the linear way agrees', () => {
    const found = run(normal, normal);
    within(found.value, 0, 0.005);
    within(found.u, 2, 0.005);
    within(found.symmetric.low, -3.919927969, 0.01);
    within(found.symmetric.high, 3.919927969, 0.01);
    expect(linear(1).U).toBeCloseTo(3.919927969, 8);
    expect(found).toMatchObject({
      seed: 1,
      trials: 1e6,
      generator: 'xoshiro128** 1.1, seeded by splitmix32',
    });
    expect(linearAgrees(linear(1), found)).toMatchObject({ tolerance: 0.05, agrees: true });
  });

  test('9.2.3, Table 3: rectangular inputs, +-3.88 against the 3.92 of the linear way', () => {
    const found = run(flat, flat);
    within(found.u, 2, 0.005);
    const exact = 2 * ROOT3 * (2 - Math.sqrt(Math.sqrt(3 / 5)));
    expect(exact).toBeCloseTo(3.879406741348, 11);
    within(found.symmetric.low, -exact, 0.01);
    within(found.symmetric.high, exact, 0.01);
    // A symmetric result has one interval: the shortest hardly differs.
    within(found.shortest.high - found.shortest.low, 2 * exact, 0.02);
  });

  test('9.2.4, Table 4: one input ten times wider, u 10.1, +-17.0 against +-19.9', () => {
    const found = run(flat, { kind: 'rectangular', lower: -10 * ROOT3, upper: 10 * ROOT3 });
    within(found.u, 10.148891565, 0.02);
    within(found.symmetric.low, -17.015814099, 0.05);
    within(found.symmetric.high, 17.015814099, 0.05);
    expect(linear(10).u).toBeCloseTo(10.148891565, 8);
    expect(linear(10).U).toBeCloseTo(19.891462, 5);
    expect(linearAgrees(linear(10), found).agrees).toBe(false);
  });

  test('7.9, adaptive: the sum of four stable to two digits, well before the trials run out', () => {
    const one: Distribution = { kind: 'normal', mean: 0, u: 1 };
    const found = simulateAdaptively(
      { inputs: { a: one, b: one, c: one, d: one }, formula: (x) => x.a + x.b + x.c + x.d },
      { seed: 6, level: 0.95 },
    );
    expect(found.stable).toBe(true);
    expect(found.tolerance).toBe(0.05);
    within(found.u, 2, 0.05);
    within(found.symmetric.high, 3.92, 0.05);
    expect(found.trials).toBe(found.sequences * 1e4);
    expect(found.trials).toBeLessThan(5e5);
  });
});
