/**
 * Readings on lanes: for each kind, how far the present layout is from the reading, times its weight, and the pull of that
 * on every number it depends on. The formulas are those of core/adjust/models (a test holds the two together); kinds
 * that are not here have no lanes, and their networks are simulated one by one.
 */
import { at } from '../../linalg/at.ts';
import type { Reading, ReadingOf } from '../network.ts';
import { type LaneDistance, laneDistance } from './laneDistances.ts';
import { add, LANES, type LaneState, type PlaceOffsets } from './laneState.ts';
import { type LaneSum, laneSum } from './laneSums.ts';

/** What the readings of one batch say, and how much each counts. */
export interface LaneReadings {
  /** Row by row, `LANES` numbers each. */
  readonly observed: Float64Array;
  /** 1 / u^2 of each row. */
  readonly weight: Float64Array;
}

/** Adds the pulls of one reading's rows. */
export type LaneRow = (state: LaneState, readings: LaneReadings) => void;

/** A reading as it is evaluated: among its like, or by itself. */
export type LaneReading = LaneSum | LaneDistance | LaneRow;

/** Where the ids of a reading stand. Offsets; -1 for a shared unknown that is not named. */
export interface LaneIds {
  place(id: string): PlaceOffsets;
  /** Number of a body, and the offset of its pose. */
  body(id: string): { readonly number: number; readonly pose: number };
  shared(id: string | undefined): number;
}

/** The lanes of a reading whose first row is `row`; undefined for a kind that has none. */
export function laneRow(reading: Reading, row: number, ids: LaneIds): LaneReading | undefined {
  switch (reading.kind) {
    case 'distance':
      return laneDistance(reading, row, ids);
    case 'height':
      return heightSum(reading, row, ids);
    case 'offset':
    case 'along':
      return lineRow(reading, row, ids);
    case 'drop':
      return dropRow(reading, row, ids);
    case 'tilt':
      return tiltRow(reading, row, ids);
    case 'constraint':
      return constraintSum(reading, row, ids);
    default:
      return undefined;
  }
}

function heightSum(reading: ReadingOf<'height'>, row: number, ids: LaneIds): LaneSum {
  const base = 'point' in reading.above ? ids.place(reading.above.point).z : -1;
  const levelMm = 'levelMm' in reading.above ? reading.above.levelMm : 0;
  return laneSum(row, -levelMm, [
    [ids.place(reading.point).z, 1],
    [base, -1],
    [ids.shared(reading.zero), 1],
  ]);
}

/** Offset to the left of a line, or the foot along it. */
function lineRow(reading: ReadingOf<'offset'> | ReadingOf<'along'>, row: number, ids: LaneIds): LaneRow {
  const point = ids.place(reading.point);
  const [from, to] = [ids.place(reading.line.from), ids.place(reading.line.to)];
  const zero = ids.shared(reading.zero);
  const scale = reading.kind === 'along' ? ids.shared(reading.scale) : -1;
  const isOffset = reading.kind === 'offset';
  return ({ numbers, pull }, { observed, weight }) => {
    const w = at(weight, row);
    for (let i = 0; i < LANES; i++) {
      const lx = at(numbers, to.x + i) - at(numbers, from.x + i);
      const ly = at(numbers, to.y + i) - at(numbers, from.y + i);
      const length = Math.sqrt(lx * lx + ly * ly);
      const ex = lx / length;
      const ey = ly / length;
      const dx = at(numbers, point.x + i) - at(numbers, from.x + i);
      const dy = at(numbers, point.y + i) - at(numbers, from.y + i);
      const foot = ex * dx + ey * dy;
      const left = ex * dy - ey * dx;
      const factor = scale < 0 ? 1 : 1 + at(numbers, scale + i);
      const computed = (isOffset ? left : factor * foot) + (zero < 0 ? 0 : at(numbers, zero + i));
      const v = w * (at(observed, row * LANES + i) - computed);
      const vx = v * factor * (isOffset ? -ey : ex);
      const vy = v * factor * (isOffset ? ex : ey);
      // A turn of the line changes an offset by minus the foot, and the foot by the offset.
      const turn = (v * factor * (isOffset ? -foot : left)) / length;
      add(pull, point.x + i, vx);
      add(pull, point.y + i, vy);
      add(pull, from.x + i, -vx + ey * turn);
      add(pull, from.y + i, -vy - ex * turn);
      add(pull, to.x + i, -ey * turn);
      add(pull, to.y + i, ex * turn);
      if (scale >= 0) add(pull, scale + i, v * foot);
      if (zero >= 0) add(pull, zero + i, v);
    }
  };
}

