/** What is left of a floor when its plane is taken off: how far from flat it is, and where. */
import type { Vec3 } from '../geometry/vector.ts';
import { item } from '../linalg/at.ts';
import { invariant } from '../result.ts';
import { type FloorPlane, heightsAbovePlane } from './floorPlane.ts';

/** A place and how far it lies above the plane, mm. */
export interface FloorPlace {
  readonly index: number;
  readonly aboveMm: number;
}

/** The residual surface. */
export interface ResidualSurface {
  /** Height of each point above the plane, mm, in the order of the points. */
  readonly aboveMm: readonly number[];
  readonly highest: FloorPlace;
  readonly lowest: FloorPlace;
  /** Highest minus lowest, mm: what a straight level plate would rock by. */
  readonly spanMm: number;
  /** Standard deviation about the plane, with the three numbers that fix it taken off; 0 for three points, mm. */
  readonly sMm: number;
}

/** Statistics of points about a plane fitted to them. */
export function residualSurface(plane: FloorPlane, points: readonly Vec3[]): ResidualSurface {
  invariant(points.length >= 3, `a plane has at least three points, got ${points.length}`);
  const aboveMm = heightsAbovePlane(plane, points);
  const place = (index: number): FloorPlace => ({ index, aboveMm: item(aboveMm, index) });
  const highest = place(aboveMm.indexOf(Math.max(...aboveMm)));
  const lowest = place(aboveMm.indexOf(Math.min(...aboveMm)));
  const squares = aboveMm.reduce((sum, above) => sum + above * above, 0);
  const spare = points.length - 3;
  return {
    aboveMm,
    highest,
    lowest,
    spanMm: highest.aboveMm - lowest.aboveMm,
    sMm: spare === 0 ? 0 : Math.sqrt(squares / spare),
  };
}
