/**
 * Starting values: what is known, given or read directly, then heights, then the plan by construction. Fails with the
 * points whose side has to be declared, or with those that cannot be constructed.
 */
import { moveInPlan } from '../../geometry/planFit.ts';
import { at } from '../../linalg/at.ts';
import { err, ok, type Result } from '../../result.ts';
import type { Layout } from '../layout.ts';
import type { Problem } from '../problem.ts';
import { type AlignTarget, layInto } from './align.ts';
import type { Cluster } from './cluster.ts';
import type { StartFacts } from './facts.ts';
import { startHeights } from './heights.ts';
import { constructPlan, originPlace, type SideFact } from './plan.ts';

/** Why there is no start: places by number. */
export type NoStart =
  | { readonly why: 'mirror'; readonly place: number; readonly by: readonly number[] }
  | { readonly why: 'unplaced'; readonly places: readonly number[] };

/** Fills `values` (all slots). `given` overrides, by unknown id such as `hubFL/x`. */
export function startValues(
  problem: Problem,
  given: ReadonlyMap<string, number> | undefined,
  values: Float64Array,
): Result<true, NoStart> {
  const { layout } = problem;
  const known = new Uint8Array(values.length);
  let open = false;
  layout.slots.forEach((slot, i) => {
    const start = given?.get(slot.id);
    const value = slot.prior.state === 'fixed' ? slot.prior.value : (start ?? slot.prior.value);
    values[i] = value ?? 0;
    if (value !== undefined || slot.of === 'shared') known[i] = 1;
    else open = true;
  });
  if (!open) return ok(true);
  const facts = collectFacts(problem, values);
  const take = (slot: number, value: number): void => {
    if (known[slot] === 1) return;
    values[slot] = value;
    known[slot] = 1;
  };
  for (const { slot, value } of facts.slots) take(slot, value);
  for (const { place, axis, mm } of facts.coordinates) {
    const where = layout.places[place];
    if (where !== undefined && where.body < 0) take(where.slot + 'xyz'.indexOf(axis), mm);
    else if (axis === 'z') facts.heights.push({ place, above: undefined, mm });
  }
  startHeights(layout, facts, values, known);
  const plan = constructPlan(layout, facts, sideFacts(problem), values, known);
  write(layout, facts, plan.main, values, known);
  const mirror = plan.mirrored[0];
  if (mirror !== undefined) return err({ why: 'mirror', ...mirror });
  if (plan.missing.length > 0) return err({ why: 'unplaced', places: plan.missing });
  return ok(true);
}

function collectFacts(problem: Problem, values: Float64Array): StartFacts {
  const facts: StartFacts = {
    distances: [],
    lines: [],
    drops: [],
    heights: [],
    angles: [],
    coordinates: [],
    slots: [],
    poses: [],
    sharedStart: (slot) => (slot < 0 ? 0 : at(values, slot)),
  };
  for (const reading of problem.bound) reading.tell?.(facts);
  return facts;
}

function sideFacts({ network, layout }: Problem): SideFact[] {
  const number = (id: string): number => layout.placeById.get(id) ?? 0;
  return network.sides.map(({ point, line, side }) => ({
    place: number(point),
    line: [number(line.from), number(line.to)],
    left: side === 'left',
  }));
}

/** Lays the constructed piece into the bay and writes what is not given. */
function write(
  layout: Layout,
  facts: StartFacts,
  main: Cluster,
  values: Float64Array,
  known: Uint8Array,
): void {
  const laying = main.bay
    ? { turnRad: 0, shift: [0, 0] as const }
    : layInto(targets(layout, facts, main, values, known));
  const carry = (place: number) => {
    const p = main.places.get(place);
    return p === undefined ? undefined : moveInPlan({ ...laying, scale: 1 }, p);
  };
  const set = (slot: number, value: number): void => {
    if (known[slot] !== 1) values[slot] = value;
  };
  layout.places.forEach((place, i) => {
    const p = place.body < 0 ? carry(i) : undefined;
    if (p === undefined) return;
    set(place.slot, p[0]);
    set(place.slot + 1, p[1]);
  });
  layout.bodies.forEach((body, b) => {
    const p = carry(originPlace(layout, b));
    const heading = main.headings.get(`b${b}`);
    if (p === undefined || heading === undefined) return;
    set(body.slot, p[0]);
    set(body.slot + 1, p[1]);
    set(body.slot + 3, heading + laying.turnRad);
  });
}

/** Single coordinates and headings that are given in the bay frame. */
function targets(
  layout: Layout,
  facts: StartFacts,
  main: Cluster,
  values: Float64Array,
  known: Uint8Array,
): AlignTarget[] {
  const found: AlignTarget[] = [];
  const coordinate = (place: number, slot: number): void => {
    const from = main.places.get(place);
    if (from === undefined) return;
    for (const axis of [0, 1] as const) {
      if (known[slot + axis] === 1) found.push({ axis, from, value: at(values, slot + axis) });
    }
  };
  layout.places.forEach((place, i) => {
    if (place.body < 0) coordinate(i, place.slot);
  });
  for (const { place, axis, mm } of facts.coordinates) {
    const from = main.places.get(place);
    if (axis === 'z' || from === undefined || layout.places[place]?.body === -1) continue;
    found.push({ axis: axis === 'x' ? 0 : 1, from, value: mm });
  }
  layout.bodies.forEach((body, b) => {
    coordinate(originPlace(layout, b), body.slot);
    const headingRad = main.headings.get(`b${b}`);
    if (headingRad !== undefined && known[body.slot + 3] === 1) {
      found.push({ headingRad, value: at(values, body.slot + 3) });
    }
  });
  return found;
}
