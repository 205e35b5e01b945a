/**
 * Readings on lanes: for each kind, how far the present layout is from the reading, times its weight, and the pull of that
 * on every number it depends on. The formulas are those of core/adjust/models (a test holds the two together); kinds
 * that are not here have no lanes, and their networks are simulated one by one.
 */
import { at } from '../../linalg/at.ts';
import type { Reading, ReadingOf } from '../network.ts';
import { add, LANES, type LaneState, type PlaceOffsets } from './laneState.ts';

/** What the readings of one batch say, and how much each counts. */
export interface LaneReadings {
  /** Row by row, `LANES` numbers each. */
  readonly observed: Float64Array;
  /** 1 / u^2 of each row. */
  readonly weight: Float64Array;
}

/** Adds the pulls of one reading's rows. */
export type LaneRow = (state: LaneState, readings: LaneReadings) => void;

/** Where the ids of a reading stand. Offsets; -1 for a shared unknown that is not named. */
export interface LaneIds {
  place(id: string): PlaceOffsets;
  /** Number of a body, and the offset of its pose. */
  body(id: string): { readonly number: number; readonly pose: number };
  shared(id: string | undefined): number;
}

/** The lanes of a reading whose first row is `row`; undefined for a kind that has none. */
export function laneRow(reading: Reading, row: number, ids: LaneIds): LaneRow | undefined {
  switch (reading.kind) {
    case 'distance':
      return distanceRow(reading, row, ids);
    case 'height':
      return heightRow(reading, row, ids);
    case 'offset':
    case 'along':
      return lineRow(reading, row, ids);
    case 'drop':
      return dropRow(reading, row, ids);
    case 'tilt':
      return tiltRow(reading, row, ids);
    case 'constraint':
      return sumRow(reading, row, ids);
    default:
      return undefined;
  }
}

function distanceRow(reading: ReadingOf<'distance'>, row: number, ids: LaneIds): LaneRow {
  const [from, to] = [ids.place(reading.from), ids.place(reading.to)];
  const [scale, zero] = [ids.shared(reading.scale), ids.shared(reading.zero)];
  const upright = reading.mode === 'level' ? 0 : 1;
  return ({ numbers, pull }, { observed, weight }) => {
    const w = at(weight, row);
    for (let i = 0; i < LANES; i++) {
      const dx = at(numbers, to.x + i) - at(numbers, from.x + i);
      const dy = at(numbers, to.y + i) - at(numbers, from.y + i);
      const dz = upright * (at(numbers, to.z + i) - at(numbers, from.z + i));
      const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
      const factor = scale < 0 ? 1 : 1 + at(numbers, scale + i);
      const computed = factor * length + (zero < 0 ? 0 : at(numbers, zero + i));
      const v = w * (at(observed, row * LANES + i) - computed);
      const k = (v * factor) / length;
      add(pull, to.x + i, k * dx);
      add(pull, to.y + i, k * dy);
      add(pull, to.z + i, k * dz);
      add(pull, from.x + i, -k * dx);
      add(pull, from.y + i, -k * dy);
      add(pull, from.z + i, -k * dz);
      if (scale >= 0) add(pull, scale + i, v * length);
      if (zero >= 0) add(pull, zero + i, v);
    }
  };
}

function heightRow(reading: ReadingOf<'height'>, row: number, ids: LaneIds): LaneRow {
  const place = ids.place(reading.point);
  const base = 'point' in reading.above ? ids.place(reading.above.point).z : -1;
  const levelMm = 'levelMm' in reading.above ? reading.above.levelMm : 0;
  const zero = ids.shared(reading.zero);
  return ({ numbers, pull }, { observed, weight }) => {
    const w = at(weight, row);
    for (let i = 0; i < LANES; i++) {
      const under = base < 0 ? levelMm : at(numbers, base + i);
      const computed = at(numbers, place.z + i) - under + (zero < 0 ? 0 : at(numbers, zero + i));
      const v = w * (at(observed, row * LANES + i) - computed);
      add(pull, place.z + i, v);
      if (base >= 0) add(pull, base + i, -v);
      if (zero >= 0) add(pull, zero + i, v);
    }
  };
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
  return (state, { observed, weight }) => {
    const { numbers, pull } = state;
    const wAlong = at(weight, row);
    const wAcross = at(weight, row + 1);
    for (let i = 0; i < LANES; i++) {
      turner.read(state, i);
      const ex = turner.ex;
      const ey = turner.ey;
      const dx = at(numbers, mark.x + i) - at(numbers, point.x + i);
      const dy = at(numbers, mark.y + i) - at(numbers, point.y + i);
      const along = ex * dx + ey * dy;
      const across = ex * dy - ey * dx;
      const length = arm < 0 ? 0 : at(numbers, arm + i);
      const v = wAlong * (at(observed, row * LANES + i) - along + armAlong * length);
      const w = wAcross * (at(observed, (row + 1) * LANES + i) - across + armAcross * length);
      const px = v * ex - w * ey;
      const py = v * ey + w * ex;
      add(pull, mark.x + i, px);
      add(pull, mark.y + i, py);
      add(pull, point.x + i, -px);
      add(pull, point.y + i, -py);
      turner.turn(state, i, v * across - w * along);
      if (arm >= 0) add(pull, arm + i, -v * armAlong - w * armAcross);
    }
  };
}

/** A direction in plan: its unit vector in one lane, and the pull of a turn of it. */
interface LaneDirection {
  ex: number;
  ey: number;
  read(state: LaneState, lane: number): void;
  turn(state: LaneState, lane: number, amount: number): void;
}

