/**
 * The first pull of trials that begin at the solution of the real readings. There all pulls together are zero, so what a trial
 * feels is only how its readings differ from the real ones: the rows of partials transposed, times weight, times that
 * difference. No geometry has to be made anew for it, since all lanes begin at one layout.
 */
import { at, indexAt } from '../../linalg/at.ts';
import type { Linearised } from '../solution.ts';
import { LANES } from './laneState.ts';

/** Partials of some rows, unknown by unknown, with their weight. */
export class PullAtSolution {
  private readonly begin: Int32Array;
  private readonly row: Int32Array;
  private readonly factor: Float64Array;
  private readonly solvedFor: Float64Array;

  /** `solvedFor` is what the rows of the solution say, by row; the pull is written in the order of `unknowns`. */
  constructor(
    { rowStart, column, coefficient, weight }: Linearised,
    rows: readonly number[],
    unknowns: readonly number[],
    solvedFor: Float64Array,
  ) {
    const placeOf = new Map(unknowns.map((unknown, c) => [unknown, c] as const));
    const lists: { readonly row: number; readonly factor: number }[][] = unknowns.map(() => []);
    for (const row of rows) {
      for (let e = indexAt(rowStart, row); e < indexAt(rowStart, row + 1); e++) {
        const place = placeOf.get(indexAt(column, e)) ?? -1;
        lists[place]?.push({ row, factor: at(weight, row) * at(coefficient, e) });
      }
    }
    const all = lists.flat();
    this.row = Int32Array.from(all, (entry) => entry.row);
    this.factor = Float64Array.from(all, (entry) => entry.factor);
    this.begin = new Int32Array(unknowns.length + 1);
    lists.forEach((list, c) => {
      this.begin[c + 1] = indexAt(this.begin, c) + list.length;
    });
    this.solvedFor = solvedFor;
  }

  /** Writes the pull of `observed` (row by row, `LANES` numbers each), `LANES` numbers for each unknown. */
  write(observed: Float64Array, pull: Float64Array): void {
    for (let lane = 0; lane < LANES; lane += 4) this.writeFour(observed, pull, lane);
  }

  private writeFour(observed: Float64Array, pull: Float64Array, lane: number): void {
    const { begin, row, factor, solvedFor } = this;
    let e = 0;
    for (let c = 0; c + 1 < begin.length; c++) {
      let p0 = 0;
      let p1 = 0;
      let p2 = 0;
      let p3 = 0;
      for (const end = indexAt(begin, c + 1); e < end; e++) {
        const r = indexAt(row, e);
        const f = at(factor, e);
        const middle = at(solvedFor, r);
        const from = r * LANES + lane;
        p0 += f * (at(observed, from) - middle);
        p1 += f * (at(observed, from + 1) - middle);
        p2 += f * (at(observed, from + 2) - middle);
        p3 += f * (at(observed, from + 3) - middle);
      }
      const to = c * LANES + lane;
      pull[to] = p0;
      pull[to + 1] = p1;
      pull[to + 2] = p2;
      pull[to + 3] = p3;
    }
  }
}
