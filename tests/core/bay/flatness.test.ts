import { describe, expect, test } from 'vitest';
import { FLATNESS_STEP_MM, type FlatnessLine, flatnessOfLine } from '../../../core/bay/flatness.ts';
import { fitFloorPlane } from '../../../core/bay/floorPlane.ts';
import { illuminance } from '../../../core/bay/light.ts';
import { residualSurface } from '../../../core/bay/residualSurface.ts';
import type { Vec3 } from '../../../core/geometry/vector.ts';

function numbersOf(heights: readonly number[]): FlatnessLine {
  const result = flatnessOfLine(heights);
  if (!result.ok) throw new Error(result.error.code);
  return result.value;
}

const wavy = Array.from({ length: 20 }, (_, i) => 3 * Math.sin(i / 3) + 0.2 * i);

describe('flatness of a line', () => {
  test('a slope has no bend: flat without end, level by its rise over 3 m', () => {
    const found = numbersOf(Array.from({ length: 15 }, (_, i) => 1.5 * i));
    expect(found.flatness).toBeGreaterThan(1e12);
    expect(found.levelness).toBeCloseTo(317.5 / 15, 10);
    expect(found.rises.values).toHaveLength(5);
    expect(found.bends.values).toHaveLength(13);
  });

  test('height of the line, its direction and its side play no part', () => {
    const plain = numbersOf(wavy);
    for (const changed of [wavy.map((h) => h + 400), wavy.map((h) => -h), wavy.toReversed()]) {
      expect(numbersOf(changed).flatness).toBeCloseTo(plain.flatness, 9);
      expect(numbersOf(changed).levelness).toBeCloseTo(plain.levelness, 9);
    }
  });

  test('twice the waves, half the number; a slope lowers only the level number', () => {
    const plain = numbersOf(wavy);
    expect(numbersOf(wavy.map((h) => 2 * h)).flatness).toBeCloseTo(plain.flatness / 2, 10);
    const tilted = numbersOf(wavy.map((h, i) => h + 5 * i));
    expect(tilted.flatness).toBeCloseTo(plain.flatness, 9);
    expect(tilted.levelness).toBeLessThan(plain.levelness);
  });

  test('eleven heights are too few and are told how many it takes', () => {
    expect(flatnessOfLine(wavy.slice(0, 11))).toEqual({
      ok: false,
      error: { code: 'bay/lineTooShort', heights: 11, least: 12 },
    });
    expect(flatnessOfLine(wavy.slice(0, 12)).ok).toBe(true);
    expect(FLATNESS_STEP_MM).toEqual({ metric: 300, inch: 304.8 });
  });
});

describe('residual surface', () => {
  const grid: readonly Vec3[] = [0, 1000, 2000].flatMap((x) =>
    [0, 1000, 2000].map((y): Vec3 => [x, y, 0.004 * x - 0.002 * y + 12]),
  );

  function of(points: readonly Vec3[]) {
    const plane = fitFloorPlane(points);
    if (!plane.ok) throw new Error(plane.error.code);
    return residualSurface(plane.value, points);
  }

  test('a plane leaves nothing', () => {
    const found = of(grid);
    expect(found.spanMm).toBeCloseTo(0, 10);
    expect(found.sMm).toBeCloseTo(0, 10);
  });

  test('a hollow in the middle of nine: 8/9 of it below the plane, 1/9 above all round', () => {
    const hollow = grid.map(([x, y, z], i): Vec3 => [x, y, i === 4 ? z - 9 : z]);
    const found = of(hollow);
    expect(found.lowest).toEqual({ index: 4, aboveMm: expect.closeTo(-8, 10) });
    expect(found.highest.aboveMm).toBeCloseTo(1, 10);
    expect(found.spanMm).toBeCloseTo(9, 10);
    expect(found.sMm).toBeCloseTo(Math.sqrt((64 + 8) / 6), 10);
    expect(found.aboveMm.reduce((sum, above) => sum + above, 0)).toBeCloseTo(0, 9);
  });

  test('three points fix the plane and say nothing of flatness; two are a bug', () => {
    expect(
      of([
        [0, 0, 0],
        [1000, 0, 5],
        [0, 1000, 9],
      ]).sMm,
    ).toBe(0);
    expect(() => residualSurface({ z0Mm: 0, slopeX: 0, slopeY: 0 }, [[0, 0, 0]])).toThrow(/three points/);
  });
});

describe('light readings', () => {
  test('one reading is even; darkness is not', () => {
    expect(illuminance([300])).toMatchObject({ value: { mean: 300, uniformity: 1, darkest: 0 } });
    expect(illuminance([0, 0])).toMatchObject({ value: { uniformity: 0 } });
  });

  test('no readings, or one that cannot be, are errors with their place', () => {
    expect(illuminance([])).toMatchObject({ error: { code: 'bay/noLightReadings' } });
    for (const bad of [-1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(illuminance([300, bad])).toMatchObject({ error: { code: 'bay/badLightReading', index: 1 } });
    }
  });
});
