/**
 * Where the car is parked in its bay and how long and wide it is, from the job's fields: what ties the bay's own frame to the
 * car. Lengths mm; the parked place is that of the middle of the rear axle.
 */
import type { ParkingPlace } from '../bay/space/fit.ts';
import type { Polygon } from '../bay/space/polygon.ts';
import { type AtWheels, atWheels } from '../bay/wheels.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Job } from './job.ts';

/** The car in plan, mm. `widthMm` is over everything that stands out. */
export interface CarSize {
  readonly wheelbaseMm: number;
  readonly trackMm: number;
  readonly widthMm: number;
  readonly frontOverhangMm: number;
  readonly rearOverhangMm: number;
}

function numberOf(job: Pick<Job, 'fields'>, field: string): number | undefined {
  const value = job.fields[field]?.value;
  return typeof value === 'number' ? value : undefined;
}

/** The fields of a car's size, in the order they are asked for. */
export const CAR_SIZE_FIELDS = [
  'bay.wheelbase',
  'bay.track',
  'bay.carWidth',
  'bay.frontOverhang',
  'bay.rearOverhang',
] as const;

/** The fields of where it is parked. */
export const PARKED_FIELDS = ['bay.parkedAlong', 'bay.parkedAcross', 'bay.parkedNose'] as const;

/** The car's size; undefined until all five lengths are known and none is nothing. */
export function carSizeOf(job: Pick<Job, 'fields'>): CarSize | undefined {
  const [wheelbaseMm, trackMm, widthMm, frontOverhangMm, rearOverhangMm] = CAR_SIZE_FIELDS.map((field) =>
    numberOf(job, field),
  );
  if (
    wheelbaseMm === undefined ||
    trackMm === undefined ||
    widthMm === undefined ||
    frontOverhangMm === undefined ||
    rearOverhangMm === undefined
  ) {
    return undefined;
  }
  const size = { wheelbaseMm, trackMm, widthMm, frontOverhangMm, rearOverhangMm };
  return Object.values(size).every((each) => each > 0) ? size : undefined;
}

/** Where the car is parked; undefined until that is said. */
export function parkedOf(job: Pick<Job, 'fields'>): ParkingPlace | undefined {
  const xMm = numberOf(job, 'bay.parkedAlong');
  const yMm = numberOf(job, 'bay.parkedAcross');
  const nose = job.fields['bay.parkedNose']?.value;
  if (xMm === undefined || yMm === undefined || (nose !== 'alongX' && nose !== 'againstX')) return undefined;
  return { xMm, yMm, headingRad: nose === 'alongX' ? 0 : Math.PI };
}

/** A place seen from the car (ahead of the rear axle, to its left) in the bay. */
export function inBay(parked: ParkingPlace, [aheadMm, leftMm]: Vec2): { xMm: number; yMm: number } {
  const [c, s] = [Math.cos(parked.headingRad), Math.sin(parked.headingRad)];
  return {
    xMm: parked.xMm + c * aheadMm - s * leftMm,
    yMm: parked.yMm + s * aheadMm + c * leftMm,
  };
}

/** Where the four wheels stand, seen from the car. */
export function wheelPlaces(size: Pick<CarSize, 'wheelbaseMm' | 'trackMm'>): AtWheels<Vec2> {
  return atWheels(
    (wheel): Vec2 => [
      wheel.startsWith('F') ? size.wheelbaseMm : 0,
      (wheel.endsWith('L') ? 1 : -1) * (size.trackMm / 2),
    ],
  );
}

/** The car's outline seen from above, in its own frame. */
export function carOutline(size: CarSize): Polygon {
  const [rear, front] = [-size.rearOverhangMm, size.wheelbaseMm + size.frontOverhangMm];
  const half = size.widthMm / 2;
  return [
    [rear, -half],
    [front, -half],
    [front, half],
    [rear, half],
  ];
}