/** Two rows: mark less point along and across a direction, less the arm. */
function dropRow(reading: ReadingOf<'drop'>, row: number, ids: LaneIds): LaneRow {
  const [point, mark] = [ids.place(reading.point), ids.place(reading.mark)];
  const arm = ids.shared(reading.arm?.shared);
  const [armAlong, armAcross] = [reading.arm?.along ?? 0, reading.arm?.across ?? 0];
  const turner = directionOf(reading.direction, ids);
  const { ex, ey, turned } = turner;
  return (state, { observed, weight }) => {
    const { numbers, pull } = state;
    const wAlong = at(weight, row);
    const wAcross = at(weight, row + 1);
    turner.read(state);
    for (let i = 0; i < LANES; i++) {
      const x = at(ex, i);
      const y = at(ey, i);
      const dx = at(numbers, mark.x + i) - at(numbers, point.x + i);
      const dy = at(numbers, mark.y + i) - at(numbers, point.y + i);
      const along = x * dx + y * dy;
      const across = x * dy - y * dx;
      const length = arm < 0 ? 0 : at(numbers, arm + i);
      const v = wAlong * (at(observed, row * LANES + i) - along + armAlong * length);
      const w = wAcross * (at(observed, (row + 1) * LANES + i) - across + armAcross * length);
      const px = v * x - w * y;
      const py = v * y + w * x;
      add(pull, mark.x + i, px);
      add(pull, mark.y + i, py);
      add(pull, point.x + i, -px);
      add(pull, point.y + i, -py);
      turned[i] = v * across - w * along;
      if (arm >= 0) add(pull, arm + i, -v * armAlong - w * armAcross);
    }
    turner.turn(state);
  };
}

/** A direction in plan: its unit vectors, and the pull of a turn of it. */
interface LaneDirection {
  readonly ex: Float64Array;
  readonly ey: Float64Array;
  /** How strongly each lane pulls at a turn: written before `turn`. */
  readonly turned: Float64Array;
  readonly read: (state: LaneState) => void;
  readonly turn: (state: LaneState) => void;
}

function directionOf(direction: ReadingOf<'drop'>['direction'], ids: LaneIds): LaneDirection {
  return 'body' in direction
    ? bodyDirection(ids.body(direction.body), direction.axis)
    : lineDirection(ids.place(direction.from), ids.place(direction.to));
}

const forLanes = (): Float64Array => new Float64Array(LANES);

function lineDirection(from: PlaceOffsets, to: PlaceOffsets): LaneDirection {
  const [ex, ey, turned, length] = [forLanes(), forLanes(), forLanes(), forLanes()];
  return {
    ex,
    ey,
    turned,
    read({ numbers }) {
      for (let i = 0; i < LANES; i++) {
        const dx = at(numbers, to.x + i) - at(numbers, from.x + i);
        const dy = at(numbers, to.y + i) - at(numbers, from.y + i);
        const l = Math.sqrt(dx * dx + dy * dy);
        length[i] = l;
        ex[i] = dx / l;
        ey[i] = dy / l;
      }
    },
    turn({ pull }) {
      for (let i = 0; i < LANES; i++) {
        const k = at(turned, i) / at(length, i);
        const kx = at(ex, i) * k;
        const ky = at(ey, i) * k;
        add(pull, to.x + i, -ky);
        add(pull, to.y + i, kx);
        add(pull, from.x + i, ky);
        add(pull, from.y + i, -kx);
      }
    },
  };
}

