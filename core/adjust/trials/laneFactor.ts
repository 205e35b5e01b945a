/** One factored normal matrix that solves for several right sides at once, `LANES` of them side by side. */
import { addAt, at, indexAt } from '../../linalg/at.ts';
import { type Elimination, eliminate, placeOf, SymmetricPattern } from '../../linalg/elimination.ts';
import { SparseCholesky } from '../../linalg/sparseCholesky.ts';
import { invariant } from '../../result.ts';
import { UNDETERMINED } from '../normal.ts';
import type { Linearised } from '../solution.ts';
import { LANES } from './laneState.ts';

/** The factor of the rows given, over the unknowns given (numbered as in the list). */
export class LaneFactor {
  /** Which of the unknowns given stands at each place of a right side: the order in which they are eliminated. */
  readonly order: Int32Array;
  /** Order and pattern of the factor, and the square roots of its pivots. */
  readonly elimination: Elimination;
  readonly roots: Float64Array;
  /** Number of each unknown of the network in the list given; -1 for others. */
  readonly own: Int32Array;
  private readonly n: number;
  private readonly begin: Int32Array;
  private readonly below: Int32Array;
  private readonly lower: Float64Array;
  private readonly inverseDiagonal: Float64Array;

  constructor(linearised: Linearised, rows: readonly number[], unknowns: readonly number[]) {
    const n = unknowns.length;
    const own = new Int32Array(linearised.x.length).fill(-1);
    unknowns.forEach((unknown, i) => {
      own[unknown] = i;
    });
    const cholesky = factored(linearised, rows, own, n);
    const { order, start, below } = cholesky.elimination;
    this.elimination = cholesky.elimination;
    this.roots = cholesky.diagonal;
    this.own = own;
    this.n = n;
    this.order = order;
    this.begin = start;
    this.below = below;
    this.lower = cholesky.lower;
    this.inverseDiagonal = cholesky.diagonal.map((root) => 1 / root);
  }

  /** Solves in place; the unknowns stand in `order`, `LANES` numbers each. */
  solve(work: Float64Array): void {
    for (let lane = 0; lane < LANES; lane += 4) {
      this.forward(work, lane);
      this.backward(work, lane);
    }
  }

  // Four lanes at a time stay in the processor's registers, which halves what has to be fetched.
  private forward(work: Float64Array, lane: number): void {
    const { n, begin, below, lower, inverseDiagonal } = this;
    let a = 0;
    for (let k = 0; k < n; k++) {
      const own = k * LANES + lane;
      const d = at(inverseDiagonal, k);
      const y0 = at(work, own) * d;
      const y1 = at(work, own + 1) * d;
      const y2 = at(work, own + 2) * d;
      const y3 = at(work, own + 3) * d;
      work[own] = y0;
      work[own + 1] = y1;
      work[own + 2] = y2;
      work[own + 3] = y3;
      for (const end = indexAt(begin, k + 1); a < end; a++) {
        const to = indexAt(below, a) * LANES + lane;
        const l = at(lower, a);
        work[to] = at(work, to) - l * y0;
        work[to + 1] = at(work, to + 1) - l * y1;
        work[to + 2] = at(work, to + 2) - l * y2;
        work[to + 3] = at(work, to + 3) - l * y3;
      }
    }
  }

  private backward(work: Float64Array, lane: number): void {
    const { n, begin, below, lower, inverseDiagonal } = this;
    for (let k = n - 1; k >= 0; k--) {
      const own = k * LANES + lane;
      let y0 = at(work, own);
      let y1 = at(work, own + 1);
      let y2 = at(work, own + 2);
      let y3 = at(work, own + 3);
      for (let a = indexAt(begin, k), end = indexAt(begin, k + 1); a < end; a++) {
        const from = indexAt(below, a) * LANES + lane;
        const l = at(lower, a);
        y0 -= l * at(work, from);
        y1 -= l * at(work, from + 1);
        y2 -= l * at(work, from + 2);
        y3 -= l * at(work, from + 3);
      }
      const d = at(inverseDiagonal, k);
      work[own] = y0 * d;
      work[own + 1] = y1 * d;
      work[own + 2] = y2 * d;
      work[own + 3] = y3 * d;
    }
  }
}

/** Adds the normal matrix of some rows to `values`, by place; `own` numbers the unknowns that count, -1 for the others. */
export function addNormal(
  { rowStart, column, coefficient, weight }: Linearised,
  rows: readonly number[],
  own: Int32Array,
  elimination: Elimination,
  values: Float64Array,
): void {
  for (const r of rows) {
    const end = indexAt(rowStart, r + 1);
    for (let e = indexAt(rowStart, r); e < end; e++) {
      const one = indexAt(own, indexAt(column, e));
      if (one < 0) continue;
      for (let f = indexAt(rowStart, r); f <= e; f++) {
        const other = indexAt(own, indexAt(column, f));
        if (other < 0) continue;
        const to = placeOf(elimination, one, other);
        addAt(values, to, at(weight, r) * at(coefficient, e) * at(coefficient, f));
      }
    }
  }
}

function factored(
  linearised: Linearised,
  rows: readonly number[],
  own: Int32Array,
  n: number,
): SparseCholesky {
  const { rowStart, column } = linearised;
  const pattern = new SymmetricPattern(n);
  for (const r of rows) {
    const unknowns = column
      .slice(indexAt(rowStart, r), indexAt(rowStart, r + 1))
      .map((unknown) => indexAt(own, unknown))
      .filter((unknown) => unknown >= 0);
    pattern.couple(unknowns, 0, unknowns.length);
  }
  const cholesky = new SparseCholesky(eliminate(pattern));
  addNormal(linearised, rows, own, cholesky.elimination, cholesky.values);
  invariant(cholesky.factorise(UNDETERMINED) < 0, 'a solved network is held');
  return cholesky;
}
