/**
 * Cosine error, thermal expansion and sag of a tape. The first two are arithmetic recomputed independently; the sag formula
 * w^2 L^3 / 24 F^2 is from memory and is held here against the arc of the parabola itself.
 */
import { describe, expect, test } from 'vitest';
import {
  outOfLineMm,
  STEEL_EXPANSION_PER_K,
  sagMm,
  TAPE_REFERENCE_C,
  thermalGrowthMm,
} from '../../core/uncertainty/tapeCorrections.ts';

describe('a tape out of line', () => {
  test('50 mm over 3 m: 0.416696 mm (recomputed)', () => {
    expect(outOfLineMm(3000, 50)).toBeCloseTo(0.416696, 6);
    expect(outOfLineMm(3000, -50)).toBe(outOfLineMm(3000, 50));
  });

  test('nothing in line; the whole reading when square to the line; e^2 / 2 L for small ones', () => {
    expect(outOfLineMm(3000, 0)).toBe(0);
    expect(outOfLineMm(3000, 3000)).toBe(3000);
    expect(outOfLineMm(5000, 0.001) / (1e-6 / 10_000)).toBeCloseTo(1, 12);
  });

  test('an offset beyond the reading, or none read, is a bug', () => {
    expect(() => outOfLineMm(100, 101)).toThrow('101');
    expect(() => outOfLineMm(0, 0)).toThrow('reading of 0');
  });
});

describe('warmth', () => {
  test('steel of 11.5e-6 per kelvin, 5 m, 10 K: 0.575 mm', () => {
    expect(STEEL_EXPANSION_PER_K).toBe(11.5e-6);
    expect(thermalGrowthMm(5000, 10)).toBeCloseTo(0.575, 12);
    expect(thermalGrowthMm(5000, 10 - TAPE_REFERENCE_C)).toBeCloseTo(-0.575, 12);
  });

  test('JCGM 100:2008 H.1: its end gauge of 50 mm, 0.1 K off, is 57.5 nm another length', () => {
    expect(thermalGrowthMm(50, 0.1, 11.5e-6) * 1e6).toBeCloseTo(57.5, 9);
  });
});

/** Arc of the parabola through two supports at one height, by small chords, mm. */
function arcMm(spanMm: number, weightNPerM: number, pullN: number): number {
  const steps = 100_000;
  const dx = spanMm / 1000 / steps;
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const slope = (weightNPerM * ((i + 0.5) * dx - spanMm / 2000)) / pullN;
    sum += Math.sqrt(1 + slope * slope) * dx;
  }
  return sum * 1000;
}

describe('sag (formula from memory)', () => {
  test.each([
    [5000, 0.15, 50, 0.046875],
    [5000, 0.15, 10, 1.171875],
    [30_000, 0.15, 50, 10.125],
  ])('%d mm of %f N/m at %d N: %f mm, and the arc agrees to the next term', (span, weight, pull, sag) => {
    expect(sagMm(span, weight, pull)).toBeCloseTo(sag, 9);
    const ratio = (weight * span) / 1000 / pull;
    // The next term of the arc is -(3/40) of the first times the squared ratio.
    expect(Math.abs(arcMm(span, weight, pull) - span - sag)).toBeLessThan(0.1 * ratio * ratio * sag + 1e-6);
  });

  test('four times the sag for half the pull; eight times for twice the length', () => {
    expect(sagMm(5000, 0.2, 25) / sagMm(5000, 0.2, 50)).toBeCloseTo(4, 12);
    expect(sagMm(10_000, 0.2, 50) / sagMm(5000, 0.2, 50)).toBeCloseTo(8, 12);
    expect(() => sagMm(5000, 0.2, 0)).toThrow('got 0 N');
  });
});
