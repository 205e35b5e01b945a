/**
 * What the bend of distances adds to the first step of a trial. That step takes all rows as straight; across a short tape a
 * height known to 5 mm bends its reading by a good part of its u. How far such soft coordinates will move is known well
 * enough beforehand, from the few readings that hold them: the reading is corrected by half the second derivative times
 * that squared, and the turn of the distance's tension moves them once more. A better first step only; where a trial
 * arrives does not depend on it.
 */
import { addAt, at, indexAt } from '../../linalg/at.ts';
import type { Linearised } from '../solution.ts';
import type { LaneDistance } from './laneDistances.ts';
import type { LaneFactor } from './laneFactor.ts';
import { LANES } from './laneState.ts';

/** A coordinate is soft when its u bends a distance by more than this, in units of the distance's u. */
const SOFT_BEND = 0.005;
/** Readings that together make less than this part of a soft coordinate's variance are left out. */
const LEFT_OUT = 1e-3;

/** What the stage knows at the solution. */
export interface Solved {
  readonly linearised: Linearised;
  readonly rows: readonly number[];
  readonly factor: LaneFactor;
  readonly slotOfColumn: Int32Array;
  /** What the rows say, by row. */
  readonly solvedFor: Float64Array;
}

/** Numbers with what they multiply: rows of the readings, or offsets in a step. */
interface Combination {
  readonly places: Int32Array;
  readonly factors: Float64Array;
}

/** A soft coordinate: its variance, its offset in a step of the stage, and how it follows the readings. */
interface Soft {
  readonly variance: number;
  readonly place: number;
  readonly shares: Combination;
}

/** A soft end of a distance: which way it counts, which of the soft coordinates it is. */
interface SoftEnd {
  readonly axis: number;
  readonly sign: number;
  readonly soft: number;
  /** What a unit of tension pulls at it once it has moved, in each lane; written by `correct`. */
  readonly turned: Float64Array;
}

/** A distance that bends: 1 / length, its weight, its direction at the solution, its partials by offset in a step. */
interface Bend {
  readonly row: number;
  readonly weight: number;
  readonly per: number;
  readonly direction: Float64Array;
  readonly partials: Combination;
  readonly ends: readonly SoftEnd[];
}

/** Betters the first step of a stage. */
export class FirstCurve {
  private readonly solvedFor: Float64Array;
  private readonly softs: Soft[] = [];
  private readonly bends: readonly Bend[];
  private readonly moved: Float64Array;
  /** One number a lane, or three. */
  private readonly left = new Float64Array(LANES);
  private readonly by = new Float64Array(3 * LANES);

  constructor(solved: Solved, distances: readonly LaneDistance[]) {
    this.solvedFor = solved.solvedFor;
    const columns = new Map<number, number>();
    solved.slotOfColumn.forEach((slot, column) => {
      if (indexAt(solved.factor.own, column) >= 0) columns.set(slot * LANES, column);
    });
    const known = new Map<number, { readonly soft: Soft; number: number }>();
    this.bends = distances.flatMap((one) => this.bendOf(solved, one, columns, known));
    this.moved = new Float64Array(this.softs.length * LANES);
  }

  private bendOf(
    solved: Solved,
    { row, from, to, upright }: LaneDistance,
    columns: ReadonlyMap<number, number>,
    known: Map<number, { readonly soft: Soft; number: number }>,
  ): readonly Bend[] {
    const partials = partialsOf(solved, row);
    const weight = at(solved.linearised.weight, row);
    const per = 1 / Math.abs(at(solved.solvedFor, row));
    const direction = new Float64Array(3);
    const ends: SoftEnd[] = [];
    for (const [axis, name] of (['x', 'y', 'z'] as const).slice(0, 2 + upright).entries()) {
      for (const [sign, place] of [[1, to] as const, [-1, from] as const]) {
        const column = columns.get(place[name]);
        if (column === undefined) continue;
        const found = known.get(column) ?? { soft: softOf(solved, column), number: -1 };
        known.set(column, found);
        const here = partials.places.indexOf(found.soft.place);
        direction[axis] = sign * (partials.factors[here] ?? 0);
        if (!(0.5 * found.soft.variance * per * Math.sqrt(weight) > SOFT_BEND)) continue;
        if (found.number < 0) found.number = this.softs.push(found.soft) - 1;
        ends.push({ axis, sign, soft: found.number, turned: new Float64Array(LANES) });
      }
    }
    return ends.length === 0 ? [] : [{ row, weight, per, direction, partials, ends }];
  }

