/**
 * Worked examples of JCGM 101:2008 (propagation of distributions by Monte Carlo), clauses 9.3 to 9.5, and two examples
 * of other guides. Printed figures
 * are from memory unless a source is named; each was recomputed independently (numpy, up to 4e7 trials) or has a closed
 * form.
 */
import { describe, expect, test } from 'vitest';
import { linearAgrees } from '../../core/uncertainty/agreement.ts';
import { type Distribution, distributionDeviation } from '../../core/uncertainty/distribution.ts';
import { simulate } from '../../core/uncertainty/monteCarlo.ts';
import { propagate, type Values } from '../../core/uncertainty/propagate.ts';
import { quantity } from '../../core/uncertainty/quantity.ts';
import { secondOrder } from '../../core/uncertainty/secondOrder.ts';

const ROOT3 = Math.sqrt(3);
const within = (found: number, expected: number, tolerance: number): void => {
  expect(Math.abs(found - expected), `${found} against ${expected}`).toBeLessThanOrEqual(tolerance);
};

describe('9.3: calibration of a mass, mg (inputs: cran/propagate, which cites Table 5)', () => {
  type Mass = 'reference' | 'added' | 'air' | 'weight' | 'standard';
  const formula = (x: Values<Mass>): number =>
    (x.reference + x.added) * (1 + (x.air - 1.2) * (1 / x.weight - 1 / x.standard)) - 100_000;
  const known = {
    inputs: {
      reference: quantity('reference', 100_000, 0.05),
      added: quantity('added', 1.234, 0.02),
      air: quantity('air', 1.2, 0.1 / ROOT3),
      weight: quantity('weight', 8000, 1000 / ROOT3),
      standard: quantity('standard', 8000, 50 / ROOT3),
    },
    formula,
  };

  test('Table 6, first order: 1.2340, u 0.0539, [1.1285, 1.3395]', () => {
    const found = propagate(known, { level: 0.95 });
    within(found.value, 1.234, 1e-8);
    within(found.u, 0.053851648, 1e-8);
    within(found.value - found.U, 1.128453, 1e-6);
    within(found.value + found.U, 1.339547, 1e-6);
  });

  test('Table 6, with the next terms: u 0.0750', () => {
    const found = secondOrder(known);
    within(found.u, 0.074963474, 1e-8);
    expect(found.terms[0]?.between).toEqual(['air', 'weight']);
    within(found.bias, 0, 1e-8);
  });

  test('Table 6, Monte Carlo: 1.2341, u 0.0754, [1.0834, 1.3825]', () => {
    const inputs: Readonly<Record<Mass, Distribution>> = {
      reference: { kind: 'normal', mean: 100_000, u: 0.05 },
      added: { kind: 'normal', mean: 1.234, u: 0.02 },
      air: { kind: 'rectangular', lower: 1.1, upper: 1.3 },
      weight: { kind: 'rectangular', lower: 7000, upper: 9000 },
      standard: { kind: 'rectangular', lower: 7950, upper: 8050 },
    };
    const found = simulate({ inputs, formula }, { seed: 2, trials: 5e5, level: 0.95 });
    within(found.value, 1.23401, 0.0003);
    within(found.u, 0.07547, 0.0003);
    within(found.symmetric.low, 1.0845, 0.003);
    within(found.symmetric.high, 1.3836, 0.003);
    within(found.shortest.low, 1.0834, 0.005);
    within(found.shortest.high, 1.3825, 0.005);
    expect(linearAgrees(propagate(known, { level: 0.95 }), found).agrees).toBe(false);
  });
});

describe('9.4: comparison loss, Y = X1^2 + X2^2, in millionths', () => {
  const formula = (x: Values<'x1' | 'x2'>): number => 1e6 * (x.x1 * x.x1 + x.x2 * x.x2);
  const rows = [
    { x1: 0, linear: [0, 0], exact: [50, 50], shortest: [0, 149.786614] },
    { x1: 0.01, linear: [100, 100], exact: [150, 111.803399], shortest: [0, 366.01] },
    { x1: 0.05, linear: [2500, 500], exact: [2550, 502.493781], shortest: [1593.57, 3548.57] },
  ] as const;

  test.each(rows)('x1 = $x1: linear, exact and simulated', ({ x1, linear, exact, shortest }) => {
    const known = { inputs: { x1: quantity('x1', x1, 0.005), x2: quantity('x2', 0, 0.005) }, formula };
    const first = propagate(known, { level: 0.95 });
    within(first.value, linear[0], 1e-9);
    within(first.u, linear[1], 1e-6);
    // Normal inputs and a quadratic formula: the second order is the whole truth.
    const second = secondOrder(known);
    within(first.value + second.bias, exact[0], 1e-5);
    within(second.u, exact[1], 1e-5);
    const inputs = {
      x1: { kind: 'normal', mean: x1, u: 0.005 },
      x2: { kind: 'normal', mean: 0, u: 0.005 },
    } as const;
    const found = simulate({ inputs, formula }, { seed: 3, trials: 2e5, level: 0.95 });
    within(found.value, exact[0], 2);
    within(found.u, exact[1], 2);
    within(found.shortest.low, shortest[0], 15);
    within(found.shortest.high, shortest[1], 15);
    expect(found.symmetric.high - found.symmetric.low).toBeGreaterThanOrEqual(
      found.shortest.high - found.shortest.low,
    );
  });
});

