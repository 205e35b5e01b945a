/**
 * A plane through heights, with its uncertainty: z = zc + slopeX (x - xc) + slopeY (y - yc), by weighted least squares of
 * the heights. The plan places count as exact, which on floors below 5 % costs less than the heights' own u. The plane is
 * a linear function of the heights, so its covariance is theirs carried through, whatever the weights are
 * (JCGM 100:2008 5.2.2). Two kinds of u: each height's own, which averages, and the tilt of the level plane they were
 * read from, which does not: it goes into the slopes whole, however many points there are.
 */
import { entry, type Matrix, matrixFromRows } from '../linalg/matrix.ts';
import { err, invariant, ok, type Result } from '../result.ts';
import type { FloorError, FloorPlane } from './floorPlane.ts';

/** A height read at a place, mm, with the u of that height alone. */
export interface KnownHeight {
  readonly xMm: number;
  readonly yMm: number;
  readonly zMm: number;
  readonly uMm: number;
}

/**
 * The plane with its uncertainty. `covariance` is of (height at the centre, slopeX, slopeY) in mm^2, mm and 1, from the
 * heights' own u; `uTilt` is the u of the reference's level, the same in x and in y, to be added to either slope.
 */
export interface KnownPlane extends FloorPlane {
  readonly centreXMm: number;
  readonly centreYMm: number;
  readonly covariance: Matrix;
  readonly uTilt: number;
}

/** A number with its standard uncertainty, both in one unit. */
export interface Known {
  readonly value: number;
  readonly u: number;
}

/** Relative size of the plan spread's smaller axis below which points count as lying in one line. */
const LINE_LIMIT = 1e-8;

/**
 * The plane through at least three heights that do not lie in one line. `weights` are relative: equal ones give the
 * plane that is defined by its points (four contact patches), 1 / u^2 the best estimate of a floor (a survey).
 */
export function knownPlane(
  heights: readonly KnownHeight[],
  weights: readonly number[],
  uTilt = 0,
): Result<KnownPlane, FloorError> {
  const n = heights.length;
  if (n < 3) return err({ code: 'bay/tooFewHeights', count: n });
  invariant(weights.length === n && weights.every((w) => w > 0), 'a positive weight for each height');
  invariant(uTilt >= 0 && heights.every((h) => h.uMm >= 0), 'u is never negative');
  const total = weights.reduce((a, b) => a + b, 0);
  const mean = (value: (h: KnownHeight) => number): number =>
    heights.reduce((sum, h, i) => sum + (weights[i] ?? 0) * value(h), 0) / total;
  const xc = mean((h) => h.xMm);
  const yc = mean((h) => h.yMm);
  const xx = mean((h) => (h.xMm - xc) * (h.xMm - xc));
  const xy = mean((h) => (h.xMm - xc) * (h.yMm - yc));
  const yy = mean((h) => (h.yMm - yc) * (h.yMm - yc));
  const determinant = xx * yy - xy * xy;
  if (!(determinant > LINE_LIMIT * (xx + yy) * (xx + yy))) return err({ code: 'bay/heightsInLine' });
  // Row i: what height i does to the height at the centre and to the two slopes.
  const gains = heights.map((h, i) => {
    const w = (weights[i] ?? 0) / total;
    const [x, y] = [h.xMm - xc, h.yMm - yc];
    return [w, (w * (yy * x - xy * y)) / determinant, (w * (xx * y - xy * x)) / determinant] as const;
  });
  const carried = (k: 0 | 1 | 2): number => gains.reduce((s, g, i) => s + g[k] * (heights[i]?.zMm ?? 0), 0);
  const spread = (k: 0 | 1 | 2, l: 0 | 1 | 2): number =>
    gains.reduce((s, g, i) => s + g[k] * g[l] * (heights[i]?.uMm ?? 0) * (heights[i]?.uMm ?? 0), 0);
  const [zc, slopeX, slopeY] = [carried(0), carried(1), carried(2)];
  return ok({
    z0Mm: zc - slopeX * xc - slopeY * yc,
    slopeX,
    slopeY,
    centreXMm: xc,
    centreYMm: yc,
    covariance: matrixFromRows(
      ([0, 1, 2] as const).map((k) => ([0, 1, 2] as const).map((l) => spread(k, l))),
    ),
    uTilt,
  });
}

/** Weights 1 / u^2 of heights; heights taken as exact (u of 0) are only weighed among themselves, all equal. */
export function bestWeights(heights: readonly KnownHeight[]): readonly number[] {
  const exact = heights.some((h) => h.uMm === 0);
  return heights.map((h) => (exact ? 1 : 1 / (h.uMm * h.uMm)));
}

/** u of c . (height at the centre, slopeX, slopeY), the heights' own u and the reference's tilt together. */
function uOf(plane: KnownPlane, [c0, cx, cy]: readonly [number, number, number]): number {
  const c = [c0, cx, cy];
  let variance = plane.uTilt * plane.uTilt * (cx * cx + cy * cy);
  for (const [i, a] of c.entries()) {
    for (const [j, b] of c.entries()) variance += a * b * entry(plane.covariance, i, j);
  }
  return Math.sqrt(Math.max(0, variance));
}

/** Height of the plane at a place, mm. Away from the surveyed ground it is an extrapolation, and its u says so. */
export function knownPlaneHeight(plane: KnownPlane, xMm: number, yMm: number): Known {
  const [dx, dy] = [xMm - plane.centreXMm, yMm - plane.centreYMm];
  return {
    value: plane.z0Mm + plane.slopeX * xMm + plane.slopeY * yMm,
    u: uOf(plane, [1, dx, dy]),
  };
}

/**
 * Slope of the plane in a plan direction (heading from the x axis toward y, rad): positive where it rises that way, as a
 * pure number. Along a car it is its heading; across it, to the car's left, its heading plus a quarter turn.
 */
export function slopeToward(plane: KnownPlane, headingRad: number): Known {
  const [c, s] = [Math.cos(headingRad), Math.sin(headingRad)];
  return { value: c * plane.slopeX + s * plane.slopeY, u: uOf(plane, [0, c, s]) };
}

/** The two slopes a car feels: along it and to its left. */
export function slopesOf(
  plane: KnownPlane,
  headingRad: number,
): { readonly along: Known; readonly across: Known } {
  return {
    along: slopeToward(plane, headingRad),
    across: slopeToward(plane, headingRad + Math.PI / 2),
  };
}
