/**
 * The plane that fits points best: least sum of squared perpendicular distances (total least squares), by singular
 * values of the centred points. No axis is special, so it fits a wall as well as a floor.
 */
import { entry, matrixFromRows } from '../linalg/matrix.ts';
import { singularValues } from '../linalg/svd.ts';
import { err, ok, type Result } from '../result.ts';
import { centroid, inner, subtract, type Vec3 } from './vector.ts';

/** A plane through `centre` with unit `normal`, and how well the points fit it. */
export interface PlaneFit {
  readonly centre: Vec3;
  /** Unit normal; its z is not negative. */
  readonly normal: Vec3;
  /** Sum of the squared distances of the points. */
  readonly residualSquares: number;
  /** Singular values of the centred points, falling. */
  readonly singular: readonly number[];
}

/** Fewer than three points, or all on one line: no plane. */
export interface NoPlane {
  readonly code: 'geometry/tooFewPoints' | 'geometry/collinear';
}

/** Points spread sideways by less than this share of their length are taken as a line. */
const COLLINEAR = 1e-9;

/** Fits a plane. Three points are met exactly. */
export function planeFit(points: readonly Vec3[]): Result<PlaneFit, NoPlane> {
  if (points.length < 3) return err({ code: 'geometry/tooFewPoints' });
  const centre = centroid(points);
  const svd = singularValues(matrixFromRows(points.map((p) => subtract(p, centre))));
  const [first = 0, second = 0, third = 0] = svd.values;
  if (!(second > COLLINEAR * first)) return err({ code: 'geometry/collinear' });
  const sign = entry(svd.v, 2, 2) < 0 ? -1 : 1;
  const normal: Vec3 = [sign * entry(svd.v, 0, 2), sign * entry(svd.v, 1, 2), sign * entry(svd.v, 2, 2)];
  return ok({ centre, normal, residualSquares: third * third, singular: svd.values });
}

/** Signed distance of a point from a plane, positive on the side of the normal. */
export function distanceToPlane(plane: Pick<PlaneFit, 'centre' | 'normal'>, point: Vec3): number {
  return inner(subtract(point, plane.centre), plane.normal);
}
