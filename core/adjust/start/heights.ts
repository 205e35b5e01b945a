/**
 * First heights and tilts: what is known or read directly, then carried along the height readings from point to
 * point. What no reading reaches starts at the level of the rest.
 */
import { inner } from '../../geometry/vector.ts';
import { at } from '../../linalg/at.ts';
import type { Layout } from '../layout.ts';
import type { PoseFact, StartFacts } from './facts.ts';
import { startTilts, upOf } from './tilts.ts';

/** Fills heights of points and bodies, and pitch and roll of bodies, into `values`, where `known` is not yet set. */
export function startHeights(
  layout: Layout,
  facts: StartFacts,
  values: Float64Array,
  known: Uint8Array,
): void {
  startTilts(layout, facts, values, known);
  for (const body of layout.bodies) {
    for (const tilt of [body.slot + 4, body.slot + 5]) known[tilt] = 1;
  }
  const heightOf = (place: number): number | undefined => {
    const slot = heightSlot(layout, place);
    return known[slot] === 1 ? at(values, slot) + rise(layout, values, place) : undefined;
  };
  const set = (place: number, mm: number): boolean => {
    const slot = heightSlot(layout, place);
    if (known[slot] === 1) return false;
    values[slot] = mm - rise(layout, values, place);
    known[slot] = 1;
    return true;
  };
  for (let changed = true; changed; ) {
    changed = false;
    for (const { place, above, mm } of facts.heights) {
      const base = above === undefined ? 0 : heightOf(above);
      const top = heightOf(place);
      if (base !== undefined) changed = set(place, base + mm) || changed;
      else if (top !== undefined && above !== undefined) changed = set(above, top - mm) || changed;
    }
    for (const pose of facts.poses) changed = carryHeight(layout, pose, values, known) || changed;
  }
  const reached = layout.places.map((_, place) => heightOf(place)).filter((z) => z !== undefined);
  const level = reached.length === 0 ? 0 : reached.reduce((sum, z) => sum + z, 0) / reached.length;
  for (const place of layout.places.keys()) set(place, level);
  for (const body of layout.bodies) if (known[body.slot + 2] !== 1) values[body.slot + 2] = level;
}

/** Height of a body's origin from that of the body it was seen from, or the other way; true when one was new. */
function carryHeight(
  layout: Layout,
  { body, reference, shift }: PoseFact,
  values: Float64Array,
  known: Uint8Array,
): boolean {
  const [own, other] = [layout.bodies[body], layout.bodies[reference]];
  if (own === undefined || other === undefined) return false;
  const [from, to] = [other.slot + 2, own.slot + 2];
  if (known[from] === known[to]) return false;
  const rise = inner(upOf(values, other.slot), shift);
  if (known[from] === 1) values[to] = at(values, from) + rise;
  else values[from] = at(values, to) - rise;
  known[from] = 1;
  known[to] = 1;
  return true;
}

/** Slot of the height that decides where a place is: its own, or its body's. */
function heightSlot(layout: Layout, place: number): number {
  const where = layout.places[place];
  if (where === undefined) return 0;
  return where.body < 0 ? where.slot + 2 : (layout.bodies[where.body]?.slot ?? 0) + 2;
}

/** Height of a body's point above the body's origin; it depends on pitch and roll, not on yaw. 0 for other points. */
function rise(layout: Layout, values: Float64Array, place: number): number {
  const where = layout.places[place];
  if (where === undefined || where.body < 0) return 0;
  const pose = layout.bodies[where.body]?.slot ?? 0;
  const [pitch, roll] = [at(values, pose + 4), at(values, pose + 5)];
  return (
    -Math.sin(pitch) * at(values, where.slot) +
    Math.cos(pitch) * Math.sin(roll) * at(values, where.slot + 1) +
    Math.cos(pitch) * Math.cos(roll) * at(values, where.slot + 2)
  );
}
