/**
 * A normal matrix of which each lane has its own, since some of its rows turn from trial to trial, factored on lanes over one
 * pattern: L D L' column by column, each column taken off those it reaches (right-looking; George & Liu, Computer Solution
 * of Large Sparse Positive Definite Systems, chapter 5). Columns that nothing turning reaches are factored once for all.
 */
import { at, indexAt } from '../../linalg/at.ts';
import { type Elimination, placeOf } from '../../linalg/elimination.ts';
import { valueCount } from '../../linalg/sparseCholesky.ts';
import type { Linearised } from '../solution.ts';
import type { LaneDistances } from './laneDistances.ts';
import { addNormal, type LaneFactor } from './laneFactor.ts';
import { LANES } from './laneState.ts';

/** An element of the matrix to which one of the turning second derivatives adds. */
export interface TurningTerm {
  /** Place in the values of the pattern (see `placeOf`). */
  readonly place: number;
  readonly from: number;
  readonly sign: 1 | -1;
}

/** A pivot below this share of what it is at the solution of the real readings: the lane is too far off to turn. */
const LEAST_PIVOT = 1e-3;

/** Factors and solves all lanes; unknowns in the order of the elimination. */
export class TurningFactor {
  private readonly n: number;
  private readonly begin: Int32Array;
  private readonly below: Int32Array;
  /** Of every place of the pattern `LANES` numbers: reciprocal pivots, then the factor below the diagonal. */
  private readonly values: Float64Array;
  /** The places of the columns that turn, what stands there without the turning rows, and what those add. */
  private readonly live: Int32Array;
  private readonly steady: Float64Array;
  private readonly termBegin: Int32Array;
  private readonly termFrom: Int32Array;
  private readonly termSign: Float64Array;
  private readonly liveColumns: Int32Array;
  /** Places from which the products of the pairs of each live column are taken off, column by column. */
  private readonly targets: Int32Array;
  private readonly leastPivot: Float64Array;

  /**
   * `steady` is the matrix without its turning rows, by place; `pivots` those of the whole matrix at the solution. `steady` is
   * spoiled.
   */
  constructor(
    elimination: Elimination,
    steady: Float64Array,
    terms: readonly TurningTerm[],
    pivots: Float64Array,
  ) {
    const { n, start, below } = elimination;
    this.n = n;
    this.begin = start;
    this.below = below;
    this.leastPivot = pivots.map((pivot) => LEAST_PIVOT * pivot);
    this.values = new Float64Array(steady.length * LANES);
    const turns = new Uint8Array(steady.length);
    for (const { place } of terms) turns[place] = 1;
    const live: number[] = [];
    const columns: number[] = [];
    const targets: number[] = [];
    for (let k = 0; k < n; k++) {
      const places = [k];
      for (let a = indexAt(start, k); a < indexAt(start, k + 1); a++) places.push(n + a);
      const pairs = pairsOf(elimination, k);
      if (places.some((place) => turns[place] === 1)) {
        live.push(...places);
        columns.push(k);
        for (const { target } of pairs) {
          turns[target] = 1;
          targets.push(target);
        }
      } else this.factorOnce(steady, places, pairs);
    }
    const lists = live.map((place) => terms.filter((term) => term.place === place));
    this.live = Int32Array.from(live);
    this.steady = Float64Array.from(live, (place) => at(steady, place));
    this.termBegin = new Int32Array(live.length + 1);
    lists.forEach((list, e) => {
      this.termBegin[e + 1] = indexAt(this.termBegin, e) + list.length;
    });
    this.termFrom = Int32Array.from(lists.flat(), ({ from }) => from * LANES);
    this.termSign = Float64Array.from(lists.flat(), ({ sign }) => sign);
    this.liveColumns = Int32Array.from(columns);
    this.targets = Int32Array.from(targets, (place) => place * LANES);
  }

  /** A column that is the same in all lanes. */
  private factorOnce(steady: Float64Array, places: readonly number[], pairs: readonly Pair[]): void {
    const [own = 0, ...rest] = places;
    const per = 1 / at(steady, own);
    for (const { one, other, target } of pairs) {
      steady[target] = at(steady, target) - at(steady, one) * per * at(steady, other);
    }
    this.values.fill(per, own * LANES, (own + 1) * LANES);
    for (const place of rest) {
      this.values.fill(at(steady, place) * per, place * LANES, (place + 1) * LANES);
    }
  }

  /** Factors all lanes with the second derivatives given; false when one of them is too far off. */
  factorise(second: Float64Array): boolean {
    let whole = true;
    for (let lane = 0; lane < LANES; lane += 4) {
      this.assemble(second, lane);
      whole = this.factorFour(lane) && whole;
    }
    return whole;
  }

  private assemble(second: Float64Array, lane: number): void {
    const { live, steady, termBegin, termFrom, termSign, values } = this;
    let t = 0;
    for (let e = 0; e < live.length; e++) {
      let v0 = at(steady, e);
      let v1 = v0;
      let v2 = v0;
      let v3 = v0;
      for (const end = indexAt(termBegin, e + 1); t < end; t++) {
        const from = indexAt(termFrom, t) + lane;
        const sign = at(termSign, t);
        v0 += sign * at(second, from);
        v1 += sign * at(second, from + 1);
        v2 += sign * at(second, from + 2);
        v3 += sign * at(second, from + 3);
      }
      const to = indexAt(live, e) * LANES + lane;
      values[to] = v0;
      values[to + 1] = v1;
      values[to + 2] = v2;
      values[to + 3] = v3;
    }
  }

