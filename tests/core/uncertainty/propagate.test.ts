import { describe, expect, test } from 'vitest';
import { budget } from '../../../core/uncertainty/budget.ts';
import {
  firstDerivative,
  limitOfDifference,
  secondDerivative,
  thirdDerivative,
} from '../../../core/uncertainty/differences.ts';
import { propagate, propagateJointly } from '../../../core/uncertainty/propagate.ts';
import { quantity } from '../../../core/uncertainty/quantity.ts';
import { secondOrder } from '../../../core/uncertainty/secondOrder.ts';

describe('differences', () => {
  const f = (x: readonly number[]): number => Math.exp(x[0] ?? 0) * Math.sin(x[1] ?? 0);

  test('first derivatives of a smooth formula to eleven digits, from a step as long as the formula is curved', () => {
    expect(firstDerivative(f, [0.3, 0.7], 0, 1) / (Math.exp(0.3) * Math.sin(0.7))).toBeCloseTo(1, 11);
    expect(firstDerivative(f, [0.3, 0.7], 1, 1) / (Math.exp(0.3) * Math.cos(0.7))).toBeCloseTo(1, 11);
  });

  test('second and third derivatives, mixed and pure', () => {
    const [e, s, c] = [Math.exp(0.3), Math.sin(0.7), Math.cos(0.7)];
    expect(secondDerivative(f, [0.3, 0.7], [0, 0.5], [1, 0.5])).toBeCloseTo(e * c, 8);
    expect(secondDerivative(f, [0.3, 0.7], [1, 0.5], [1, 0.5])).toBeCloseTo(-e * s, 8);
    expect(thirdDerivative(f, [0.3, 0.7], [0, 0.5], [1, 0.5])).toBeCloseTo(-e * s, 6);
    expect(thirdDerivative(f, [0.3, 0.7], [1, 0.5], [1, 0.5])).toBeCloseTo(-e * c, 6);
  });

  test('a step out of the domain is drawn in until the formula has a value', () => {
    const slope = firstDerivative(([x = 0]) => Math.log(x), [0.1], 0, 5);
    expect(slope).toBeCloseTo(10, 6);
    expect(firstDerivative(() => Number.NaN, [1], 0, 1)).toBeNaN();
  });

  test('the reported error is honest for a smooth limit and large for one that does not exist', () => {
    const smooth = limitOfDifference((s) => Math.cos(s));
    expect(Math.abs(smooth.value - 1)).toBeLessThanOrEqual(Math.max(smooth.error, 1e-15));
    const jump = limitOfDifference((s) => 1 / s);
    expect(jump.error).toBeGreaterThan(0.1);
  });
});

