/**
 * The rigid motion that carries points best onto other points (least squares), in space: rotation about the
 * centroids, then the shift between them. Never a reflection. Kabsch 1976, Umeyama 1991 give the same answer.
 */
import { type Matrix, matrixFromRows } from '../linalg/matrix.ts';
import { singularValues } from '../linalg/svd.ts';
import { err, invariant, ok, type Result } from '../result.ts';
import { alignVectors } from './alignment.ts';
import { rotate } from './rotation.ts';
import { centroid, subtract, type Vec3 } from './vector.ts';

/** to = rotation from + shift. */
export interface RigidMotion {
  readonly rotation: Matrix;
  readonly shift: Vec3;
  /** Sum of the squared distances left. */
  readonly residualSquares: number;
}

/** Points all on a line leave the turn about it open. */
const COLLINEAR = 1e-9;

/** Fits a rigid motion; needs three or more points, not all on one line. */
export function rigidFit(
  from: readonly Vec3[],
  to: readonly Vec3[],
): Result<RigidMotion, { readonly code: 'geometry/tooFewPoints' | 'geometry/collinear' }> {
  invariant(from.length === to.length, 'as many points from as to');
  if (from.length < 3) return err({ code: 'geometry/tooFewPoints' });
  const [centreFrom, centreTo] = [centroid(from), centroid(to)];
  const centred = from.map((p) => subtract(p, centreFrom));
  const [long = 0, second = 0] = singularValues(matrixFromRows(centred)).values;
  if (!(second > COLLINEAR * long)) return err({ code: 'geometry/collinear' });
  const turned = alignVectors(
    centred,
    to.map((p) => subtract(p, centreTo)),
  );
  return ok({
    rotation: turned.rotation,
    shift: subtract(centreTo, rotate(turned.rotation, centreFrom)),
    residualSquares: turned.residualSquares,
  });
}

/** p carried by the motion. */
export function move(motion: Pick<RigidMotion, 'rotation' | 'shift'>, p: Vec3): Vec3 {
  const r = rotate(motion.rotation, p);
  return [r[0] + motion.shift[0], r[1] + motion.shift[1], r[2] + motion.shift[2]];
}
