import { describe, expect, test } from 'vitest';
import { floorHeights, largestBends, residualAt } from '../../../core/bay/floorSurface.ts';
import { type FloorSurvey, type SurveyedFloor, surveyedFloor } from '../../../core/bay/floorSurvey.ts';
import { slopeToward } from '../../../core/bay/weightedPlane.ts';
import { entry } from '../../../core/linalg/matrix.ts';

/** A floor read every metre on 4 by 3 m; `z` gives the height. */
function survey(
  z: (x: number, y: number) => number | undefined,
  over: Partial<FloorSurvey> = {},
): FloorSurvey {
  const xsMm = [0, 1000, 2000, 3000, 4000];
  const ysMm = [0, 1000, 2000, 3000];
  return {
    xsMm,
    ysMm,
    heightsMm: ysMm.map((y) => xsMm.map((x) => z(x, y))),
    uHeightMm: 0.4,
    uTilt: 0,
    ...over,
  };
}

function surveyed(s: FloorSurvey): SurveyedFloor {
  const floor = surveyedFloor(s);
  if (!floor.ok) throw new Error(floor.error.code);
  return floor.value;
}

const heightsOf = (s: FloorSurvey, ...places: readonly (readonly [number, number])[]) => {
  const named = places.map(([xMm, yMm], i) => ({ name: `place ${i}`, xMm, yMm }));
  const heights = floorHeights({ survey: s }, named);
  if (!heights.ok) throw new Error(heights.error.code);
  return heights.value;
};

const SLOPE = (x: number, y: number): number => 100 + 0.005 * x - 0.002 * y;

describe('a floor survey', () => {
  test('a sloping flat floor: its plane, nothing left, and the u of the slope by hand', () => {
    const floor = surveyed(survey(SLOPE));
    expect(floor.plane.slopeX).toBeCloseTo(0.005, 12);
    expect(floor.plane.slopeY).toBeCloseTo(-0.002, 12);
    expect(floor.residuals.spanMm).toBeCloseTo(0, 9);
    // Columns at -2, -1, 0, 1, 2 m about the middle, four of each: 4 * (4 + 1 + 0 + 1 + 4) m^2.
    expect(slopeToward(floor.plane, 0).u).toBeCloseTo(0.4 / Math.sqrt(40e6), 12);
  });

  test('a hole in the grid is left out of the plane and named when asked about', () => {
    const s = survey((x, y) => (x === 2000 && y === 1000 ? undefined : SLOPE(x, y)));
    expect(surveyed(s).heights).toHaveLength(19);
    expect(floorHeights({ survey: s }, [{ name: 'mast foot', xMm: 1500, yMm: 700 }])).toEqual({
      ok: false,
      error: { code: 'bay/surveyGap', place: 'mast foot' },
    });
    // On the grid line beside it the missing corner has no weight.
    expect(heightsOf(s, [1000, 700]).heightsMm[0]).toBeCloseTo(SLOPE(1000, 700), 9);
  });

  test('outside it nothing is said, and by how much outside is', () => {
    const asked = floorHeights({ survey: survey(SLOPE) }, [
      { name: 'wheel', xMm: 10, yMm: 10 },
      { name: 'mast foot', xMm: 4300, yMm: 3400 },
    ]);
    expect(asked).toEqual({ ok: false, error: { code: 'bay/outsideSurvey', place: 'mast foot', byMm: 500 } });
  });

  test.each([
    ['bay/gridNotRising', { xsMm: [0, 1000, 1000, 3000, 4000] }],
    ['bay/gridNotRising', { ysMm: [0] }],
    ['bay/gridIncomplete', { heightsMm: [[1, 2, 3, 4, 5]] }],
    ['bay/badHeight', { heightsMm: [0, 1, 2, 3].map((j) => [0, 0, j === 2 ? Number.NaN : 0, 0, 0]) }],
    ['bay/badUncertainty', { uHeightMm: -1 }],
    ['bay/badUncertainty', { uTilt: Number.NaN }],
  ] as const)('%s', (code, over) => {
    const floor = surveyedFloor(survey(SLOPE, over));
    expect(!floor.ok && floor.error.code).toBe(code);
  });

  test('a bad height is named by its place', () => {
    const heightsMm = [0, 1, 2, 3].map((j) => [0, 0, j === 2 ? Number.NaN : 0, 0, 0]);
    expect(surveyedFloor(survey(SLOPE, { heightsMm }))).toEqual({
      ok: false,
      error: { code: 'bay/badHeight', xMm: 2000, yMm: 2000 },
    });
  });
});

