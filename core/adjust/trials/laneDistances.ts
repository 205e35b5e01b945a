/**
 * All distances of a network on lanes, in one loop: their pulls and, where asked for, the second derivatives of half their
 * weighted squares. Of all readings only distances turn so much from trial to trial that a step should know of it: along a
 * short tape a height that is known to 5 mm counts otherwise in every trial.
 */
import { at, indexAt } from '../../linalg/at.ts';
import { invariant } from '../../result.ts';
import type { ReadingOf } from '../network.ts';
import type { LaneIds, LaneReadings } from './laneRows.ts';
import { add, LANES, type LaneState, type PlaceOffsets } from './laneState.ts';

/** One distance: its row, its ends, its shared unknowns (-1 for none); `upright` is 0 for a level distance, else 1. */
export interface LaneDistance {
  readonly row: number;
  readonly from: PlaceOffsets;
  readonly to: PlaceOffsets;
  readonly scale: number;
  readonly zero: number;
  readonly upright: 0 | 1;
}

/** Where the numbers of a distance reading stand. */
export function laneDistance(reading: ReadingOf<'distance'>, row: number, ids: LaneIds): LaneDistance {
  return {
    row,
    from: ids.place(reading.from),
    to: ids.place(reading.to),
    scale: ids.shared(reading.scale),
    zero: ids.shared(reading.zero),
    upright: reading.mode === 'level' ? 0 : 1,
  };
}

/** Second derivatives of one distance that are kept, `LANES` numbers each; see `write`. */
const KEPT = 15;
/** Among them: of two coordinates of one end (axis by axis), of the scale or the zero and a coordinate, and of both. */
const BY_AXES = [
  [0, 1, 2],
  [1, 3, 4],
  [2, 4, 5],
] as const;
const SCALE_BY_AXIS = 6;
const SCALE_TWICE = 9;
const ZERO_BY_AXIS = 10;
const ZERO_SCALE = 13;
const ZERO_TWICE = 14;

/** One element of a normal matrix, by the offsets of its two numbers, that a kept second derivative adds to. */
export interface TurningElement {
  readonly number: number;
  readonly other: number;
  /** Which of `LaneDistances.second`, and with what sign. */
  readonly from: number;
  readonly sign: 1 | -1;
}

/** Distances that are evaluated together. */
export class LaneDistances {
  /** Second derivatives: distance by distance, `KEPT` each, `LANES` numbers each. */
  readonly second: Float64Array;
  readonly all: readonly LaneDistance[];
  private readonly ends: Int32Array;

  constructor(all: readonly LaneDistance[]) {
    this.all = all;
    this.second = new Float64Array(all.length * KEPT * LANES);
    this.ends = Int32Array.from(
      all.flatMap(({ row, from, to, scale, zero, upright }) => [
        row,
        ...[from.x, from.y, from.z, to.x, to.y, to.z],
        scale,
        zero,
        upright,
      ]),
    );
  }

  /** Rows of the distances that turn: those between two free points. One that ends on a body stays as it is at the solution. */
  turningRows(): ReadonlySet<number> {
    return new Set(this.all.filter(turns).map(({ row }) => row));
  }

