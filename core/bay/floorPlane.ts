/**
 * The floor as a plane through measured heights: z = z0 + slopeX x + slopeY y, fitted by least squares of the
 * heights (the plan positions are taken as known, which on floors below 5 % costs less than the heights' own u).
 * Three points fix it; every further one shows how far the floor is from flat.
 */
import type { Vec3 } from '../geometry/vector.ts';
import { err, ok, type Result } from '../result.ts';

/** A floor plane in the frame of its points, mm; slopes are pure numbers (0.005 is 5 mm in a metre). */
export interface FloorPlane {
  readonly z0Mm: number;
  readonly slopeX: number;
  readonly slopeY: number;
}

/** What keeps heights from fixing a plane. */
export type FloorError =
  | { readonly code: 'bay/tooFewHeights'; readonly count: number }
  | { readonly code: 'bay/heightsInLine' };

/** Relative size of the plan spread's smaller axis below which points count as lying in one line. */
const LINE_LIMIT = 1e-8;

/** The plane of at least three points that do not lie in one line in plan. */
export function fitFloorPlane(points: readonly Vec3[]): Result<FloorPlane, FloorError> {
  const n = points.length;
  if (n < 3) return err({ code: 'bay/tooFewHeights', count: n });
  let mx = 0;
  let my = 0;
  let mz = 0;
  for (const [x, y, z] of points) {
    mx += x / n;
    my += y / n;
    mz += z / n;
  }
  let xx = 0;
  let xy = 0;
  let yy = 0;
  let xz = 0;
  let yz = 0;
  for (const [x, y, z] of points) {
    xx += (x - mx) * (x - mx);
    xy += (x - mx) * (y - my);
    yy += (y - my) * (y - my);
    xz += (x - mx) * (z - mz);
    yz += (y - my) * (z - mz);
  }
  const determinant = xx * yy - xy * xy;
  if (determinant <= LINE_LIMIT * (xx + yy) * (xx + yy)) return err({ code: 'bay/heightsInLine' });
  const slopeX = (yy * xz - xy * yz) / determinant;
  const slopeY = (xx * yz - xy * xz) / determinant;
  return ok({ z0Mm: mz - slopeX * mx - slopeY * my, slopeX, slopeY });
}

/** Height of the plane at a place, mm. */
export function planeHeightMm(plane: FloorPlane, xMm: number, yMm: number): number {
  return plane.z0Mm + plane.slopeX * xMm + plane.slopeY * yMm;
}

/** The plane's upward normal, length 1. */
export function planeNormal(plane: FloorPlane): Vec3 {
  const scale = 1 / Math.sqrt(1 + plane.slopeX * plane.slopeX + plane.slopeY * plane.slopeY);
  return [-plane.slopeX * scale, -plane.slopeY * scale, scale];
}

/** How far each point lies above the plane, mm, measured along gravity. */
export function heightsAbovePlane(plane: FloorPlane, points: readonly Vec3[]): readonly number[] {
  return points.map(([x, y, z]) => z - planeHeightMm(plane, x, y));
}
