/**
 * Where every number of a network lives. Each coordinate, angle and shared unknown has a slot; a slot that is free or
 * known with a u is an unknown and has a column; a fixed slot has none. Everything that can stand where a reading wants
 * a point (points and points of bodies) has a place number.
 */

import type { Body, Network } from './network.ts';
import type { AngleKnowledge, LengthKnowledge, RatioKnowledge } from './schemaParts.ts';
import type { SlotComponent } from './solution.ts';

/** A point of the network (body -1: its slots are the bay coordinates) or of a body (slots are own-frame coordinates). */
export interface Place {
  readonly id: string;
  readonly body: number;
  /** First of three slots x, y, z. */
  readonly slot: number;
}

/** A body: its six pose slots x, y, z, yaw, pitch, roll start at `slot`. */
export interface BodyPlace {
  readonly id: string;
  readonly slot: number;
  readonly places: readonly number[];
}

/** What is known of one slot beforehand, whatever its unit. */
export interface Prior {
  readonly state: 'free' | 'fixed' | 'known';
  readonly value: number | undefined;
  readonly u: number;
  readonly dof: number;
}

/** One number of the network. */
export interface Slot {
  /** `owner/component`. */
  readonly id: string;
  readonly owner: string;
  readonly of: 'point' | 'body' | 'bodyPoint' | 'shared';
  readonly component: SlotComponent;
  readonly unit: 'mm' | 'rad' | 'ratio';
  readonly prior: Prior;
}

/** All slots, places and bodies, and the unknown behind each slot. */
export interface Layout {
  readonly slots: readonly Slot[];
  /** Column of a slot among the unknowns; -1 for a fixed one. */
  readonly columns: Int32Array;
  /** Slot of each unknown. */
  readonly slotOfColumn: Int32Array;
  readonly places: readonly Place[];
  readonly bodies: readonly BodyPlace[];
  readonly placeById: ReadonlyMap<string, number>;
  readonly bodyById: ReadonlyMap<string, number>;
  readonly sharedById: ReadonlyMap<string, number>;
}

/** Names of the three coordinates, in slot order. */
export const COORDINATES = ['x', 'y', 'z'] as const;
/** Names of the three angles of a pose, in slot order. */
export const ANGLES = ['yaw', 'pitch', 'roll'] as const;

const FIXED_U = 0;

function lengthPrior(is: LengthKnowledge): Prior {
  if (is.state === 'known')
    return { state: 'known', value: is.valueMm, u: is.uMm, dof: is.dof ?? Number.POSITIVE_INFINITY };
  return prior(is.state, is.state === 'fixed' ? is.valueMm : is.startMm);
}

function anglePrior(is: AngleKnowledge): Prior {
  if (is.state === 'known')
    return { state: 'known', value: is.valueRad, u: is.uRad, dof: is.dof ?? Number.POSITIVE_INFINITY };
  return prior(is.state, is.state === 'fixed' ? is.valueRad : is.startRad);
}

function ratioPrior(is: RatioKnowledge): Prior {
  if (is.state === 'known')
    return { state: 'known', value: is.value, u: is.u, dof: is.dof ?? Number.POSITIVE_INFINITY };
  return prior(is.state, is.state === 'fixed' ? is.value : is.start);
}

function prior(state: 'free' | 'fixed', value: number | undefined): Prior {
  return { state, value, u: FIXED_U, dof: Number.POSITIVE_INFINITY };
}

function slotOf(
  owner: string,
  of: Slot['of'],
  component: SlotComponent,
  unit: Slot['unit'],
  known: Prior,
): Slot {
  return { id: `${owner}/${component}`, owner, of, component, unit, prior: known };
}

/** Lays a network out: points first, then bodies with their points, then shared unknowns. */
export function layOut(network: Network): Layout {
  const slots: Slot[] = [];
  const places: Place[] = [];
  const bodies: BodyPlace[] = [];
  const sharedById = new Map<string, number>();
  for (const point of network.points) {
    places.push({ id: point.id, body: -1, slot: slots.length });
    for (const component of COORDINATES) {
      slots.push(slotOf(point.id, 'point', component, 'mm', lengthPrior(point[component])));
    }
  }
  for (const body of network.bodies) layOutBody(body, slots, places, bodies);
  for (const shared of network.shared) {
    sharedById.set(shared.id, slots.length);
    if (shared.quantity === 'length') {
      slots.push(slotOf(shared.id, 'shared', 'value', 'mm', lengthPrior(shared.is)));
    } else if (shared.quantity === 'angle') {
      slots.push(slotOf(shared.id, 'shared', 'value', 'rad', anglePrior(shared.is)));
    } else {
      slots.push(slotOf(shared.id, 'shared', 'value', 'ratio', ratioPrior(shared.is)));
    }
  }
  const columns = new Int32Array(slots.length).fill(-1);
  let unknowns = 0;
  slots.forEach((slot, i) => {
    if (slot.prior.state !== 'fixed') columns[i] = unknowns++;
  });
  const slotOfColumn = new Int32Array(unknowns);
  columns.forEach((column, slot) => {
    if (column >= 0) slotOfColumn[column] = slot;
  });
  return {
    slots,
    columns,
    slotOfColumn,
    places,
    bodies,
    placeById: new Map(places.map((place, i) => [place.id, i])),
    bodyById: new Map(bodies.map((body, i) => [body.id, i])),
    sharedById,
  };
}

function layOutBody(body: Body, slots: Slot[], places: Place[], bodies: BodyPlace[]): void {
  const slot = slots.length;
  for (const component of COORDINATES) {
    slots.push(slotOf(body.id, 'body', component, 'mm', lengthPrior(body.pose[component])));
  }
  for (const component of ANGLES) {
    slots.push(slotOf(body.id, 'body', component, 'rad', anglePrior(body.pose[component])));
  }
  const own: number[] = [];
  for (const point of body.points) {
    own.push(places.length);
    places.push({ id: point.id, body: bodies.length, slot: slots.length });
    const local = [
      [point.xMm, point.uXMm],
      [point.yMm, point.uYMm],
      [point.zMm, point.uZMm],
    ] as const;
    for (const [i, [value, u]] of local.entries()) {
      const state = u === 0 ? 'fixed' : 'known';
      const component = COORDINATES[i] ?? 'x';
      slots.push(
        slotOf(point.id, 'bodyPoint', component, 'mm', { state, value, u, dof: Number.POSITIVE_INFINITY }),
      );
    }
  }
  bodies.push({ id: body.id, slot, places: own });
}
