/**
 * The first pull of trials that begin at the solution of the real readings. There all pulls together are zero, so what a trial
 * feels is only how its readings differ from the real ones: the rows of partials transposed, times weight, times that
 * difference. Where other unknowns have moved from the solution already, the rows have moved by their partials times that. No
 * geometry has to be made anew for it, since all lanes begin at one layout.
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
  /** What unknowns outside do: for each place those that reach it, their offset, where they stood, and the normal element. */
  private readonly outsideBegin: Int32Array;
  private readonly outsideOffset: Int32Array;
  private readonly outsideStood: Float64Array;
  private readonly outsideFactor: Float64Array;

  /** `solvedFor` is what the rows of the solution say, by row; the pull is written in the order of `unknowns`. */
  constructor(
    { rowStart, column, coefficient, weight, x }: Linearised,
    rows: readonly number[],
    unknowns: readonly number[],
    solvedFor: Float64Array,
    slotOfColumn: Int32Array,
  ) {
    const placeOf = new Map(unknowns.map((unknown, c) => [unknown, c] as const));
    const lists: { readonly row: number; readonly factor: number }[][] = unknowns.map(() => []);
    const outside = unknowns.map(() => new Map<number, number>());
    for (const row of rows) {
      for (let e = indexAt(rowStart, row); e < indexAt(rowStart, row + 1); e++) {
        const place = placeOf.get(indexAt(column, e)) ?? -1;
        if (place < 0) continue;
        const factor = at(weight, row) * at(coefficient, e);
        lists[place]?.push({ row, factor });
        const sums = outside[place];
        for (let f = indexAt(rowStart, row); f < indexAt(rowStart, row + 1); f++) {
          const other = indexAt(column, f);
          if (!placeOf.has(other)) sums?.set(other, (sums.get(other) ?? 0) + factor * at(coefficient, f));
        }
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
    const others = outside.flatMap((sums) => [...sums]);
    this.outsideBegin = new Int32Array(unknowns.length + 1);
    outside.forEach((sums, c) => {
      this.outsideBegin[c + 1] = indexAt(this.outsideBegin, c) + sums.size;
    });
    this.outsideOffset = Int32Array.from(others, ([other]) => indexAt(slotOfColumn, other) * LANES);
    this.outsideStood = Float64Array.from(others, ([other]) => at(x, other));
    this.outsideFactor = Float64Array.from(others, ([, factor]) => factor);
  }

  /**
   * Writes the pull of `observed` (row by row, `LANES` numbers each), `LANES` numbers for each unknown; unknowns outside stand
   * where `numbers` has them.
   */
  write(observed: Float64Array, numbers: Float64Array, pull: Float64Array): void {
    for (let lane = 0; lane < LANES; lane += 4) {
      this.writeFour(observed, pull, lane);
      if (this.outsideOffset.length > 0) this.moveFour(numbers, pull, lane);
    }
  }

  private moveFour(numbers: Float64Array, pull: Float64Array, lane: number): void {
    const { outsideBegin, outsideOffset, outsideStood, outsideFactor } = this;
    let e = 0;
    for (let c = 0; c + 1 < outsideBegin.length; c++) {
      const to = c * LANES + lane;
      for (const end = indexAt(outsideBegin, c + 1); e < end; e++) {
        const from = indexAt(outsideOffset, e) + lane;
        const stood = at(outsideStood, e);
        const f = at(outsideFactor, e);
        pull[to] = at(pull, to) - f * (at(numbers, from) - stood);
        pull[to + 1] = at(pull, to + 1) - f * (at(numbers, from + 1) - stood);
        pull[to + 2] = at(pull, to + 2) - f * (at(numbers, from + 2) - stood);
        pull[to + 3] = at(pull, to + 3) - f * (at(numbers, from + 3) - stood);
      }
    }
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
