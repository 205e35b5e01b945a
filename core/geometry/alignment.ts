/**
 * The rotation that carries one set of directions best onto another (Wahba's problem), by Davenport's q method:
 * the eigenvector of the largest eigenvalue of a 4 by 4 matrix is the rotation's quaternion. It is always a proper
 * rotation, never a reflection.
 */
import { at, item } from '../linalg/at.ts';
import { symmetricEigen } from '../linalg/eigen.ts';
import type { Matrix } from '../linalg/matrix.ts';
import { invariant } from '../result.ts';
import { matrixFromQuaternion, rotate } from './rotation.ts';
import { cross, inner, subtract, type Vec3 } from './vector.ts';

/** `rotation` carries each `from` onto its `to`. */
export interface Alignment {
  readonly rotation: Matrix;
  /** Sum over pairs of |to - R from|^2. */
  readonly residualSquares: number;
  /** False when the pairs leave a turn open (one direction only); the smallest rotation is then given. */
  readonly unique: boolean;
}

/** Eigenvalues nearer to the largest than this share of the spread count as equal to it. */
const SAME = 1e-10;

/** Best rotation of `from` onto `to`, pair by pair. The vectors are used with their lengths as weights. */
export function alignVectors(from: readonly Vec3[], to: readonly Vec3[]): Alignment {
  invariant(from.length === to.length && from.length > 0, 'as many vectors from as to');
  const k = davenportMatrix(from, to);
  const { values, vectors } = symmetricEigen(k, 4);
  const [lowest, highest] = [at(values, 0), at(values, 3)];
  const spread = Math.max(highest - lowest, Number.MIN_VALUE);
  // The smallest rotation among equally good ones is the no-rotation quaternion projected on their span.
  const q: [number, number, number, number] = [0, 0, 0, 0];
  let equal = 0;
  for (let i = 3; i >= 0 && highest - at(values, i) <= SAME * spread; i--) {
    equal++;
    const w = at(vectors, 4 * i + 3);
    for (const [j, value] of q.entries()) q[j] = value + w * at(vectors, 4 * i + j);
  }
  // A half turn about a known axis has w = 0: the projection vanishes and the eigenvector itself is the answer.
  const usable = Math.hypot(...q) > 1e-12;
  if (!usable) for (const j of q.keys()) q[j] = at(vectors, 12 + j);
  const length = Math.hypot(...q);
  const rotation = matrixFromQuaternion([q[0] / length, q[1] / length, q[2] / length, q[3] / length]);
  const residualSquares = from.reduce((sum, v, i) => {
    const miss = subtract(to[i] ?? v, rotate(rotation, v));
    return sum + inner(miss, miss);
  }, 0);
  return { rotation, residualSquares, unique: equal === 1 };
}

function davenportMatrix(from: readonly Vec3[], to: readonly Vec3[]): Float64Array {
  const b = new Float64Array(9);
  let z: Vec3 = [0, 0, 0];
  from.forEach((v, n) => {
    const w = to[n] ?? v;
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) b[3 * i + j] = at(b, 3 * i + j) + item(w, i) * item(v, j);
    }
    const c = cross(v, w);
    z = [z[0] + c[0], z[1] + c[1], z[2] + c[2]];
  });
  const trace = at(b, 0) + at(b, 4) + at(b, 8);
  const k = new Float64Array(16);
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      k[4 * i + j] = at(b, 3 * i + j) + at(b, 3 * j + i) - (i === j ? trace : 0);
    }
    k[4 * i + 3] = item(z, i);
    k[12 + i] = item(z, i);
  }
  k[15] = trace;
  return k;
}
