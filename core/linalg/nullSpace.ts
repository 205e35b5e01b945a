/**
 * The null space of a symmetric positive semidefinite matrix by Cholesky with complete pivoting: far quicker than its
 * eigenvectors. Golub & Van Loan, section 4.2.8; Higham, Accuracy and Stability of Numerical Algorithms, section 10.3.
 */
import { addAt, at, item } from './at.ts';
import { dot } from './dot.ts';

/**
 * Orthonormal vectors x with A x = 0, one run of n numbers each. `a` is full, row by row, scaled to a diagonal of ones;
 * once no pivot is left above `tolerance` the rest is nought. Empty for a definite matrix.
 */
export function nullSpace(a: Float64Array, n: number, tolerance: number): Float64Array[] {
  const { factor, order, rank } = pivotedFactor(a, n, tolerance);
  const found: Float64Array[] = [];
  for (let free = rank; free < n; free++) {
    // L11' y = -(column of L21'): with the free unknown at one, the others follow.
    const y = new Float64Array(rank);
    for (let i = rank - 1; i >= 0; i--) {
      let sum = -at(factor, free * n + i);
      for (let k = i + 1; k < rank; k++) sum -= at(factor, k * n + i) * at(y, k);
      y[i] = sum / at(factor, i * n + i);
    }
    const x = new Float64Array(n);
    x[item(order, free)] = 1;
    for (let i = 0; i < rank; i++) x[item(order, i)] = at(y, i);
    found.push(x);
  }
  return orthonormal(found, n);
}

interface Pivoted {
  /** Lower triangle in pivot order; columns from `rank` on are not used. */
  readonly factor: Float64Array;
  readonly order: readonly number[];
  readonly rank: number;
}

/** Brings the largest diagonal element left to the front, as long as one is above the tolerance. */
function pivotedFactor(a: Float64Array, n: number, tolerance: number): Pivoted {
  const order = Array.from({ length: n }, (_, i) => i);
  const left = Float64Array.from(order, (i) => at(a, i * n + i));
  const factor = new Float64Array(n * n);
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (at(left, i) > at(left, best)) best = i;
    if (!(at(left, best) > tolerance)) return { factor, order, rank: k };
    exchange(factor, left, order, n, k, best);
    const root = Math.sqrt(at(left, k));
    factor[k * n + k] = root;
    for (let i = k + 1; i < n; i++) {
      const product = at(a, item(order, i) * n + item(order, k)) - dot(factor, i * n, factor, k * n, k);
      const value = product / root;
      factor[i * n + k] = value;
      left[i] = at(left, i) - value * value;
    }
  }
  return { factor, order, rank: n };
}

function exchange(
  factor: Float64Array,
  left: Float64Array,
  order: number[],
  n: number,
  i: number,
  j: number,
): void {
  if (i === j) return;
  const row = factor.slice(i * n, i * n + n);
  factor.copyWithin(i * n, j * n, j * n + n);
  factor.set(row, j * n);
  const [left0, order0] = [at(left, i), item(order, i)];
  left[i] = at(left, j);
  left[j] = left0;
  order[i] = item(order, j);
  order[j] = order0;
}

/** Gram-Schmidt, each vector cleared twice: once is not enough where vectors are nearly alike. */
function orthonormal(vectors: readonly Float64Array[], n: number): Float64Array[] {
  const done: Float64Array[] = [];
  for (const vector of vectors) {
    const x = vector.slice();
    for (let round = 0; round < 2; round++) {
      for (const other of done) {
        const share = dot(x, 0, other, 0, n);
        for (let i = 0; i < n; i++) addAt(x, i, -share * at(other, i));
      }
    }
    const size = Math.sqrt(dot(x, 0, x, 0, n));
    done.push(x.map((value) => value / size));
  }
  return done;
}
