/** The line that fits points best: least sum of squared perpendicular distances, in space or (z = 0) in plan. */
import { entry, matrixFromRows } from '../linalg/matrix.ts';
import { singularValues } from '../linalg/svd.ts';
import { err, ok, type Result } from '../result.ts';
import { centroid, subtract, type Vec3 } from './vector.ts';

/** A line through `centre` along unit `direction`, which points from the first point toward the last. */
export interface LineFit {
  readonly centre: Vec3;
  readonly direction: Vec3;
  readonly residualSquares: number;
}

/** Fits a line to two or more points that do not all coincide. */
export function lineFit(
  points: readonly Vec3[],
): Result<LineFit, { readonly code: 'geometry/tooFewPoints' | 'geometry/coincident' }> {
  const [first, last] = [points[0], points[points.length - 1]];
  if (points.length < 2 || first === undefined || last === undefined) {
    return err({ code: 'geometry/tooFewPoints' });
  }
  const centre = centroid(points);
  // Rows of zeros make two points tall enough to decompose and change nothing.
  const rows = [...points.map((p) => subtract(p, centre)), [0, 0, 0]];
  const svd = singularValues(matrixFromRows(rows));
  const [long = 0, second = 0, third = 0] = svd.values;
  if (!(long > 0)) return err({ code: 'geometry/coincident' });
  const d: Vec3 = [entry(svd.v, 0, 0), entry(svd.v, 1, 0), entry(svd.v, 2, 0)];
  const way = subtract(last, first);
  const sign = d[0] * way[0] + d[1] * way[1] + d[2] * way[2] < 0 ? -1 : 1;
  return ok({
    centre,
    direction: [sign * d[0], sign * d[1], sign * d[2]],
    residualSquares: second * second + third * third,
  });
}