describe('the floor between the readings', () => {
  test('bilinear: exact on a plane, on its corners, and on x y; half way it is the mean of the corners', () => {
    const s = survey((x, y) => SLOPE(x, y) + 1e-6 * x * y);
    for (const [x, y] of [
      [0, 0],
      [4000, 3000],
      [1234, 2345],
      [3999, 1],
    ] as const) {
      expect(heightsOf(s, [x, y]).heightsMm[0]).toBeCloseTo(SLOPE(x, y) + 1e-6 * x * y, 9);
    }
    const bumpy = survey((x, y) => (x === 1000 && y === 1000 ? 8 : 0));
    expect(heightsOf(bumpy, [1500, 1500]).heightsMm[0]).toBeCloseTo(2, 12);
  });

  test('u: one corner alone 0.4; in the middle of a flat cell 0.2; and difference of places in one cell is smaller still', () => {
    const s = survey(SLOPE);
    const { covariance, uOverFirstMm } = heightsOf(s, [1000, 1000], [1500, 1500], [1510, 1500]);
    expect(Math.sqrt(entry(covariance, 0, 0))).toBeCloseTo(0.4, 9);
    expect(Math.sqrt(entry(covariance, 1, 1))).toBeCloseTo(0.2, 9);
    // Corner against middle: (3/4, -1/4, -1/4, -1/4) of 0.4.
    expect(uOverFirstMm[1]).toBeCloseTo(0.4 * Math.sqrt(9 / 16 + 3 / 16), 9);
    const near = heightsOf(s, [1500, 1500], [1510, 1500]).uOverFirstMm[1] ?? 1;
    expect(near).toBeCloseTo(0.4 * 0.01, 9);
  });

  test('the level plane is tilted by 0.1 mm/m: places 5 m apart are off by 0.5 mm against each other', () => {
    const s = survey(SLOPE, { uTilt: 1e-4 });
    const { uOverFirstMm } = heightsOf(s, [0, 0], [4000, 3000]);
    expect(uOverFirstMm[0]).toBe(0);
    expect(uOverFirstMm[1]).toBeCloseTo(Math.hypot(0.4 * Math.SQRT2, 0.5), 9);
  });

  test('a curved floor: the bend seen bounds what lies between readings', () => {
    // z = 2e-6 x^2: over steps of 1 m the second difference is 4 mm, and half way the floor is 0.5 mm below the chord.
    const curved = (x: number): number => 2e-6 * x * x;
    const s = survey(curved, { uHeightMm: 0 });
    expect(largestBends(s)).toEqual({ xMm: expect.closeTo(4, 9), yMm: expect.closeTo(0, 9) });
    const middle = heightsOf(s, [1500, 1000]);
    const error = (middle.heightsMm[0] ?? 0) - curved(1500);
    expect(error).toBeCloseTo(0.5, 9);
    expect(Math.sqrt(entry(middle.covariance, 0, 0))).toBeCloseTo(0.5 / Math.sqrt(3), 9);
    expect(entry(heightsOf(s, [1000, 1000]).covariance, 0, 0)).toBe(0);
    // A quarter of the way: 4 * 1/4 * 3/4 of it, the true curve's own error there.
    const quarter = heightsOf(s, [1250, 1000]);
    expect((quarter.heightsMm[0] ?? 0) - curved(1250)).toBeCloseTo(0.375, 9);
    expect(Math.sqrt(entry(quarter.covariance, 0, 0))).toBeCloseTo(0.375 / Math.sqrt(3), 9);
  });

  test('over its own plane: a bump of 8 mm on one of twenty places', () => {
    const floor = surveyed(survey((x, y) => (x === 2000 && y === 1000 ? 8 : 0), { uTilt: 1e-3 }));
    const here = residualAt(floor, { name: 'bump', xMm: 2000, yMm: 1000 });
    // On the plane's middle column; y 500 mm below the middle: 8 (1 - 1/20 - 0.25 / 25) of it stays.
    expect(here.ok && here.value.value).toBeCloseTo(8 * (1 - 1 / 20 - 0.25 / 25), 9);
    expect(here.ok && here.value.u).toBeLessThan(0.5);
    expect(residualAt(floor, { name: 'yard', xMm: -1, yMm: 0 }).ok).toBe(false);
  });
});
