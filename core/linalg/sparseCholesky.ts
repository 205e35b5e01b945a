/**
 * Cholesky factor of a sparse symmetric positive definite matrix in a fixed order of elimination. Of a matrix and of its
 * factor only the places of the filled pattern are kept, first the diagonal in elimination order, then the entries below it
 * column by column (see elimination.ts), so that a column lies side by side in memory. Column by column, each taking off
 * what the earlier ones that reach it leave (left-looking; George & Liu, chapter 5; Davis, Direct Methods for Sparse Linear
 * Systems, chapter 4).
 */
import { at, indexAt } from './at.ts';
import { Block } from './block.ts';
import type { Elimination } from './elimination.ts';

/** How many values a matrix of a pattern has. */
export function valueCount({ n, below }: Elimination): number {
  return n + below.length;
}

/** Factors matrices of one pattern and solves with them. */
export class SparseCholesky {
  readonly elimination: Elimination;
  /** The matrix is written here before `factorise`, which leaves the factor. */
  readonly values: Float64Array;
  /** The two parts of `values`. */
  readonly diagonal: Float64Array;
  readonly lower: Float64Array;
  private readonly work: Float64Array;

  constructor(elimination: Elimination, block = new Block(8 * (valueCount(elimination) + elimination.n))) {
    const { n } = elimination;
    this.elimination = elimination;
    this.values = block.floats(valueCount(elimination));
    this.diagonal = this.values.subarray(0, n);
    this.lower = this.values.subarray(n);
    this.work = block.floats(n);
  }

  /**
   * Replaces the matrix in `values` by its factor. Answers -1, or the first unknown whose pivot falls to `tolerance`
   * times its diagonal or below: it depends on those eliminated before it, and `values` is spoiled.
   */
  factorise(tolerance: number): number {
    const { diagonal, lower, work } = this;
    const { n, start, below, rowStart, order } = this.elimination;
    for (let k = 0; k < n; k++) {
      const first = indexAt(start, k);
      const end = indexAt(start, k + 1);
      for (let a = first; a < end; a++) work[indexAt(below, a)] = at(lower, a);
      const own = at(diagonal, k);
      work[k] = own;
      for (let r = indexAt(rowStart, k), last = indexAt(rowStart, k + 1); r < last; )
        r += this.takeOff(r, last);
      const pivot = at(work, k);
      if (!(pivot > tolerance * own)) return indexAt(order, k);
      const root = Math.sqrt(pivot);
      diagonal[k] = root;
      for (let a = first; a < end; a++) lower[a] = at(work, indexAt(below, a)) / root;
    }
    return -1;
  }

  /** Solves in place for a right side in the order of the unknowns, from `offset` on. */
  solve(b: Float64Array, offset = 0): void {
    const { diagonal, lower, work } = this;
    const { n, start, below, order } = this.elimination;
    for (let k = 0; k < n; k++) work[k] = at(b, offset + indexAt(order, k));
    let a = 0;
    for (let k = 0; k < n; k++) {
      const y = at(work, k) / at(diagonal, k);
      work[k] = y;
      for (const end = indexAt(start, k + 1); a < end; a++) {
        const i = indexAt(below, a);
        work[i] = at(work, i) - at(lower, a) * y;
      }
    }
    for (let k = n - 1; k >= 0; k--) {
      let y = at(work, k);
      for (const first = indexAt(start, k); a > first; ) {
        a--;
        y -= at(lower, a) * at(work, indexAt(below, a));
      }
      y /= at(diagonal, k);
      work[k] = y;
      b[offset + indexAt(order, k)] = y;
    }
  }

  /**
   * Takes what the column at entry r of row k (up to before `last`) leaves off column k, or what up to four columns of one
   * run do, which spares most of the loads and stores. Answers how many.
   */
  private takeOff(r: number, last: number): number {
    const { lower, work } = this;
    const { start, below, rowEntry, rowColumn, runEnd } = this.elimination;
    const column = indexAt(rowColumn, r);
    const a = indexAt(rowEntry, r);
    const end = indexAt(start, column + 1);
    const f = at(lower, a);
    const alike = Math.min(indexAt(runEnd, column) - column + 1, last - r);
    if (alike >= 4) {
      const toB = indexAt(rowEntry, r + 1) - a;
      const toC = indexAt(rowEntry, r + 2) - a;
      const toD = indexAt(rowEntry, r + 3) - a;
      const g = at(lower, a + toB);
      const h = at(lower, a + toC);
      const m = at(lower, a + toD);
      for (let e = a; e < end; e++) {
        const i = indexAt(below, e);
        work[i] =
          at(work, i) -
          f * at(lower, e) -
          g * at(lower, e + toB) -
          h * at(lower, e + toC) -
          m * at(lower, e + toD);
      }
      return 4;
    }
    if (alike >= 2) {
      const toB = indexAt(rowEntry, r + 1) - a;
      const g = at(lower, a + toB);
      for (let e = a; e < end; e++) {
        const i = indexAt(below, e);
        work[i] = at(work, i) - f * at(lower, e) - g * at(lower, e + toB);
      }
      return 2;
    }
    for (let e = a; e < end; e++) {
      const i = indexAt(below, e);
      work[i] = at(work, i) - f * at(lower, e);
    }
    return 1;
  }
}
