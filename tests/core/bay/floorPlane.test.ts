import { describe, expect, test } from 'vitest';
import {
  fitFloorPlane,
  heightsAbovePlane,
  planeHeightMm,
  planeNormal,
} from '../../../core/bay/floorPlane.ts';
import type { Vec3 } from '../../../core/geometry/vector.ts';

const planeThrough = (points: readonly Vec3[]) => {
  const plane = fitFloorPlane(points);
  if (!plane.ok) throw new Error(plane.error.code);
  return plane.value;
};

describe('the floor as a plane', () => {
  test('three points fix it: a floor that rises 5 mm in a metre along x and falls 10 mm in a metre along y', () => {
    const plane = planeThrough([
      [0, 0, 100],
      [1000, 0, 105],
      [0, 1000, 90],
    ]);
    expect(plane.z0Mm).toBeCloseTo(100, 9);
    expect(plane.slopeX).toBeCloseTo(0.005, 12);
    expect(plane.slopeY).toBeCloseTo(-0.01, 12);
    expect(planeHeightMm(plane, 2000, 3000)).toBeCloseTo(80, 9);
  });

  test('the fourth corner of a square shows the rock: 4 mm up at one corner is 1 mm up and down at all four', () => {
    const corners: readonly Vec3[] = [
      [0, 0, 4],
      [1000, 0, 0],
      [1000, 1000, 0],
      [0, 1000, 0],
    ];
    const above = heightsAbovePlane(planeThrough(corners), corners);
    [1, -1, 1, -1].forEach((expected, i) => {
      expect(above[i]).toBeCloseTo(expected, 9);
    });
  });

  test('the normal stands square to the floor and points up', () => {
    const [x, y, z] = planeNormal({ z0Mm: 0, slopeX: 0.03, slopeY: -0.04 });
    expect(Math.hypot(x, y, z)).toBeCloseTo(1, 12);
    expect(x + 0.03 * z).toBeCloseTo(0, 12);
    expect(y - 0.04 * z).toBeCloseTo(0, 12);
    expect(z).toBeGreaterThan(0);
  });

  test('a level floor far from the origin loses no digits', () => {
    const plane = planeThrough([
      [1e6, 1e6, 12.345],
      [1e6 + 1500, 1e6, 12.345],
      [1e6, 1e6 + 2700, 12.345],
      [1e6 + 1500, 1e6 + 2700, 12.345],
    ]);
    expect(plane.slopeX).toBeCloseTo(0, 12);
    expect(planeHeightMm(plane, 1e6 + 700, 1e6 + 900)).toBeCloseTo(12.345, 6);
  });

  test('two heights are too few, and heights in one line leave the floor free to tip', () => {
    expect(
      fitFloorPlane([
        [0, 0, 0],
        [1, 0, 0],
      ]),
    ).toEqual({
      ok: false,
      error: { code: 'bay/tooFewHeights', count: 2 },
    });
    expect(
      fitFloorPlane([
        [0, 0, 0],
        [500, 500, 1],
        [1000, 1000, 2],
      ]),
    ).toEqual({
      ok: false,
      error: { code: 'bay/heightsInLine' },
    });
    expect(
      fitFloorPlane([
        [5, 5, 0],
        [5, 5, 0],
        [5, 5, 0],
      ]).ok,
    ).toBe(false);
  });
});
