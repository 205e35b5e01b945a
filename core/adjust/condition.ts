/**
 * 1-norms of a normal matrix and of its inverse, scaled to a diagonal of ones so that millimetres and radians weigh alike.
 * Their product is the condition (Golub & Van Loan, section 2.6).
 */
import { addAt, at, indexAt } from '../linalg/at.ts';
import type { Block } from '../linalg/block.ts';
import type { Elimination } from '../linalg/elimination.ts';
import { inverseNormBound } from '../linalg/inverseNorm.ts';
import type { SparseCholesky } from '../linalg/sparseCholesky.ts';

/** Roots of the matrix' diagonal, in the order of the unknowns. */
export function scaleOf({ n, position }: Elimination, matrix: Float64Array, block: Block): Float64Array {
  const scale = block.floats(n);
  for (let i = 0; i < n; i++) scale[i] = Math.sqrt(at(matrix, indexAt(position, i)));
  return scale;
}

/** Norm of the scaled matrix. */
export function scaledNorm(
  { n, order, start, below }: Elimination,
  matrix: Float64Array,
  scale: Float64Array,
  block: Block,
): number {
  const sums = block.floats(n).fill(1);
  for (let k = 0; k < n; k++) {
    const own = indexAt(order, k);
    for (let a = indexAt(start, k), end = indexAt(start, k + 1); a < end; a++) {
      const other = indexAt(order, indexAt(below, a));
      const size = Math.abs(at(matrix, n + a)) / (at(scale, own) * at(scale, other));
      addAt(sums, own, size);
      addAt(sums, other, size);
    }
  }
  return n === 0 ? 1 : largestOf(sums);
}

/** Norm of the scaled matrix' inverse, from the whole inverse. */
export function wholeInverseNorm(inverse: Float64Array, scale: Float64Array, block: Block): number {
  const n = scale.length;
  const sums = block.floats(n);
  for (let i = 0; i < n; i++) {
    const own = at(scale, i);
    let sum = 0;
    for (let j = 0; j < i; j++) {
      const size = Math.abs(at(inverse, i * n + j));
      sum += size * at(scale, j);
      addAt(sums, j, size * own);
    }
    addAt(sums, i, sum + Math.abs(at(inverse, i * n + i)) * own);
  }
  for (let i = 0; i < n; i++) sums[i] = at(sums, i) * at(scale, i);
  return n === 0 ? 1 : largestOf(sums);
}

/** The same from a few solutions: a lower bound, nearly always the norm itself. */
export function inverseNorm(cholesky: SparseCholesky, scale: Float64Array): number {
  const weigh = (b: Float64Array): void => {
    for (let i = 0; i < b.length; i++) b[i] = at(b, i) * at(scale, i);
  };
  return inverseNormBound(scale.length, (b) => {
    weigh(b);
    cholesky.solve(b);
    weigh(b);
  });
}

function largestOf(values: Float64Array): number {
  let most = 0;
  for (let i = 0; i < values.length; i++) most = Math.max(most, at(values, i));
  return most;
}
