/**
 * Eigenvalues and eigenvectors of a small symmetric matrix by Jacobi rotations: slow for large ones, exact to
 * rounding and with orthogonal vectors for the sizes met here. Golub & Van Loan, section 8.5.
 */
import { at } from './at.ts';

/** Eigenvalues in rising order; vector k is the run of n numbers at k n. */
export interface SymmetricEigen {
  readonly values: Float64Array;
  readonly vectors: Float64Array;
}

/** A sweep turns every pair once; convergence is quadratic, so this many are never needed. */
const MOST_SWEEPS = 60;

/** Off-diagonal elements of this share of the whole matrix are rounding. */
const NEGLIGIBLE = 1e-17;

/** Eigen-decomposition of the full symmetric matrix `a` (row by row, order n); `a` is left as it is. */
export function symmetricEigen(a: Float64Array, n: number): SymmetricEigen {
  const m = a.slice();
  const v = new Float64Array(n * n);
  let squares = 0;
  for (let i = 0; i < a.length; i++) squares += at(a, i) * at(a, i);
  const negligible = NEGLIGIBLE * Math.sqrt(squares);
  for (let i = 0; i < n; i++) v[i * n + i] = 1;
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    let turned = false;
    for (let p = 0; p < n; p++) {
      for (let q = p + 1; q < n; q++) turned = rotatePair(m, v, n, p, q, negligible) || turned;
    }
    if (!turned) break;
  }
  const order = Array.from({ length: n }, (_, i) => i).sort((i, j) => at(m, i * n + i) - at(m, j * n + j));
  const vectors = new Float64Array(n * n);
  order.forEach((from, to) => {
    vectors.set(v.subarray(from * n, from * n + n), to * n);
  });
  return { values: Float64Array.from(order, (i) => at(m, i * n + i)), vectors };
}

/** Turns rows and columns p, q so that m[p][q] vanishes; false when it already is negligible. */
function rotatePair(
  m: Float64Array,
  v: Float64Array,
  n: number,
  p: number,
  q: number,
  negligible: number,
): boolean {
  const off = at(m, p * n + q);
  const dp = at(m, p * n + p);
  const dq = at(m, q * n + q);
  if (Math.abs(off) <= negligible) return false;
  const theta = (dq - dp) / (2 * off);
  const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
  const c = 1 / Math.sqrt(t * t + 1);
  const s = t * c;
  for (let k = 0; k < n; k++) turn(m, k * n + p, k * n + q, c, s);
  for (let k = 0; k < n; k++) turn(m, p * n + k, q * n + k, c, s);
  for (let k = 0; k < n; k++) turn(v, p * n + k, q * n + k, c, s);
  // Nought by construction: what rounding left there would be turned away again and again.
  m[p * n + q] = 0;
  m[q * n + p] = 0;
  return true;
}

function turn(a: Float64Array, i: number, j: number, c: number, s: number): void {
  const x = at(a, i);
  const y = at(a, j);
  a[i] = c * x - s * y;
  a[j] = s * x + c * y;
}
