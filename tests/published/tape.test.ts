/** Tape classes of Directive 2014/32/EU, Annex X, chapter I (as transposed in UK SI 2016/1153, Schedule 1I). */
import { describe, expect, test } from 'vitest';
import { tapeUncertainty } from '../../core/uncertainty/readingUncertainty.ts';
import { intervalLimitMm, tapeLimitMm } from '../../core/uncertainty/tapeClass.ts';

describe('largest permitted error', () => {
  const rows = [
    [3, 0.4, 0.9, 1.8],
    [5, 0.6, 1.3, 2.6],
    [8, 0.9, 1.9, 3.8],
    [10, 1.1, 2.3, 4.6],
    [30, 3.1, 6.3, 12.6],
  ] as const;

  test.each(rows)('%d m: class I %d, II %d, III %d mm', (metres, one, two, three) => {
    expect(tapeLimitMm('I', metres * 1000)).toBe(one);
    expect(tapeLimitMm('II', metres * 1000)).toBe(two);
    expect(tapeLimitMm('III', metres * 1000)).toBe(three);
  });

  test('the length is rounded up to the next whole metre; a hook adds its own limit', () => {
    expect(tapeLimitMm('II', 4300)).toBe(1.3);
    expect(tapeLimitMm('II', 4300, true)).toBe(1.5);
    expect(tapeLimitMm('II', 500)).toBe(0.5);
    expect(tapeLimitMm('II', 5001)).toBe(1.5);
    expect(tapeLimitMm('I', 1000, true)).toBe(0.3);
    expect(tapeLimitMm('III', 1000, true)).toBe(1.3);
  });

  test('Table 2: between neighbouring marks', () => {
    expect((['I', 'II', 'III'] as const).map((c) => intervalLimitMm(c, 1))).toEqual([0.1, 0.2, 0.3]);
    expect((['I', 'II', 'III'] as const).map((c) => intervalLimitMm(c, 10))).toEqual([0.2, 0.4, 0.6]);
  });

  test('as a standard uncertainty: 1.3 mm at 5 m, class II, is 0.750555 mm', () => {
    expect(tapeUncertainty('II', 5000).u).toBeCloseTo(0.750555, 6);
    expect(tapeUncertainty('II', 5000).dof).toBe(Number.POSITIVE_INFINITY);
  });
});
