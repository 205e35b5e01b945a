/**
 * How a layout may still move as a whole. Readings fix shape; where it lies in the bay and which way it turns is the
 * datum. The six rigid motions are tried against the readings and whatever is fixed; each combination that nothing
 * resists is a freedom. Of all solutions that differ by such a motion the one with the smallest norm of the point
 * corrections is taken (innerConstraints.ts).
 */
import { addAt, at, indexAt } from '../linalg/at.ts';
import { choleskyInPlace, packedIndex, packedSize } from '../linalg/cholesky.ts';
import { dot } from '../linalg/dot.ts';
import { symmetricEigen } from '../linalg/eigen.ts';
import type { Layout } from './layout.ts';
import type { Linearisation } from './linearise.ts';
import type { Rows } from './rows.ts';
import type { GaugeFreedom } from './solution.ts';
import type { State } from './state.ts';

/** Rotations first: a turn about a fixed point is then called a turn, not a shift. */
const MOTIONS: readonly GaugeFreedom[] = ['turn', 'tiltX', 'tiltY', 'x', 'y', 'z'];
const COUNT = 6;
const TILTS: readonly number[] = [1, 2];

/** A motion that changes the readings by less than this share (squared) of its parts is resisted by nothing. */
const UNRESISTED = 1e-14;

/** Freedoms and, for each, the combination of the six motions that it is. */
export interface Gauge {
  readonly freedoms: readonly GaugeFreedom[];
  readonly combinations: readonly Float64Array[];
  readonly centre: readonly [number, number, number];
  readonly reach: number;
}

/** No freedom: the datum is given. */
export const HELD: Gauge = { freedoms: [], combinations: [], centre: [0, 0, 0], reach: 1 };

/**
 * Finds the freedoms at the current state. A layout may tip over as a whole only where neither a reading nor a given
 * coordinate knows where up is (`feelsGravity` false); elsewhere a height that nothing holds is missing, not free.
 */
export function findGauge({ state, rows, weights: { length: count }, feelsGravity }: Linearisation): Gauge {
  const centre = state.centre();
  const reach = state.reach();
  const motions = rigidMotions(state, centre, reach);
  const products = new Float64Array(COUNT * count);
  const parts = new Float64Array(COUNT);
  const scales = rowScales(state.layout, rows, count, reach);
  for (let k = 0; k < COUNT; k++) {
    // With its parts left at nought a motion counts as none.
    if (feelsGravity && TILTS.includes(k)) continue;
    parts[k] = resist(state, rows, scales, motions, k, products.subarray(k * count, (k + 1) * count));
  }
  const gram = new Float64Array(COUNT * COUNT);
  for (let k = 0; k < COUNT; k++) {
    for (let l = 0; l <= k; l++) {
      gram[k * COUNT + l] = dot(products, k * count, products, l * count, count);
      gram[l * COUNT + k] = at(gram, k * COUNT + l);
    }
  }
  addFixed(state.layout, motions, gram, parts);
  if (feelsGravity) for (const tilt of TILTS) parts[tilt] = 0;
  return independent(state, { ...freedomsOf(gram, parts), centre, reach });
}

/**
 * One over the length of each row, angles counted by the reach. Whether anything resists a motion does not depend on how
 * well it is known: with true weights a reading of a nanometre would drown all others in rounding.
 */
function rowScales({ slots, slotOfColumn }: Layout, rows: Rows, count: number, reach: number): Float64Array {
  const { start, columns, partials } = rows;
  const scales = new Float64Array(count);
  for (let r = 0; r < count; r++) {
    let squares = 0;
    const end = indexAt(start, r + 1);
    for (let e = indexAt(start, r); e < end; e++) {
      const isLength = slots[indexAt(slotOfColumn, indexAt(columns, e))]?.unit === 'mm';
      const part = at(partials, e) / (isLength ? 1 : reach);
      squares += part * part;
    }
    scales[r] = squares > 0 ? 1 / Math.sqrt(squares) : 0;
  }
  return scales;
}

