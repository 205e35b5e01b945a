import { describe, expect, test } from 'vitest';
import { budget } from '../../../core/uncertainty/budget.ts';
import { quantity } from '../../../core/uncertainty/quantity.ts';
import {
  certificateUncertainty,
  readingUncertainty,
  repeatabilityLimit,
  tapeUncertainty,
} from '../../../core/uncertainty/readingUncertainty.ts';

describe('u of a reading', () => {
  test('tape class, resolution, two ends set up, repeatability: root of the sum of squares', () => {
    const tape = tapeUncertainty('II', 4300);
    const found = readingUncertainty('base.L', 2704, {
      instrument: tape,
      resolution: 1,
      setUp: { u: 0.3, ends: 2 },
      repeatability: { s: 0.5, dof: 24, readings: 1 },
    });
    const expected = Math.sqrt(0.750555 ** 2 + 1 / 12 + 2 * 0.3 ** 2 + 0.5 ** 2);
    expect(found.u).toBeCloseTo(expected, 6);
    expect(found.value).toBe(2704);
    expect(found.dof).toBeCloseTo(expected ** 4 / (0.5 ** 4 / 24), 0);
  });

  test('repeats average set-up and repeatability, never the instrument or its steps', () => {
    const parts = {
      instrument: tapeUncertainty('II', 3000),
      resolution: 0.5,
      setUp: { u: 0.4, ends: 2 },
      repeatability: { s: 0.6, dof: 30, readings: 1 },
    } as const;
    const floor = Math.hypot(parts.instrument.u, 0.5 / Math.sqrt(12));
    const u = (readings: number) =>
      readingUncertainty('x', 0, { ...parts, repeatability: { ...parts.repeatability, readings } }).u;
    expect(u(4)).toBeLessThan(u(1));
    expect(u(1e8)).toBeCloseTo(floor, 4);
    expect(u(1e8)).toBeGreaterThanOrEqual(floor);
  });

  test('a certificate that states U with k, or with a level of confidence and dof', () => {
    expect(certificateUncertainty('bar', 2500, { U: 0.8, k: 2 }).u).toBe(0.4);
    const few = certificateUncertainty('bar', 2500, { U: 1, level: 0.95, dof: 10 });
    expect(few.u).toBeCloseTo(1 / 2.228138851986, 9);
    expect(few.dof).toBe(10);
  });

  test('two repeats may differ by 2.8 s', () => {
    expect(repeatabilityLimit(0.5)).toBeCloseTo(1.4, 12);
  });

  test('impossible quantities are bugs', () => {
    expect(() => quantity('x', 1, -0.1)).toThrow(/not negative/);
    expect(() => quantity('x', Number.NaN, 1)).toThrow(/finite/);
    expect(() => quantity('x', 1, 1, 0)).toThrow(/degrees of freedom/);
  });
});

describe('budget', () => {
  test('a sum in quadrature, largest line first, an exact input contributes nothing', () => {
    const found = budget(
      [quantity('a', 10, 3), quantity('b', 20, 4), quantity('c', 1, 0)],
      ([a = 0, b = 0, c = 0]) => a - b + 7 * c,
    );
    expect(found.value).toBe(-3);
    expect(found.u).toBeCloseTo(5, 9);
    expect(found.lines.map(({ input }) => input.id)).toEqual(['b', 'a', 'c']);
    expect(found.lines[0]?.sensitivity).toBeCloseTo(-1, 9);
    expect(found.lines[0]?.share).toBeCloseTo(0.64, 9);
    expect(found.U).toBeCloseTo(10, 3);
  });
});
