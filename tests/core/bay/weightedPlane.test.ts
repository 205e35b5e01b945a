import { describe, expect, test } from 'vitest';
import { fitFloorPlane } from '../../../core/bay/floorPlane.ts';
import {
  bestWeights,
  type KnownHeight,
  type KnownPlane,
  knownPlane,
  knownPlaneHeight,
  slopesOf,
  slopeToward,
} from '../../../core/bay/weightedPlane.ts';

const at = (xMm: number, yMm: number, zMm: number, uMm = 0.5): KnownHeight => ({ xMm, yMm, zMm, uMm });

function planeOf(heights: readonly KnownHeight[], weights?: readonly number[], uTilt = 0): KnownPlane {
  const plane = knownPlane(heights, weights ?? heights.map(() => 1), uTilt);
  if (!plane.ok) throw new Error(plane.error.code);
  return plane.value;
}

/** Four corners of 2000 by 1000 mm: rises 10 mm along x, 5 mm along y. */
const CORNERS = [at(0, 0, 100), at(2000, 0, 110), at(0, 1000, 105), at(2000, 1000, 115)];

describe('a plane through heights with its uncertainty', () => {
  test('by hand: four corners of 0.5 mm: 0.25 at the centre, 0.25 mm/m and 0.5 mm/m in the slopes', () => {
    const plane = planeOf(CORNERS);
    expect(plane.slopeX).toBeCloseTo(0.005, 12);
    expect(plane.slopeY).toBeCloseTo(0.005, 12);
    // u(slope) = u / sqrt(sum of squared distances): 0.5 / sqrt(4 * 1000^2) and 0.5 / sqrt(4 * 500^2).
    expect(slopeToward(plane, 0).u).toBeCloseTo(0.5 / 2000, 12);
    expect(slopeToward(plane, Math.PI / 2).u).toBeCloseTo(0.5 / 1000, 12);
    expect(knownPlaneHeight(plane, 1000, 500)).toEqual({
      value: expect.closeTo(107.5, 9),
      u: expect.closeTo(0.25, 12),
    });
    // 5 m beyond the centre along x: sqrt(0.25^2 + (5000 * 0.00025)^2).
    expect(knownPlaneHeight(plane, 6000, 500).u).toBeCloseTo(Math.hypot(0.25, 1.25), 9);
  });

  test('the tilt of the level plane goes whole into the slopes, however many heights there are', () => {
    const many = Array.from({ length: 400 }, (_, i) => at((i % 20) * 300, Math.floor(i / 20) * 300, 0, 0.3));
    const plane = planeOf(many, undefined, 1e-4);
    expect(slopeToward(plane, 0.7).u).toBeGreaterThan(1e-4);
    expect(slopeToward(plane, 0.7).u).toBeLessThan(1.01e-4);
    const free = planeOf(many);
    expect(slopeToward(free, 0.7).u).toBeLessThan(1e-5);
  });

  test('slopes along and across a car that points anywhere: a quarter turn swaps them with the sign of the left', () => {
    const plane = planeOf([at(0, 0, 0), at(1000, 0, 3), at(0, 1000, 8), at(1000, 1000, 11)]);
    const east = slopesOf(plane, 0);
    expect(east.along.value).toBeCloseTo(0.003, 12);
    expect(east.across.value).toBeCloseTo(0.008, 12);
    const north = slopesOf(plane, Math.PI / 2);
    expect(north.along.value).toBeCloseTo(0.008, 12);
    expect(north.across.value).toBeCloseTo(-0.003, 12);
  });

  test('equal weights give the plain least-squares plane', () => {
    const uneven = [at(0, 0, 3), at(2500, 100, 9), at(300, 1400, -4), at(2600, 1700, 2), at(1200, 800, 7)];
    const plain = fitFloorPlane(uneven.map((h) => [h.xMm, h.yMm, h.zMm]));
    const found = planeOf(uneven);
    expect(plain.ok && plain.value.slopeX).toBeCloseTo(found.slopeX, 14);
    expect(plain.ok && plain.value.slopeY).toBeCloseTo(found.slopeY, 14);
    expect(plain.ok && plain.value.z0Mm).toBeCloseTo(found.z0Mm, 9);
  });

  test('weights 1 / u^2: a height ten times worse hardly pulls; exact heights are weighed alike', () => {
    const heights = [...CORNERS, at(1000, 500, 207.5, 5)];
    const pulled = knownPlaneHeight(planeOf(heights), 1000, 500).value;
    const best = knownPlaneHeight(planeOf(heights, bestWeights(heights)), 1000, 500).value;
    // Plain: 100 / 5 = 20 mm up. Weighed 0.04 against four of 4: 100 * 0.04 / 16.04.
    expect(pulled).toBeCloseTo(127.5, 9);
    expect(best).toBeCloseTo(107.5 + 4 / 16.04, 9);
    expect(bestWeights([at(0, 0, 0, 0), at(1, 1, 1, 2)])).toEqual([1, 1]);
  });

  test('two heights, or all in a line, fix no plane', () => {
    expect(knownPlane([at(0, 0, 0), at(1, 1, 1)], [1, 1])).toEqual({
      ok: false,
      error: { code: 'bay/tooFewHeights', count: 2 },
    });
    const line = [at(0, 0, 0), at(500, 500, 1), at(1000, 1000, 5)];
    expect(knownPlane(line, [1, 1, 1])).toEqual({ ok: false, error: { code: 'bay/heightsInLine' } });
    expect(() => knownPlane(CORNERS, [1, 1, 1])).toThrow(/weight/);
    expect(() => knownPlane(CORNERS, [1, 1, 1, 1], -1)).toThrow(/negative/);
  });
});