/** What motion k changes in each row, by its scale; answers the sum of squares of the parts, were they not to cancel. */
function resist(
  state: State,
  rows: Rows,
  scales: Float64Array,
  motions: Float64Array,
  k: number,
  products: Float64Array,
): number {
  const { start, columns, partials } = rows;
  const { slotOfColumn } = state.layout;
  let parts = 0;
  for (let r = 0; r < scales.length; r++) {
    const scale = at(scales, r);
    let product = 0;
    let squares = 0;
    const end = indexAt(start, r + 1);
    for (let e = indexAt(start, r); e < end; e++) {
      const slot = indexAt(slotOfColumn, indexAt(columns, e));
      const part = at(partials, e) * at(motions, slot * COUNT + k);
      product += part;
      squares += part * part;
    }
    products[r] = scale * product;
    parts += scale * scale * squares;
  }
  return parts;
}

/** Fixed slots do not move: each resists every motion that would move it. */
function addFixed(layout: Layout, motions: Float64Array, gram: Float64Array, parts: Float64Array): void {
  for (let slot = 0; slot < layout.slots.length; slot++) {
    if (indexAt(layout.columns, slot) >= 0) continue;
    for (let k = 0; k < COUNT; k++) {
      const moved = at(motions, slot * COUNT + k);
      if (moved === 0) continue;
      addAt(parts, k, moved * moved);
      for (let l = 0; l < COUNT; l++) addAt(gram, k * COUNT + l, moved * at(motions, slot * COUNT + l));
    }
  }
}

function freedomsOf(gram: Float64Array, parts: Float64Array): Pick<Gauge, 'freedoms' | 'combinations'> {
  const scale = parts.map((part) => (part > 0 ? 1 / Math.sqrt(part) : 0));
  const scaled = gram.map((value, i) => value * at(scale, Math.floor(i / COUNT)) * at(scale, i % COUNT));
  // A motion that moves nothing is none: give it a resistance of one.
  for (let k = 0; k < COUNT; k++) if (at(scale, k) === 0) scaled[k * COUNT + k] = 1;
  if (held(scaled)) return { freedoms: [], combinations: [] };
  const { values, vectors } = symmetricEigen(scaled, COUNT);
  const free: Float64Array[] = [];
  for (let i = 0; i < COUNT && at(values, i) < UNRESISTED; i++) {
    free.push(scale.map((s, k) => at(vectors, i * COUNT + k) * s));
  }
  return nameFreedoms(free);
}

/** A motion of which this share is left once the others are taken away is surely resisted; most layouts end here. */
const SURELY = 1e-9;

function held(scaled: Float64Array): boolean {
  const packed = new Float64Array(packedSize(COUNT));
  for (let k = 0; k < COUNT; k++) {
    for (let l = 0; l <= k; l++) packed[packedIndex(k, l)] = at(scaled, k * COUNT + l);
  }
  if (choleskyInPlace(packed, COUNT, SURELY) >= 0) return false;
  // The diagonal itself is small where the parts of a motion cancel: compare with one, not with it.
  for (let k = 0; k < COUNT; k++) {
    const left = at(packed, packedIndex(k, k));
    if (left * left < SURELY) return false;
  }
  return true;
}

/** Brings the free combinations to echelon form, so that each is named by the first motion it contains. */
function nameFreedoms(free: Float64Array[]): Pick<Gauge, 'freedoms' | 'combinations'> {
  const freedoms: GaugeFreedom[] = [];
  const combinations: Float64Array[] = [];
  for (let k = 0; k < COUNT && free.length > 0; k++) {
    free.sort((a, b) => Math.abs(at(b, k)) - Math.abs(at(a, k)));
    const pivot = free[0];
    const size = pivot === undefined ? 0 : Math.max(...pivot.map(Math.abs));
    if (pivot === undefined || Math.abs(at(pivot, k)) < 1e-6 * size) continue;
    free.shift();
    freedoms.push(MOTIONS[k] ?? 'x');
    combinations.push(pivot);
    for (const other of free) {
      const factor = at(other, k) / at(pivot, k);
      for (let l = 0; l < COUNT; l++) addAt(other, l, -factor * at(pivot, l));
    }
  }
  return { freedoms, combinations };
}

/** Freedoms whose motion the ones before already make are none of their own (two points turning about their line). */
const REPEATED = 1e-6;