describe('propagate', () => {
  const a = quantity('a', 10, 0.3, 5);
  const b = quantity('b', 4, 0.4, 9);

  test('independent inputs: the same as the plain budget', () => {
    const plain = budget([a, b], ([x = 0, y = 0]) => x * y);
    const found = propagate({ inputs: { a, b }, formula: (x) => x.a * x.b });
    expect(found.u).toBeCloseTo(Math.hypot(4 * 0.3, 10 * 0.4), 9);
    expect(found.u / plain.u).toBeCloseTo(1, 10);
    expect(found.dof / plain.dof).toBeCloseTo(1, 9);
    expect(found.U / plain.U).toBeCloseTo(1, 9);
    expect(found.lines.map(({ input }) => input.id)).toEqual(['b', 'a']);
    expect(found.lines.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  test('full correlation adds or cancels u; shares then may be negative and still sum to one', () => {
    const correlated = (r: number, sign: number) =>
      propagate({
        inputs: { a, b },
        formula: (x) => x.a + sign * x.b,
        correlations: [{ between: ['a', 'b'], r }],
      });
    expect(correlated(1, 1).u).toBeCloseTo(0.7, 9);
    expect(correlated(1, -1).u).toBeCloseTo(0.1, 9);
    expect(correlated(-1, 1).u).toBeCloseTo(0.1, 9);
    const shares = correlated(1, -1).lines.map(({ share }) => share);
    expect(Math.min(...shares)).toBeLessThan(0);
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
  });

  test('the same input named twice and fully correlated cancels to nothing, with k of a well known quantity', () => {
    const found = propagate({
      inputs: { a, again: quantity('again', 10, 0.3, 5) },
      formula: (x) => x.a - x.again,
      correlations: [{ between: ['a', 'again'], r: 1 }],
    });
    expect(found.u).toBeLessThan(1e-7);
  });

  test('a correlated pair counts with its fewer degrees of freedom, a third input by itself', () => {
    const c = quantity('c', 0, 0.5, 3);
    const found = propagate({
      inputs: { a, b, c },
      formula: (x) => x.a + x.b + x.c,
      correlations: [{ between: ['a', 'b'], r: 0.5 }],
    });
    const pair = 0.3 * 0.3 + 0.4 * 0.4 + 0.3 * 0.4;
    const variance = pair + 0.25;
    expect(found.u).toBeCloseTo(Math.sqrt(variance), 9);
    expect(found.dof).toBeCloseTo((variance * variance) / ((pair * pair) / 5 + 0.0625 / 3), 6);
  });

  test('whole degrees of freedom are cut, never rounded, and never below one', () => {
    const whole = propagate({ inputs: { a, b }, formula: (x) => x.a + x.b }, { wholeDof: true });
    const exact = propagate({ inputs: { a, b }, formula: (x) => x.a + x.b });
    expect(exact.dof).toBeCloseTo((0.25 * 0.25) / (0.0081 / 5 + 0.0256 / 9), 6);
    expect(whole.dof).toBe(Math.floor(exact.dof));
    expect(whole.k).toBeGreaterThan(exact.k);
    const poor = propagate(
      { inputs: { p: quantity('p', 0, 1, 0.5) }, formula: (x) => x.p },
      { wholeDof: true },
    );
    expect(poor.dof).toBe(1);
  });

  test('an input so exact that rounding would swallow its step still gets its slope', () => {
    const found = propagate({ inputs: { x: quantity('x', 1e6, 1e-12) }, formula: ({ x }) => 3 * x });
    expect(found.u / 3e-12).toBeCloseTo(1, 8);
  });

  test('exact inputs contribute nothing and leave the dof of the others alone', () => {
    const found = propagate({ inputs: { a, e: quantity('e', 2, 0) }, formula: (x) => x.a * x.e });
    expect(found.u).toBeCloseTo(0.6, 9);
    expect(found.dof).toBeCloseTo(5, 9);
  });

  test('correlations out of range or of unknown inputs, and a formula without a slope, are bugs', () => {
    const formula = (x: { a: number; b: number }) => x.a + x.b;
    const model = (r: number) => ({
      inputs: { a, b },
      formula,
      correlations: [{ between: ['a', 'b'], r }] as const,
    });
    expect(() => propagate(model(1.01))).toThrow(/correlation/);
    expect(() =>
      propagate({ inputs: { a, b }, formula, correlations: [{ between: ['a', 'a'], r: 0.5 }] }),
    ).toThrow(/two inputs/);
    expect(() => propagate({ inputs: { a }, formula: () => Number.NaN })).toThrow(/no slope/);
  });

  test('results of the same inputs: sum and difference of independent inputs correlate by their variances', () => {
    const joint = propagateJointly({ inputs: { a, b } }, { sum: (x) => x.a + x.b, gap: (x) => x.a - x.b });
    expect(joint.covariance('sum', 'gap')).toBeCloseTo(0.09 - 0.16, 9);
    expect(joint.correlation('sum', 'gap')).toBeCloseTo(-0.28, 8);
    expect(joint.results.gap.value).toBe(6);
  });
});

describe('second order', () => {
  test('a square: y = x^2 with x = 0 has no first order, u = sqrt 2 u^2 and mean u^2', () => {
    const found = secondOrder({ inputs: { x: quantity('x', 0, 0.5) }, formula: ({ x }) => x * x });
    expect(found.firstOrderU).toBeCloseTo(0, 12);
    expect(found.u).toBeCloseTo(Math.SQRT2 * 0.25, 9);
    expect(found.bias).toBeCloseTo(0.25, 9);
  });

  test('a product: the variance gains u_a^2 u_b^2, exactly', () => {
    const found = secondOrder({
      inputs: { a: quantity('a', 10, 0.3), b: quantity('b', 4, 0.4) },
      formula: (x) => x.a * x.b,
    });
    expect(found.u * found.u).toBeCloseTo(1.44 + 16 + 0.0144, 6);
    expect(found.terms[0]?.between).toEqual(['a', 'b']);
    expect(found.bias).toBeCloseTo(0, 8);
  });

  test('a linear formula gains nothing; correlated inputs are refused', () => {
    const inputs = { a: quantity('a', 10, 0.3), b: quantity('b', 4, 0.4) };
    const formula = (x: { a: number; b: number }) => 2 * x.a - x.b;
    const found = secondOrder({ inputs, formula });
    expect(found.u / found.firstOrderU).toBeCloseTo(1, 9);
    const correlations = [{ between: ['a', 'b'] as const, r: 0.2 }];
    expect(() => secondOrder({ inputs, formula, correlations })).toThrow(/independent/);
  });
});