/** The plan direction of a body's axis; of its y axis pitch and roll change it too. */
function bodyDirection(
  { number, pose }: { readonly number: number; readonly pose: number },
  axis: 'x' | 'y',
): LaneDirection {
  const r = (9 * number + (axis === 'x' ? 0 : 1)) * LANES;
  const t = 6 * number * LANES;
  const [ex, ey, turned] = [forLanes(), forLanes(), forLanes()];
  return {
    ex,
    ey,
    turned,
    read({ rotation }) {
      for (let i = 0; i < LANES; i++) {
        const dx = at(rotation, r + i);
        const dy = at(rotation, r + 3 * LANES + i);
        const length = Math.sqrt(dx * dx + dy * dy);
        ex[i] = dx / length;
        ey[i] = dy / length;
      }
    },
    turn({ pull, turns }) {
      for (let i = 0; i < LANES; i++) {
        const amount = at(turned, i);
        add(pull, pose + 3 * LANES + i, amount);
        if (axis === 'x') continue;
        const cosPitch = at(turns, t + 2 * LANES + i);
        const sinPitch = at(turns, t + 3 * LANES + i);
        const upright = at(turns, t + 4 * LANES + i);
        const sinRoll = at(turns, t + 5 * LANES + i);
        const shear = sinPitch * sinRoll;
        const square = upright * upright + shear * shear;
        add(pull, pose + 4 * LANES + i, (-amount * upright * cosPitch * sinRoll) / square);
        add(pull, pose + 5 * LANES + i, (-amount * sinPitch) / square);
      }
    },
  };
}

function tiltRow(reading: ReadingOf<'tilt'>, row: number, ids: LaneIds): LaneRow | LaneSum {
  const { number, pose } = ids.body(reading.body);
  const t = 6 * number * LANES;
  const zero = ids.shared(reading.zero);
  const pitch = pose + 4 * LANES;
  const roll = pose + 5 * LANES;
  if (reading.axis === 'pitch') {
    return laneSum(row, 0, [
      [pitch, 1],
      [zero, 1],
    ]);
  }
  return ({ numbers, pull, turns }, { observed, weight }) => {
    const w = at(weight, row);
    for (let i = 0; i < LANES; i++) {
      const cosPitch = at(turns, t + 2 * LANES + i);
      const sinRoll = at(turns, t + 5 * LANES + i);
      const rise = cosPitch * sinRoll;
      const computed = Math.asin(rise) + (zero < 0 ? 0 : at(numbers, zero + i));
      const v = w * (at(observed, row * LANES + i) - computed);
      const k = v / Math.sqrt(1 - rise * rise);
      add(pull, pitch + i, -k * at(turns, t + 3 * LANES + i) * sinRoll);
      add(pull, roll + i, k * cosPitch * at(turns, t + 4 * LANES + i));
      if (zero >= 0) add(pull, zero + i, v);
    }
  };
}

const POSE = ['x', 'y', 'z', 'yaw', 'pitch', 'roll'] as const;

/** A weighted sum of coordinates, pose components and shared unknowns; not of distances, and not held exactly. */
function constraintSum(reading: ReadingOf<'constraint'>, row: number, ids: LaneIds): LaneSum | undefined {
  if (reading.u === 'exact') return undefined;
  const terms: (readonly [number, number])[] = [];
  for (const { coefficient, quantity } of reading.terms) {
    if (quantity.of === 'coordinate') terms.push([ids.place(quantity.point)[quantity.axis], coefficient]);
    else if (quantity.of === 'shared') terms.push([ids.shared(quantity.shared), coefficient]);
    else if (quantity.of === 'pose') {
      const offset = ids.body(quantity.body).pose + POSE.indexOf(quantity.component) * LANES;
      terms.push([offset, coefficient]);
    } else return undefined;
  }
  return laneSum(row, 0, terms);
}

/** The row of something known beforehand: the number itself. */
export function knownSum(offset: number, row: number): LaneSum {
  return laneSum(row, 0, [[offset, 1]]);
}