  /** Adds the pulls of all distances; with `turning`, also writes `second`. */
  write({ numbers, pull }: LaneState, { observed, weight }: LaneReadings, turning: boolean): void {
    const { ends, second } = this;
    for (let e = 0, k = 0; e < ends.length; e += 10, k += KEPT * LANES) {
      const row = indexAt(ends, e);
      const fromX = indexAt(ends, e + 1);
      const fromY = indexAt(ends, e + 2);
      const fromZ = indexAt(ends, e + 3);
      const toX = indexAt(ends, e + 4);
      const toY = indexAt(ends, e + 5);
      const toZ = indexAt(ends, e + 6);
      const scale = indexAt(ends, e + 7);
      const zero = indexAt(ends, e + 8);
      const upright = indexAt(ends, e + 9);
      const w = at(weight, row);
      for (let i = 0; i < LANES; i++) {
        const dx = at(numbers, toX + i) - at(numbers, fromX + i);
        const dy = at(numbers, toY + i) - at(numbers, fromY + i);
        const dz = upright * (at(numbers, toZ + i) - at(numbers, fromZ + i));
        const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
        const per = 1 / length;
        const factor = scale < 0 ? 1 : 1 + at(numbers, scale + i);
        const computed = factor * length + (zero < 0 ? 0 : at(numbers, zero + i));
        const v = w * (at(observed, row * LANES + i) - computed);
        const tension = v * factor * per;
        const px = tension * dx;
        const py = tension * dy;
        const pz = tension * dz;
        add(pull, toX + i, px);
        add(pull, toY + i, py);
        add(pull, toZ + i, pz);
        add(pull, fromX + i, -px);
        add(pull, fromY + i, -py);
        add(pull, fromZ + i, -pz);
        if (scale >= 0) add(pull, scale + i, v * length);
        if (zero >= 0) add(pull, zero + i, v);
        if (!turning) continue;
        // Along the distance its weight holds; square to it what is under tension gives way.
        const ex = dx * per;
        const ey = dy * per;
        const ez = dz * per;
        const stiff = w * factor * factor + tension;
        const to = k + i;
        second[to] = stiff * ex * ex - tension;
        second[to + LANES] = stiff * ex * ey;
        second[to + 2 * LANES] = stiff * ex * ez;
        second[to + 3 * LANES] = stiff * ey * ey - tension;
        second[to + 4 * LANES] = stiff * ey * ez;
        second[to + 5 * LANES] = stiff * ez * ez - upright * tension;
        if (scale >= 0) {
          const stretch = w * factor * length - v;
          second[to + 6 * LANES] = stretch * ex;
          second[to + 7 * LANES] = stretch * ey;
          second[to + 8 * LANES] = stretch * ez;
          second[to + 9 * LANES] = w * length * length;
        }
        if (zero >= 0) {
          second[to + 10 * LANES] = w * factor * ex;
          second[to + 11 * LANES] = w * factor * ey;
          second[to + 12 * LANES] = w * factor * ez;
          second[to + 13 * LANES] = w * length;
          second[to + 14 * LANES] = w;
        }
      }
    }
  }

  /** Every element of the normal matrix that the distances which turn add to, each pair of numbers once. */
  elements(): readonly TurningElement[] {
    return this.all.flatMap((one, d) => (turns(one) ? elementsOf(one, d * KEPT) : []));
  }
}

const turns = ({ from, to }: LaneDistance): boolean => !(from.ofBody || to.ofBody);

function elementsOf({ from, to, scale, zero }: LaneDistance, first: number): readonly TurningElement[] {
  const axes = ['x', 'y', 'z'] as const;
  const found: TurningElement[] = [];
  const put = (number: number, other: number, kept: number | undefined, sign: 1 | -1): void => {
    invariant(kept !== undefined, 'three axes');
    found.push({ number, other, from: first + kept, sign });
  };
  for (const [a, axis] of axes.entries()) {
    for (const [b, other] of axes.entries()) {
      const kept = BY_AXES[a]?.[b];
      if (a <= b) {
        put(to[axis], to[other], kept, 1);
        put(from[axis], from[other], kept, 1);
      }
      put(to[axis], from[other], kept, -1);
    }
    if (scale >= 0) {
      put(to[axis], scale, SCALE_BY_AXIS + a, 1);
      put(from[axis], scale, SCALE_BY_AXIS + a, -1);
    }
    if (zero >= 0) {
      put(to[axis], zero, ZERO_BY_AXIS + a, 1);
      put(from[axis], zero, ZERO_BY_AXIS + a, -1);
    }
  }
  if (scale >= 0) put(scale, scale, SCALE_TWICE, 1);
  if (zero >= 0) put(zero, zero, ZERO_TWICE, 1);
  if (scale >= 0 && zero >= 0) put(zero, scale, ZERO_SCALE, 1);
  return found;
}
