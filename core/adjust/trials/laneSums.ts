/**
 * Readings that are plain sums of numbers, in one loop: heights, sums of coordinates, a pitch, whatever is known beforehand.
 * Their partials never change, so no step has to make any geometry for them.
 */
import { at, indexAt, item } from '../../linalg/at.ts';
import type { LaneReadings } from './laneRows.ts';
import { LANES, type LaneState } from './laneState.ts';

/** One row: a constant and a sum of numbers, by their offsets. */
export interface LaneSum {
  readonly row: number;
  readonly constant: number;
  readonly terms: readonly { readonly offset: number; readonly coefficient: number }[];
}

/** Sums that are evaluated together. */
export class LaneSums {
  private readonly row: Int32Array;
  private readonly constant: Float64Array;
  private readonly begin: Int32Array;
  private readonly offset: Int32Array;
  private readonly coefficient: Float64Array;

  constructor(all: readonly LaneSum[]) {
    const terms = all.flatMap((sum) => sum.terms);
    this.row = Int32Array.from(all, ({ row }) => row);
    this.constant = Float64Array.from(all, ({ constant }) => constant);
    this.offset = Int32Array.from(terms, ({ offset }) => offset);
    this.coefficient = Float64Array.from(terms, ({ coefficient }) => coefficient);
    this.begin = new Int32Array(all.length + 1);
    all.forEach((sum, s) => {
      this.begin[s + 1] = indexAt(this.begin, s) + sum.terms.length;
    });
  }

  /** Adds the pulls of all sums. */
  write(state: LaneState, readings: LaneReadings): void {
    for (let lane = 0; lane < LANES; lane += 4) this.writeFour(state, readings, lane);
  }

  private writeFour({ numbers, pull }: LaneState, { observed, weight }: LaneReadings, lane: number): void {
    const { row, constant, begin, offset, coefficient } = this;
    for (let s = 0; s < row.length; s++) {
      const r = indexAt(row, s);
      const first = indexAt(begin, s);
      const end = indexAt(begin, s + 1);
      const says = r * LANES + lane;
      let v0 = at(observed, says) - at(constant, s);
      let v1 = at(observed, says + 1) - at(constant, s);
      let v2 = at(observed, says + 2) - at(constant, s);
      let v3 = at(observed, says + 3) - at(constant, s);
      for (let t = first; t < end; t++) {
        const from = indexAt(offset, t) + lane;
        const c = at(coefficient, t);
        v0 -= c * at(numbers, from);
        v1 -= c * at(numbers, from + 1);
        v2 -= c * at(numbers, from + 2);
        v3 -= c * at(numbers, from + 3);
      }
      const w = at(weight, r);
      for (let t = first; t < end; t++) {
        const to = indexAt(offset, t) + lane;
        const c = w * at(coefficient, t);
        pull[to] = at(pull, to) + c * v0;
        pull[to + 1] = at(pull, to + 1) + c * v1;
        pull[to + 2] = at(pull, to + 2) + c * v2;
        pull[to + 3] = at(pull, to + 3) + c * v3;
      }
    }
  }
}

/** A sum from its terms; those of an unknown that is not there (offset -1) stay out. */
export function laneSum(
  row: number,
  constant: number,
  terms: readonly (readonly [offset: number, coefficient: number])[],
): LaneSum {
  const there = terms.filter(([offset]) => offset >= 0);
  return {
    row,
    constant,
    terms: there.map((term) => ({ offset: item(term, 0), coefficient: item(term, 1) })),
  };
}