function independent(state: State, gauge: Gauge): Gauge {
  const n = state.layout.slotOfColumn.length;
  const motions = freeMotions(state, gauge);
  const kept: number[] = [];
  gauge.freedoms.forEach((_, f) => {
    const row = motions.subarray(f * n, f * n + n);
    const before = dot(row, 0, row, 0, n);
    for (const g of kept) {
      const other = motions.subarray(g * n, g * n + n);
      const share = dot(row, 0, other, 0, n) / dot(other, 0, other, 0, n);
      for (let i = 0; i < n; i++) addAt(row, i, -share * at(other, i));
    }
    if (dot(row, 0, row, 0, n) > REPEATED * REPEATED * before) kept.push(f);
  });
  return {
    ...gauge,
    freedoms: gauge.freedoms.filter((_, f) => kept.includes(f)),
    combinations: gauge.combinations.filter((_, f) => kept.includes(f)),
  };
}

/** How each freedom moves the unknowns at the current state: one row of n numbers per freedom. */
export function freeMotions(state: State, gauge: Gauge): Float64Array {
  const { slotOfColumn } = state.layout;
  const n = slotOfColumn.length;
  const free = new Float64Array(gauge.combinations.length * n);
  if (free.length === 0) return free;
  const motions = rigidMotions(state, gauge.centre, gauge.reach);
  gauge.combinations.forEach((combination, f) => {
    for (let column = 0; column < n; column++) {
      const slot = indexAt(slotOfColumn, column) * COUNT;
      let sum = 0;
      for (let k = 0; k < COUNT; k++) sum += at(combination, k) * at(motions, slot + k);
      free[f * n + column] = sum;
    }
  });
  return free;
}

/**
 * How every slot moves under the six motions, six numbers per slot. Turns are about the centre, scaled so that the
 * farthest point moves about one, which keeps all six comparable.
 */
function rigidMotions(state: State, centre: readonly [number, number, number], reach: number): Float64Array {
  const { layout, values } = state;
  const motions = new Float64Array(layout.slots.length * COUNT);
  const movePoint = (slot: number): void => {
    const x = (at(values, slot) - centre[0]) / reach;
    const y = (at(values, slot + 1) - centre[1]) / reach;
    const z = (at(values, slot + 2) - centre[2]) / reach;
    const [forX, forY, forZ] = [slot * COUNT, slot * COUNT + COUNT, slot * COUNT + 2 * COUNT];
    motions[forX] = -y;
    motions[forY] = x;
    motions[forY + 1] = -z;
    motions[forZ + 1] = y;
    motions[forX + 2] = z;
    motions[forZ + 2] = -x;
    motions[forX + 3] = 1;
    motions[forY + 4] = 1;
    motions[forZ + 5] = 1;
  };
  for (const place of layout.places) if (place.body < 0) movePoint(place.slot);
  for (const [b, { slot }] of layout.bodies.entries()) {
    movePoint(slot);
    if (state.steep[b] === 1) {
      // Its unknowns are the turns themselves: about z, y, x.
      motions[(slot + 3) * COUNT] = 1 / reach;
      motions[(slot + 4) * COUNT + 2] = 1 / reach;
      motions[(slot + 5) * COUNT + 1] = 1 / reach;
    } else turnBody(motions, slot, 1 / reach, at(values, slot + 3), at(values, slot + 4));
  }
  return motions;
}

/**
 * Changes of yaw, pitch and roll by a small turn of the whole. A turn about a level axis has a part along the body's
 * heading, which rolls it, and a part across, which pitches it.
 */
function turnBody(motions: Float64Array, slot: number, turn: number, yaw: number, pitch: number): void {
  const forYaw = (slot + 3) * COUNT;
  motions[forYaw] = turn;
  for (const [k, along, across] of [
    [1, Math.cos(yaw), -Math.sin(yaw)],
    [2, Math.sin(yaw), Math.cos(yaw)],
  ] as const) {
    motions[forYaw + k] = turn * along * Math.tan(pitch);
    motions[forYaw + COUNT + k] = turn * across;
    motions[forYaw + 2 * COUNT + k] = (turn * along) / Math.cos(pitch);
  }
}
