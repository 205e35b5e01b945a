/**
 * The layout of the last network, kept: while readings come in, one by one, its points, bodies and shared unknowns stay the
 * same. It is handed out again only when every id and every number of the network is the one it was made from.
 */
import { ANGLES, type BodyPlace, COORDINATES, type Layout, layOut, type Slot } from './layout.ts';
import type { Body, Network, NetworkPoint } from './network.ts';
import type { AngleKnowledge, LengthKnowledge, RatioKnowledge } from './schemaParts.ts';

let last: Layout | undefined;

/** As `layOut`; a layout is never written to, so the last one may serve again. */
export function layOutAgain(network: Network): Layout {
  if (last === undefined || !laidOutAs(network, last)) last = layOut(network);
  return last;
}

/** Whether a network leads to exactly this layout. */
export function laidOutAs({ points, bodies, shared }: Network, layout: Layout): boolean {
  const { slots, places } = layout;
  const owned = bodies.reduce((sum, body) => sum + body.points.length, 0);
  const counts =
    layout.bodies.length === bodies.length &&
    layout.sharedById.size === shared.length &&
    places.length === points.length + owned &&
    slots.length === 3 * (points.length + owned) + 6 * bodies.length + shared.length;
  if (!counts) return false;
  for (const [i, point] of points.entries()) if (!samePoint(point, slots, 3 * i)) return false;
  for (const [b, body] of bodies.entries()) {
    const place = layout.bodies[b];
    if (place === undefined || !sameBody(body, place, layout)) return false;
  }
  const first = slots.length - shared.length;
  return shared.every((one, i) => {
    const slot = slots[first + i];
    if (slot === undefined || slot.owner !== one.id || slot.of !== 'shared') return false;
    if (one.quantity === 'length') return slot.unit === 'mm' && sameLength(one.is, slot);
    if (one.quantity === 'angle') return slot.unit === 'rad' && sameAngle(one.is, slot);
    return slot.unit === 'ratio' && sameRatio(one.is, slot);
  });
}

function samePoint(point: NetworkPoint, slots: readonly Slot[], first: number): boolean {
  for (let k = 0; k < 3; k++) {
    const slot = slots[first + k];
    if (slot === undefined || slot.owner !== point.id || slot.of !== 'point') return false;
    if (!sameLength(point[COORDINATES[k] ?? 'x'], slot)) return false;
  }
  return true;
}

function sameBody(body: Body, place: BodyPlace, { slots, places }: Layout): boolean {
  if (place.id !== body.id || place.places.length !== body.points.length) return false;
  for (let k = 0; k < 3; k++) {
    const shift = slots[place.slot + k];
    const turn = slots[place.slot + 3 + k];
    if (shift === undefined || !sameLength(body.pose[COORDINATES[k] ?? 'x'], shift)) return false;
    if (turn === undefined || !sameAngle(body.pose[ANGLES[k] ?? 'yaw'], turn)) return false;
  }
  return body.points.every((point, i) => {
    const own = places[place.places[i] ?? -1];
    if (own === undefined || own.id !== point.id) return false;
    return (
      sameNumber(point.xMm, point.uXMm, slots[own.slot]) &&
      sameNumber(point.yMm, point.uYMm, slots[own.slot + 1]) &&
      sameNumber(point.zMm, point.uZMm, slots[own.slot + 2])
    );
  });
}

function sameNumber(value: number, u: number, slot: Slot | undefined): boolean {
  return slot !== undefined && Object.is(slot.prior.value, value) && Object.is(slot.prior.u, u);
}

function sameLength(is: LengthKnowledge, slot: Slot): boolean {
  if (is.state === 'known') return sameKnown(slot, is.valueMm, is.uMm, is.dof);
  return sameValue(slot, is.state, is.state === 'fixed' ? is.valueMm : is.startMm);
}

function sameAngle(is: AngleKnowledge, slot: Slot): boolean {
  if (is.state === 'known') return sameKnown(slot, is.valueRad, is.uRad, is.dof);
  return sameValue(slot, is.state, is.state === 'fixed' ? is.valueRad : is.startRad);
}

function sameRatio(is: RatioKnowledge, slot: Slot): boolean {
  if (is.state === 'known') return sameKnown(slot, is.value, is.u, is.dof);
  return sameValue(slot, is.state, is.state === 'fixed' ? is.value : is.start);
}

function sameKnown({ prior }: Slot, value: number, u: number, dof: number | undefined): boolean {
  return (
    prior.state === 'known' &&
    Object.is(prior.value, value) &&
    Object.is(prior.u, u) &&
    Object.is(prior.dof, dof ?? Number.POSITIVE_INFINITY)
  );
}

function sameValue({ prior }: Slot, state: 'free' | 'fixed', value: number | undefined): boolean {
  return prior.state === state && Object.is(prior.value, value);
}
