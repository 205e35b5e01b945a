/** The covariance of the unknowns as it is asked for: a large network is judged from the elements its rows touch. */
import { at, indexAt } from '../linalg/at.ts';
import { packedIndex } from '../linalg/cholesky.ts';
import { dot } from '../linalg/dot.ts';

/** Covariance of the unknowns; mixed units mm, rad, ratio. */
export interface Covariance {
  /** Of two unknowns that meet in a row, or of one with itself. For others it may be anything. */
  near(i: number, j: number): number;
  /** All of it, row by row; computed when first asked for. */
  full(): Float64Array;
}

/** A covariance that is there as a whole. */
export function wholeCovariance(full: Float64Array, n: number): Covariance {
  return { near: (i, j) => at(full, i * n + j), full: () => full };
}

/** What hard constraints take off: row i of W (`count` numbers each) times row j. */
export interface ConstraintPart {
  readonly w: Float64Array;
  readonly count: number;
}

/**
 * A covariance of which the elements near the rows are there, packed in elimination order (see sparseCholesky.ts), before
 * hard constraints; `full` makes the rest.
 */
export function nearCovariance(
  packed: Float64Array,
  position: Int32Array,
  { w, count }: ConstraintPart,
  full: () => Float64Array,
): Covariance {
  let whole: Float64Array | undefined;
  return {
    near(i, j) {
      const [p, q] = [indexAt(position, i), indexAt(position, j)];
      const free = at(packed, p > q ? packedIndex(p, q) : packedIndex(q, p));
      return count === 0 ? free : free - dot(w, i * count, w, j * count, count);
    },
    full() {
      whole ??= full();
      return whole;
    },
  };
}
