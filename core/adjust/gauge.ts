/**
 * How a layout may still move as a whole. Readings fix shape; where it lies in the bay and which way it turns is the
 * datum. The six rigid motions are tried against the readings and whatever is fixed; each combination that nothing
 * resists is a freedom, to be held by inner constraints (smallest norm of the point corrections).
 */
import { addAt, at } from '../linalg/at.ts';
import { symmetricEigen } from '../linalg/eigen.ts';
import type { Layout } from './layout.ts';
import type { Rows } from './rows.ts';
import type { GaugeFreedom } from './solution.ts';
import type { State } from './state.ts';

/** Rotations first: a turn about a fixed point is then called a turn, not a shift. */
const MOTIONS: readonly GaugeFreedom[] = ['turn', 'tiltX', 'tiltY', 'x', 'y', 'z'];
const COUNT = 6;

/** A motion that changes the weighted readings by less than this share (squared) of its parts is resisted by nothing. */
const UNRESISTED = 1e-14;

/** Freedoms and, for each, the combination of the six motions that it is. */
export interface Gauge {
  readonly freedoms: readonly GaugeFreedom[];
  readonly combinations: readonly Float64Array[];
  readonly centre: readonly [number, number, number];
  readonly reach: number;
}

/** Finds the freedoms at the current state; `weights` are those of the rows (0 for exact ones, which also resist). */
export function findGauge(state: State, rows: Rows, weights: Float64Array): Gauge {
  const centre = state.centre();
  const reach = state.reach();
  const motions = MOTIONS.map((_, k) => slotMotion(state, k, centre, reach));
  const parts = new Float64Array(COUNT);
  const gram = new Float64Array(COUNT * COUNT);
  const product = new Float64Array(COUNT);
  const columns = state.layout.slotOfColumn;
  for (let r = 0; r < weights.length; r++) {
    // An exact row resists like any other: its own length stands in for a weight.
    const w = at(weights, r) || 1;
    product.fill(0);
    for (let e = at(rows.start, r); e < at(rows.start, r + 1); e++) {
      const slot = at(columns, at(rows.columns, e));
      for (let k = 0; k < COUNT; k++) {
        const part = at(rows.partials, e) * at(motions[k] ?? product, slot);
        addAt(product, k, part);
        addAt(parts, k, w * part * part);
      }
    }
    for (let k = 0; k < COUNT; k++) {
      for (let l = 0; l < COUNT; l++) addAt(gram, k * COUNT + l, w * at(product, k) * at(product, l));
    }
  }
  addFixed(state.layout, motions, gram, parts);
  return { ...freedomsOf(gram, parts), centre, reach };
}

/** Fixed slots do not move: each resists every motion that would move it. */
function addFixed(
  layout: Layout,
  motions: readonly Float64Array[],
  gram: Float64Array,
  parts: Float64Array,
): void {
  for (let slot = 0; slot < layout.slots.length; slot++) {
    const of = layout.slots[slot]?.of;
    if (at(layout.columns, slot) >= 0 || of === 'shared' || of === 'bodyPoint') continue;
    for (let k = 0; k < COUNT; k++) {
      const mk = at(motions[k] ?? parts, slot);
      if (mk === 0) continue;
      addAt(parts, k, mk * mk);
      for (let l = 0; l < COUNT; l++) addAt(gram, k * COUNT + l, mk * at(motions[l] ?? parts, slot));
    }
  }
}

function freedomsOf(gram: Float64Array, parts: Float64Array): Pick<Gauge, 'freedoms' | 'combinations'> {
  const scale = Array.from(parts, (part) => (part > 0 ? 1 / Math.sqrt(part) : 0));
  const scaled = gram.map((value, i) => value * at(scale, Math.floor(i / COUNT)) * at(scale, i % COUNT));
  // A motion that moves nothing is none: give it a resistance of one.
  for (let k = 0; k < COUNT; k++) if (at(scale, k) === 0) scaled[k * COUNT + k] = 1;
  const { values, vectors } = symmetricEigen(scaled, COUNT);
  const free: Float64Array[] = [];
  for (let i = 0; i < COUNT && at(values, i) < UNRESISTED; i++) {
    free.push(Float64Array.from({ length: COUNT }, (_, k) => at(vectors, i * COUNT + k) * at(scale, k)));
  }
  return nameFreedoms(free);
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

/**
 * The inner-constraint rows at the current state, dense over the unknowns: corrections of points and body origins
 * have no part along any freedom. Angles carry no norm: they follow from the points.
 */
export function innerConstraints(state: State, gauge: Gauge): Float64Array[] {
  const { slotOfColumn, slots } = state.layout;
  return gauge.combinations.map((combination) => {
    const row = new Float64Array(slotOfColumn.length);
    combination.forEach((amount, k) => {
      if (amount === 0) return;
      const motion = slotMotion(state, k, gauge.centre, gauge.reach);
      for (let column = 0; column < row.length; column++) {
        const slot = at(slotOfColumn, column);
        if (slots[slot]?.unit === 'mm') addAt(row, column, amount * at(motion, slot));
      }
    });
    return row;
  });
}

/** How motion k moves every slot; turns are about the centre, scaled so that the farthest point moves about one. */
function slotMotion(
  state: State,
  k: number,
  centre: readonly [number, number, number],
  reach: number,
): Float64Array {
  const { layout, values } = state;
  const motion = new Float64Array(layout.slots.length);
  const movePoint = (slot: number): void => {
    const x = (at(values, slot) - centre[0]) / reach;
    const y = (at(values, slot + 1) - centre[1]) / reach;
    const z = (at(values, slot + 2) - centre[2]) / reach;
    const by = [
      [-y, x, 0],
      [0, -z, y],
      [z, 0, -x],
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ][k] ?? [0, 0, 0];
    for (let c = 0; c < 3; c++) motion[slot + c] = at(by, c);
  };
  for (const place of layout.places) if (place.body < 0) movePoint(place.slot);
  for (const body of layout.bodies) {
    movePoint(body.slot);
    if (k < 3) turnBody(motion, values, body.slot, k, 1 / reach);
  }
  return motion;
}

/** Changes of yaw, pitch and roll by a small turn of the whole about the bay's z, x or y axis. */
function turnBody(motion: Float64Array, values: Float64Array, slot: number, k: number, turn: number): void {
  if (k === 0) {
    motion[slot + 3] = turn;
    return;
  }
  const yaw = at(values, slot + 3);
  const pitch = at(values, slot + 4);
  // A turn about a level axis at angle (yaw - axis): its part along the body's heading rolls, the rest pitches.
  const along = (k === 1 ? Math.cos(yaw) : Math.sin(yaw)) * turn;
  const across = (k === 1 ? -Math.sin(yaw) : Math.cos(yaw)) * turn;
  motion[slot + 3] = along * Math.tan(pitch);
  motion[slot + 4] = across;
  motion[slot + 5] = along / Math.cos(pitch);
}