  private factorFour(lane: number): boolean {
    const { n, begin, liveColumns, targets, values, leastPivot } = this;
    let t = 0;
    for (let c = 0; c < liveColumns.length; c++) {
      const k = indexAt(liveColumns, c);
      const own = k * LANES + lane;
      const d0 = at(values, own);
      const d1 = at(values, own + 1);
      const d2 = at(values, own + 2);
      const d3 = at(values, own + 3);
      const least = at(leastPivot, k);
      if (!(d0 > least && d1 > least && d2 > least && d3 > least)) return false;
      const p0 = 1 / d0;
      const p1 = 1 / d1;
      const p2 = 1 / d2;
      const p3 = 1 / d3;
      values[own] = p0;
      values[own + 1] = p1;
      values[own + 2] = p2;
      values[own + 3] = p3;
      const end = (n + indexAt(begin, k + 1)) * LANES + lane;
      for (let a = (n + indexAt(begin, k)) * LANES + lane; a < end; a += LANES) {
        const l0 = at(values, a) * p0;
        const l1 = at(values, a + 1) * p1;
        const l2 = at(values, a + 2) * p2;
        const l3 = at(values, a + 3) * p3;
        for (let b = a; b < end; b += LANES) {
          const to = indexAt(targets, t++) + lane;
          values[to] = at(values, to) - l0 * at(values, b);
          values[to + 1] = at(values, to + 1) - l1 * at(values, b + 1);
          values[to + 2] = at(values, to + 2) - l2 * at(values, b + 2);
          values[to + 3] = at(values, to + 3) - l3 * at(values, b + 3);
        }
        values[a] = l0;
        values[a + 1] = l1;
        values[a + 2] = l2;
        values[a + 3] = l3;
      }
    }
    return true;
  }

  /** Solves in place; `LANES` numbers for each unknown. */
  solve(work: Float64Array): void {
    for (let lane = 0; lane < LANES; lane += 4) {
      this.forward(work, lane);
      this.backward(work, lane);
    }
  }

  private forward(work: Float64Array, lane: number): void {
    const { n, begin, below, values } = this;
    let a = 0;
    for (let k = 0; k < n; k++) {
      const own = k * LANES + lane;
      const y0 = at(work, own);
      const y1 = at(work, own + 1);
      const y2 = at(work, own + 2);
      const y3 = at(work, own + 3);
      for (const end = indexAt(begin, k + 1); a < end; a++) {
        const to = indexAt(below, a) * LANES + lane;
        const from = (n + a) * LANES + lane;
        work[to] = at(work, to) - at(values, from) * y0;
        work[to + 1] = at(work, to + 1) - at(values, from + 1) * y1;
        work[to + 2] = at(work, to + 2) - at(values, from + 2) * y2;
        work[to + 3] = at(work, to + 3) - at(values, from + 3) * y3;
      }
    }
  }

  private backward(work: Float64Array, lane: number): void {
    const { n, begin, below, values } = this;
    for (let k = n - 1; k >= 0; k--) {
      const own = k * LANES + lane;
      let y0 = at(work, own) * at(values, own);
      let y1 = at(work, own + 1) * at(values, own + 1);
      let y2 = at(work, own + 2) * at(values, own + 2);
      let y3 = at(work, own + 3) * at(values, own + 3);
      for (let a = indexAt(begin, k), end = indexAt(begin, k + 1); a < end; a++) {
        const other = indexAt(below, a) * LANES + lane;
        const from = (n + a) * LANES + lane;
        y0 -= at(values, from) * at(work, other);
        y1 -= at(values, from + 1) * at(work, other + 1);
        y2 -= at(values, from + 2) * at(work, other + 2);
        y3 -= at(values, from + 3) * at(work, other + 3);
      }
      work[own] = y0;
      work[own + 1] = y1;
      work[own + 2] = y2;
      work[own + 3] = y3;
    }
  }
}

/** Two entries of a column, and the place from which their product is taken off. */
interface Pair {
  readonly one: number;
  readonly other: number;
  readonly target: number;
}

function pairsOf(elimination: Elimination, k: number): readonly Pair[] {
  const { n, order, start, below } = elimination;
  const pairs: Pair[] = [];
  for (let a = indexAt(start, k); a < indexAt(start, k + 1); a++) {
    for (let b = a; b < indexAt(start, k + 1); b++) {
      const [first, second] = [indexAt(order, indexAt(below, a)), indexAt(order, indexAt(below, b))];
      pairs.push({ one: n + a, other: n + b, target: placeOf(elimination, first, second) });
    }
  }
  return pairs;
}

/** The factor of a stage's rows in which its distances turn, over the pattern of its factor at the solution. */
export function turningFactor(
  linearised: Linearised,
  rows: readonly number[],
  { elimination, roots, own }: LaneFactor,
  distances: LaneDistances,
  slotOfColumn: Int32Array,
): TurningFactor | undefined {
  const turning = distances.turningRows();
  if (turning.size === 0) return undefined;
  const numbered = new Map<number, number>();
  slotOfColumn.forEach((slot, column) => {
    if (indexAt(own, column) >= 0) numbered.set(slot * LANES, indexAt(own, column));
  });
  const terms: TurningTerm[] = [];
  for (const { number, other, from, sign } of distances.elements()) {
    const [one, two] = [numbered.get(number), numbered.get(other)];
    if (one !== undefined && two !== undefined)
      terms.push({ place: placeOf(elimination, one, two), from, sign });
  }
  const steady = new Float64Array(valueCount(elimination));
  const still = rows.filter((row) => !turning.has(row));
  addNormal(linearised, still, own, elimination, steady);
  return new TurningFactor(
    elimination,
    steady,
    terms,
    roots.map((root) => root * root),
  );
}
