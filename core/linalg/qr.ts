/**
 * Householder QR and linear least squares by it. QR works on the matrix itself and keeps twice the digits that
 * normal equations would: for ill-conditioned fits (polynomials, calibration curves), where the network solver's
 * Cholesky is not the tool. Golub & Van Loan, Matrix Computations, section 5.2-5.3.
 */
import { err, invariant, ok, type Result } from '../result.ts';
import { at } from './at.ts';
import type { Matrix } from './matrix.ts';

/** Solution of min |A x - b|, with what its statistics need. */
export interface LeastSquaresFit {
  readonly x: Float64Array;
  /** Inverse of A'A, row by row: times the variance of one observation it is the covariance of x. */
  readonly cofactor: Float64Array;
  readonly residualSquares: number;
  /** Observations minus unknowns. */
  readonly dof: number;
}

/** A column depends on those before it; `column` is the first such. */
export interface RankDeficient {
  readonly code: 'linalg/rankDeficient';
  readonly column: number;
}

/** Below this share of its own length a column counts as dependent: rounding of m additions leaves about m 1e-16. */
const DEPENDENT = 1e-14;

/**
 * Least squares fit of `a` x to `b`. Fails with the first dependent column. Columns are first scaled to unit length,
 * which changes no answer but keeps columns of very unequal size (1, x, x^2 with x = 1e6) comparable.
 */
export function leastSquares(a: Matrix, b: readonly number[]): Result<LeastSquaresFit, RankDeficient> {
  const { rows: m, columns: n } = a;
  invariant(
    b.length === m && m >= n,
    `needs at least ${n} rows and as many values, got ${m} and ${b.length}`,
  );
  // Column by column, so that every inner loop runs along memory.
  const q = Array.from({ length: n }, (_, j) =>
    Float64Array.from({ length: m }, (_, i) => at(a.data, i * n + j)),
  );
  const scale = q.map((column) => norm(column, 0));
  q.forEach((column, j) => {
    divide(column, scale[j] || 1);
  });
  const y = Float64Array.from(b);
  const diagonal = new Float64Array(n);
  for (const [j, column] of q.entries()) {
    const length = norm(column, j);
    if (!(length > DEPENDENT)) return err({ code: 'linalg/rankDeficient', column: j });
    const alpha = at(column, j) > 0 ? -length : length;
    diagonal[j] = alpha;
    column[j] = at(column, j) - alpha;
    for (const other of q.slice(j + 1)) reflect(column, other, j);
    reflect(column, y, j);
  }
  const inverse = invertUpper(q, diagonal);
  const x = new Float64Array(n);
  const cofactor = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let k = i; k < n; k++) x[i] = at(x, i) + at(inverse, i * n + k) * at(y, k);
    for (let j = 0; j < n; j++) {
      let sum = 0;
      for (let k = Math.max(i, j); k < n; k++) sum += at(inverse, i * n + k) * at(inverse, j * n + k);
      cofactor[i * n + j] = sum / ((scale[i] ?? 1) * (scale[j] ?? 1));
    }
  }
  for (let i = 0; i < n; i++) x[i] = at(x, i) / (scale[i] ?? 1);
  let residualSquares = 0;
  for (let i = n; i < m; i++) residualSquares += at(y, i) * at(y, i);
  return ok({ x, cofactor, residualSquares, dof: m - n });
}

function norm(v: Float64Array, from: number): number {
  let largest = 0;
  for (let i = from; i < v.length; i++) largest = Math.max(largest, Math.abs(at(v, i)));
  if (largest === 0) return 0;
  let sum = 0;
  for (let i = from; i < v.length; i++) sum += (at(v, i) / largest) * (at(v, i) / largest);
  return largest * Math.sqrt(sum);
}

function divide(v: Float64Array, by: number): void {
  for (let i = 0; i < v.length; i++) v[i] = at(v, i) / by;
}

/** Applies the reflection whose vector is v[from..] to w. */
function reflect(v: Float64Array, w: Float64Array, from: number): void {
  let vv = 0;
  let vw = 0;
  for (let i = from; i < v.length; i++) {
    vv += at(v, i) * at(v, i);
    vw += at(v, i) * at(w, i);
  }
  const factor = vv === 0 ? 0 : (2 * vw) / vv;
  for (let i = from; i < v.length; i++) w[i] = at(w, i) - factor * at(v, i);
}

/** Inverse of R, whose diagonal is given and whose part above it stands in the columns `q`. Row by row. */
function invertUpper(q: readonly Float64Array[], diagonal: Float64Array): Float64Array {
  const n = q.length;
  const inverse = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    inverse[j * n + j] = 1 / at(diagonal, j);
    for (let i = j - 1; i >= 0; i--) {
      let sum = 0;
      for (let k = i + 1; k <= j; k++) sum += at(q[k] ?? diagonal, i) * at(inverse, k * n + j);
      inverse[i * n + j] = -sum / at(diagonal, i);
    }
  }
  return inverse;
}