  /** Takes the bend of each distance off what it reads, in `readings`: row by row, `LANES` numbers each. */
  correct(readings: Float64Array): void {
    this.foresee(readings);
    const { moved, by } = this;
    for (const { row, weight, per, direction, ends } of this.bends) {
      by.fill(0);
      for (const { axis, sign, soft } of ends) {
        for (let i = 0; i < LANES; i++) addAt(by, axis * LANES + i, sign * at(moved, soft * LANES + i));
      }
      const [ex, ey, ez] = [at(direction, 0), at(direction, 1), at(direction, 2)];
      for (let i = 0; i < LANES; i++) {
        const x = at(by, i);
        const y = at(by, LANES + i);
        const z = at(by, 2 * LANES + i);
        const along = ex * x + ey * y + ez * z;
        addAt(readings, row * LANES + i, -0.5 * per * (x * x + y * y + z * z - along * along));
        by[i] = x - along * ex;
        by[LANES + i] = y - along * ey;
        by[2 * LANES + i] = z - along * ez;
      }
      for (const { axis, sign, turned } of ends) {
        const tensionOf = sign * weight * per;
        for (let i = 0; i < LANES; i++) turned[i] = tensionOf * at(by, axis * LANES + i);
      }
    }
  }

  /** How far the soft coordinates will move. */
  private foresee(readings: Float64Array): void {
    const { softs, moved, solvedFor } = this;
    moved.fill(0);
    for (const [s, { shares }] of softs.entries()) {
      for (let k = 0; k < shares.places.length; k++) {
        const row = indexAt(shares.places, k);
        const share = at(shares.factors, k);
        const middle = at(solvedFor, row);
        for (let i = 0; i < LANES; i++) {
          addAt(moved, s * LANES + i, share * (at(readings, row * LANES + i) - middle));
        }
      }
    }
  }

  /** Moves the soft coordinates of a first step, of corrected `readings`, by what the turn makes of the tensions it leaves. */
  settle(readings: Float64Array, step: Float64Array): void {
    const { softs, left, solvedFor } = this;
    // All tensions are those of the step as it came: the moves are gathered first.
    const { moved } = this;
    moved.fill(0);
    for (const { row, partials, ends } of this.bends) {
      const middle = at(solvedFor, row);
      for (let i = 0; i < LANES; i++) left[i] = at(readings, row * LANES + i) - middle;
      for (let k = 0; k < partials.places.length; k++) {
        const place = indexAt(partials.places, k);
        const partial = at(partials.factors, k);
        for (let i = 0; i < LANES; i++) addAt(left, i, -partial * at(step, place + i));
      }
      for (const { soft, turned } of ends) {
        for (let i = 0; i < LANES; i++) addAt(moved, soft * LANES + i, at(left, i) * at(turned, i));
      }
    }
    for (const [s, { place, variance }] of softs.entries()) {
      for (let i = 0; i < LANES; i++) addAt(step, place + i, variance * at(moved, s * LANES + i));
    }
  }
}

/** The partials of a row by the unknowns of the stage. */
function partialsOf({ linearised, factor }: Solved, row: number): Combination {
  const { rowStart, column, coefficient } = linearised;
  const places: number[] = [];
  const factors: number[] = [];
  for (let e = indexAt(rowStart, row); e < indexAt(rowStart, row + 1); e++) {
    const own = indexAt(factor.own, indexAt(column, e));
    if (own < 0) continue;
    places.push(factor.order.indexOf(own) * LANES);
    factors.push(at(coefficient, e));
  }
  return { places: Int32Array.from(places), factors: Float64Array.from(factors) };
}

/** How an unknown follows the readings of its stage: a row of N^-1 A' W, its large elements. */
function softOf(solved: Solved, column: number): Soft {
  const { linearised, rows, factor } = solved;
  const work = new Float64Array(factor.order.length * LANES);
  const place = factor.order.indexOf(indexAt(factor.own, column)) * LANES;
  work[place] = 1;
  factor.solve(work);
  const all = rows.map((row) => {
    const { places, factors } = partialsOf(solved, row);
    const sum = factors.reduce((total, partial, k) => total + partial * at(work, indexAt(places, k)), 0);
    const weight = at(linearised.weight, row);
    return { row, share: weight * sum, variance: weight * sum * sum };
  });
  all.sort((a, b) => b.variance - a.variance);
  const variance = all.reduce((sum, each) => sum + each.variance, 0);
  let rest = variance;
  const kept = all.filter((each) => {
    const counts = rest > LEFT_OUT * variance;
    rest -= each.variance;
    return counts;
  });
  const shares = {
    places: Int32Array.from(kept, ({ row }) => row),
    factors: Float64Array.from(kept, ({ share }) => share),
  };
  return { variance, place, shares };
}
