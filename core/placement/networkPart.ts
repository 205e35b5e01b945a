/** The pieces the car's and the fixture's networks are put together from. */
import type { NetworkPoint, Reading, Shared, Side } from '../adjust/network.ts';
import { floorHeightMm } from '../bay/staff.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { defaultUncertainties } from './defaults.ts';
import type { LengthWithU } from './equipment.ts';
import type { SlotValue } from './readings.ts';

/** Part of a network. */
export interface NetworkPart {
  readonly points: readonly NetworkPoint[];
  readonly readings: readonly Reading[];
  readonly shared: readonly Shared[];
  readonly sides: readonly Side[];
}

/** A free point with a start, or one whose named coordinates are held exactly. */
export function freePoint(id: string, [x, y, z]: Vec3): NetworkPoint {
  return {
    id,
    x: { state: 'free', startMm: x },
    y: { state: 'free', startMm: y },
    z: { state: 'free', startMm: z },
  };
}

/** A length that is known beforehand; a u of zero makes it exact. */
export function knownLength(id: string, { mm, uMm }: LengthWithU): Shared {
  return {
    id,
    quantity: 'length',
    is: uMm > 0 ? { state: 'known', valueMm: mm, uMm } : { state: 'fixed', valueMm: mm },
  };
}

/** The staff reading of a place as the height of its point; n repeats lower its u, a surveyed height brings its own. */
export function floorReading(id: string, value: SlotValue, point: string): Reading {
  return {
    kind: 'height',
    id,
    instrument: 'staff',
    point,
    above: { levelMm: 0 },
    valueMm: floorHeightMm(value.value),
    uMm: value.uMm ?? defaultUncertainties.staffMm / Math.sqrt(value.count),
  };
}

/** No points and no readings. */
export const EMPTY: NetworkPart = { points: [], readings: [], shared: [], sides: [] };

/** Several parts as one. */
export function joined(parts: readonly NetworkPart[]): NetworkPart {
  return {
    points: parts.flatMap((part) => part.points),
    readings: parts.flatMap((part) => part.readings),
    shared: parts.flatMap((part) => part.shared),
    sides: parts.flatMap((part) => part.sides),
  };
}

/** A point's height is a weighted mean of others', within what floors do beyond the staff's places. */
export function straightFloor(
  id: string,
  point: string,
  from: readonly (readonly [string, number])[],
): Reading {
  const height = (name: string, coefficient: number) =>
    ({ coefficient, quantity: { of: 'coordinate', point: name, axis: 'z' } }) as const;
  return {
    kind: 'constraint',
    id,
    terms: [height(point, 1), ...from.map(([name, weight]) => height(name, -weight))],
    value: 0,
    u: defaultUncertainties.floorBeyondMm,
  };
}