describe('9.5: gauge block, nm (inputs: cran/propagate)', () => {
  const inputs = {
    standard: { kind: 't', mean: 50_000_623, scale: 25, dof: 18 },
    difference: { kind: 't', mean: 215, scale: 6, dof: 24 },
    random: { kind: 't', mean: 0, scale: 4, dof: 5 },
    systematic: { kind: 't', mean: 0, scale: 7, dof: 8 },
    expansion: { kind: 'rectangular', lower: 9.5e-6, upper: 13.5e-6 },
    temperature: { kind: 'normal', mean: -0.1, u: 0.2 },
    swing: { kind: 'arcsine', lower: -0.5, upper: 0.5 },
    expansionGap: { kind: 'curvilinearTrapezoid', lower: -1e-6, upper: 1e-6, doubt: 0.1e-6 },
    temperatureGap: { kind: 'curvilinearTrapezoid', lower: -0.05, upper: 0.05, doubt: 0.025 },
  } as const satisfies Readonly<Record<string, Distribution>>;

  test('Tables 10, 11: 838 nm, u 36 nm, 99 % interval [745, 932]', () => {
    const found = simulate(
      {
        inputs,
        formula: (x: Values<keyof typeof inputs>) =>
          x.standard +
          x.difference +
          x.random +
          x.systematic -
          x.standard * (x.expansionGap * (x.temperature + x.swing) + x.expansion * x.temperatureGap) -
          50_000_000,
      },
      { seed: 4, trials: 2e5, level: 0.99 },
    );
    within(found.value, 837.99, 0.3);
    within(found.u, 35.81, 0.3);
    within(found.symmetric.low, 744.4, 2);
    within(found.symmetric.high, 931.7, 2);
  });

  test('t(5) has a deviation of 5.2 where its scale is 4', () => {
    expect(distributionDeviation(inputs.random)).toBeCloseTo(4 * Math.sqrt(5 / 3), 12);
  });
});

describe('other guides (values in suncal, test_examples.py)', () => {
  test('NPL DEM-ES-011, 9.2: ln x of a flat x; -0.665, u 0.606, shortest [-1.895, 0.095]', () => {
    const formula = ({ x }: Values<'x'>): number => Math.log(x);
    const found = simulate(
      { inputs: { x: { kind: 'rectangular', lower: 0.1, upper: 1.1 } }, formula },
      { seed: 5, trials: 1e6, level: 0.95 },
    );
    within(found.value, -0.665, 0.0015);
    within(found.u, 0.606, 0.0015);
    within(found.shortest.low, -1.895, 0.003);
    within(found.shortest.high, 0.095, 0.001);
    const linear = propagate(
      { inputs: { x: quantity('x', 0.6, 1 / Math.sqrt(12)) }, formula },
      { level: 0.95 },
    );
    within(linear.value, -0.511, 5e-4);
    within(linear.u, 0.481, 5e-4);
    within(linear.value + linear.U, 0.432, 5e-4);
  });

  test('NIST TN 1900, E13: thermal expansion 1.7266e-5, u 1.76e-6, first order', () => {
    type Bar = 'L0' | 'T0' | 'L1' | 'T1';
    const formula = (x: Values<Bar>): number => (x.L1 - x.L0) / (x.L0 * (x.T1 - x.T0));
    const parts = { L0: [1.4999, 1e-4], T0: [288.15, 0.02], L1: [1.5021, 2e-4], T1: [373.1, 0.05] } as const;
    const known = (name: Bar) => quantity(name, parts[name][0], parts[name][1], 3);
    const linear = propagate({
      inputs: { L0: known('L0'), T0: known('T0'), L1: known('L1'), T1: known('T1') },
      formula,
    });
    within(linear.value, 1.7266e-5, 5e-10);
    within(linear.u, 1.76e-6, 5e-9);
  });
});
