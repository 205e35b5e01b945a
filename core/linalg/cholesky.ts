/**
 * Cholesky factor of a symmetric positive definite matrix, its solutions and its inverse.
 * The matrix is held packed: its lower triangle row by row, element (i, j) with j <= i at i (i + 1) / 2 + j.
 * Golub & Van Loan, Matrix Computations, section 4.2 (inner-product form).
 */
import { at } from './at.ts';
import { dot } from './dot.ts';

/** Number of stored elements of a packed symmetric matrix of order `n`. */
export function packedSize(n: number): number {
  return (n * (n + 1)) / 2;
}

/** Where element (i, j) of a packed symmetric matrix is stored, in either order. */
export function packedIndex(i: number, j: number): number {
  return i >= j ? (i * (i + 1)) / 2 + j : (j * (j + 1)) / 2 + i;
}

/**
 * Replaces packed `a` by its factor L (a = L L'). Answers -1, or the first row whose pivot falls to
 * `tolerance` times its diagonal or below: that unknown depends on those before it, and `a` is spoiled.
 */
export function choleskyInPlace(a: Float64Array, n: number, tolerance: number): number {
  for (let i = 0, row = 0; i < n; row += ++i) {
    const diagonal = at(a, row + i);
    for (let j = 0, other = 0; j < i; other += ++j) {
      a[row + j] = (at(a, row + j) - dot(a, row, a, other, j)) / at(a, other + j);
    }
    const pivot = diagonal - dot(a, row, a, row, i);
    if (!(pivot > tolerance * diagonal)) return i;
    a[row + i] = Math.sqrt(pivot);
  }
  return -1;
}

/** Solves L L' x = b in place, with the packed factor `l`; `b` starts at `start` and becomes x. */
export function choleskySolve(l: Float64Array, n: number, b: Float64Array, start = 0): void {
  for (let i = 0, row = 0; i < n; row += ++i) {
    b[start + i] = (at(b, start + i) - dot(l, row, b, start, i)) / at(l, row + i);
  }
  for (let i = n - 1; i >= 0; i--) {
    const row = (i * (i + 1)) / 2;
    const x = at(b, start + i) / at(l, row + i);
    b[start + i] = x;
    for (let k = 0; k < i; k++) b[start + k] = at(b, start + k) - at(l, row + k) * x;
  }
}

/**
 * The whole inverse of L L' as a full symmetric matrix, row by row. `work` needs n n elements and is overwritten:
 * its row i holds column i of the inverse factor, so that every inner loop runs along memory.
 */
export function choleskyInverse(l: Float64Array, n: number, inverse: Float64Array, work: Float64Array): void {
  for (let i = 0; i < n; i++) {
    const at0 = i * n;
    work[at0 + i] = 1 / at(l, packedIndex(i, i));
    for (let k = i + 1, row = (k * (k + 1)) / 2; k < n; row += ++k) {
      work[at0 + k] = -dot(l, row + i, work, at0 + i, k - i) / at(l, row + k);
    }
  }
  for (let i = 0; i < n; i++) {
    for (let j = i; j < n; j++) {
      const value = dot(work, i * n + j, work, j * n + j, n - j);
      inverse[i * n + j] = value;
      inverse[j * n + i] = value;
    }
  }
}
