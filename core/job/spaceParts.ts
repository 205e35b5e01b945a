/** Everything one sensor's work needs of its bay: the car, every station's fixture, the clear zone, and the way the car rolls. */

import type { ParkingLimits } from '../bay/space/parking.ts';
import { type Bay, rollingStrip, type SpacePart } from '../bay/space/room.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { StationRequirement } from '../placement/requirement.ts';
import type { BayNeeds } from '../procedure/schema.ts';
import type { Equipment } from './equipment.ts';
import { type CarSize, carOutline } from './parking.ts';
import type { Room } from './room.ts';
import { standPlace } from './standPlaces.ts';

/** Heights over the floor up to which car and fixture are in the way of things, mm (common practice, no source). */
const CAR_TOP_MM = 2000;
const FIXTURE_TOP_MM = 2200;

/** One wheel turn of an ordinary tyre, mm: how far the car rolls to settle where nobody says (common practice, no source). */
export const ROLLING_MM = 2000;

/** Names under which the parts that are no stations appear; the window puts them in words. */
export const PART_NAMES = {
  car: 'space.part.car',
  rolling: 'space.part.rolling',
  clearZone: 'space.part.clearZone',
} as const;

/** What the parts are made of. */
export interface SpaceWork {
  readonly size: CarSize;
  readonly rollingMm: number;
  readonly stations: readonly (StationRequirement & { readonly name: string })[];
  readonly equipment: Pick<Equipment, 'fixture' | 'target'> | null;
  readonly needs: BayNeeds | undefined;
}

/** The parts in the car's frame. A slide stands where its stand does, so it adds none. */
export function spaceParts({ size, rollingMm, stations, equipment, needs }: SpaceWork): readonly SpacePart[] {
  const car = carOutline(size);
  const part = (
    name: string,
    kind: SpacePart['kind'],
    outline: readonly Vec2[],
    toMm: number,
  ): SpacePart => ({ name, kind, outline, fromMm: 0, toMm, marginMm: 0 });
  const stands = stations.filter((station) => station.kind === 'reposition');
  return [
    part(PART_NAMES.car, 'car', car, CAR_TOP_MM),
    part(PART_NAMES.rolling, 'rolling', rollingStrip(car, 0, rollingMm), CAR_TOP_MM),
    ...(equipment === null
      ? []
      : stands.map((station) =>
          part(station.name, 'footprint', standPlace(station, size, equipment).outline, FIXTURE_TOP_MM),
        )),
    ...(needs?.clearZone === undefined
      ? []
      : [part(PART_NAMES.clearZone, 'clearZone', needs.clearZone.outlineMm, needs.clearZone.heightMm)]),
  ];
}

/** The room as space to work in; undefined until its outline was drawn. */
export function bayOf(room: Room | undefined): Bay | undefined {
  if (room === undefined || room.outline.length < 3) return undefined;
  return { outline: room.outline, obstacles: room.obstacles };
}

/** Every place in a bay with the car along its x axis, driven in or reversed in. */
export function parkingLimits(bay: Bay): ParkingLimits {
  const [xs, ys] = [bay.outline.map(([x]) => x), bay.outline.map(([, y]) => y)];
  return {
    xMm: [Math.min(...xs), Math.max(...xs)],
    yMm: [Math.min(...ys), Math.max(...ys)],
    headingsRad: [
      [0, 0],
      [Math.PI, Math.PI],
    ],
  };
}
