/** The covariance of the unknowns as it is asked for: a large network is judged from the elements its rows touch. */
import { addAt, at, indexAt } from '../linalg/at.ts';
import { dot } from '../linalg/dot.ts';
import { type NormalPattern, rowVariances } from './normalPattern.ts';
import type { SparseRows } from './whitening.ts';

/** Covariance Q of the unknowns; mixed units mm, rad, ratio. */
export interface Covariance {
  /** Of one unknown. */
  variance(unknown: number): number;
  /** Of the computed values, a Q a' of each row; the rows must be those the normal equations are made of. */
  ofRows(rows: SparseRows): Float64Array;
  /** All of it, row by row; computed when first asked for. */
  full(): Float64Array;
}

/** A covariance that is there as a whole. */
export function wholeCovariance(full: Float64Array, n: number): Covariance {
  return {
    variance: (unknown) => at(full, unknown * n + unknown),
    ofRows({ start, columns, partials }) {
      const count = start.length - 1;
      const variances = new Float64Array(count);
      for (let r = 0; r < count; r++) {
        const first = indexAt(start, r);
        const end = indexAt(start, r + 1);
        let sum = 0;
        for (let e = first; e < end; e++) {
          const line = indexAt(columns, e) * n;
          let inner = 0;
          for (let f = first; f < e; f++) inner += at(full, line + indexAt(columns, f)) * at(partials, f);
          const own = at(partials, e);
          sum += own * (2 * inner + at(full, line + indexAt(columns, e)) * own);
        }
        variances[r] = sum;
      }
      return variances;
    },
    full: () => full,
  };
}

/** What hard constraints take off: row i of W (`count` numbers each) times row j. */
export interface ConstraintPart {
  readonly w: Float64Array;
  readonly count: number;
}

/**
 * A covariance of which the elements near the rows are there (see sparseInverse.ts), before hard constraints; `full` makes
 * the rest.
 */
export function nearCovariance(
  near: Float64Array,
  pattern: NormalPattern,
  { w, count }: ConstraintPart,
  full: () => Float64Array,
): Covariance {
  const { position } = pattern.elimination;
  let whole: Float64Array | undefined;
  return {
    variance: (unknown) =>
      at(near, indexAt(position, unknown)) - dot(w, unknown * count, w, unknown * count, count),
    ofRows(rows) {
      const variances = rowVariances(rows, pattern, near);
      for (let k = 0; k < count; k++) {
        for (let r = 0; r < variances.length; r++) {
          let known = 0;
          for (let e = indexAt(rows.start, r); e < indexAt(rows.start, r + 1); e++) {
            known += at(w, indexAt(rows.columns, e) * count + k) * at(rows.partials, e);
          }
          addAt(variances, r, -known * known);
        }
      }
      return variances;
    },
    full() {
      whole ??= full();
      return whole;
    },
  };
}