function directionOf(direction: ReadingOf<'drop'>['direction'], ids: LaneIds): LaneDirection {
  return 'body' in direction
    ? bodyDirection(ids.body(direction.body), direction.axis)
    : lineDirection(ids.place(direction.from), ids.place(direction.to));
}

function lineDirection(from: PlaceOffsets, to: PlaceOffsets): LaneDirection {
  let length = 1;
  return {
    ex: 1,
    ey: 0,
    read({ numbers }, i) {
      const dx = at(numbers, to.x + i) - at(numbers, from.x + i);
      const dy = at(numbers, to.y + i) - at(numbers, from.y + i);
      length = Math.sqrt(dx * dx + dy * dy);
      this.ex = dx / length;
      this.ey = dy / length;
    },
    turn({ pull }, i, amount) {
      const k = amount / length;
      add(pull, to.x + i, -this.ey * k);
      add(pull, to.y + i, this.ex * k);
      add(pull, from.x + i, this.ey * k);
      add(pull, from.y + i, -this.ex * k);
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
  return {
    ex: 1,
    ey: 0,
    read({ rotation }, i) {
      const dx = at(rotation, r + i);
      const dy = at(rotation, r + 3 * LANES + i);
      const length = Math.sqrt(dx * dx + dy * dy);
      this.ex = dx / length;
      this.ey = dy / length;
    },
    turn({ pull, turns }, i, amount) {
      add(pull, pose + 3 * LANES + i, amount);
      if (axis === 'x') return;
      const cosPitch = at(turns, t + 2 * LANES + i);
      const sinPitch = at(turns, t + 3 * LANES + i);
      const upright = at(turns, t + 4 * LANES + i);
      const sinRoll = at(turns, t + 5 * LANES + i);
      const shear = sinPitch * sinRoll;
      const square = upright * upright + shear * shear;
      add(pull, pose + 4 * LANES + i, (-amount * upright * cosPitch * sinRoll) / square);
      add(pull, pose + 5 * LANES + i, (-amount * sinPitch) / square);
    },
  };
}

function tiltRow(reading: ReadingOf<'tilt'>, row: number, ids: LaneIds): LaneRow {
  const { number, pose } = ids.body(reading.body);
  const t = 6 * number * LANES;
  const zero = ids.shared(reading.zero);
  const isPitch = reading.axis === 'pitch';
  return ({ numbers, pull, turns }, { observed, weight }) => {
    const w = at(weight, row);
    for (let i = 0; i < LANES; i++) {
      const cosPitch = at(turns, t + 2 * LANES + i);
      const sinRoll = at(turns, t + 5 * LANES + i);
      const rise = cosPitch * sinRoll;
      const tilt = isPitch ? at(numbers, pose + 4 * LANES + i) : Math.asin(rise);
      const computed = tilt + (zero < 0 ? 0 : at(numbers, zero + i));
      const v = w * (at(observed, row * LANES + i) - computed);
      if (isPitch) add(pull, pose + 4 * LANES + i, v);
      else {
        const k = v / Math.sqrt(1 - rise * rise);
        add(pull, pose + 4 * LANES + i, -k * at(turns, t + 3 * LANES + i) * sinRoll);
        add(pull, pose + 5 * LANES + i, k * cosPitch * at(turns, t + 4 * LANES + i));
      }
      if (zero >= 0) add(pull, zero + i, v);
    }
  };
}

const POSE = ['x', 'y', 'z', 'yaw', 'pitch', 'roll'] as const;

/** A weighted sum of coordinates, pose components and shared unknowns; not of distances, and not held exactly. */
function sumRow(reading: ReadingOf<'constraint'>, row: number, ids: LaneIds): LaneRow | undefined {
  if (reading.u === 'exact') return undefined;
  const offsets: number[] = [];
  for (const { quantity } of reading.terms) {
    if (quantity.of === 'coordinate') offsets.push(ids.place(quantity.point)[quantity.axis]);
    else if (quantity.of === 'shared') offsets.push(ids.shared(quantity.shared));
    else if (quantity.of === 'pose') {
      offsets.push(ids.body(quantity.body).pose + POSE.indexOf(quantity.component) * LANES);
    } else return undefined;
  }
  const coefficients = Float64Array.from(reading.terms, ({ coefficient }) => coefficient);
  return sum(Int32Array.from(offsets), coefficients, row);
}

/** The row of something known beforehand: the number itself. */
export function knownRow(offset: number, row: number): LaneRow {
  return ({ numbers, pull }, { observed, weight }) => {
    const w = at(weight, row);
    for (let i = 0; i < LANES; i++) {
      add(pull, offset + i, w * (at(observed, row * LANES + i) - at(numbers, offset + i)));
    }
  };
}

function sum(offsets: Int32Array, coefficients: Float64Array, row: number): LaneRow {
  return ({ numbers, pull }, { observed, weight }) => {
    const w = at(weight, row);
    for (let i = 0; i < LANES; i++) {
      let computed = 0;
      for (let t = 0; t < offsets.length; t++) {
        computed += at(coefficients, t) * at(numbers, (offsets[t] ?? 0) + i);
      }
      const v = w * (at(observed, row * LANES + i) - computed);
      for (let t = 0; t < offsets.length; t++) add(pull, (offsets[t] ?? 0) + i, v * at(coefficients, t));
    }
  };
}
