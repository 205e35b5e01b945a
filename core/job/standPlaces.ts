/**
 * Where a fixture has to stand, in plan and seen from the car: the bar's middle and its two ends at a required pose. Centreline
 * and thrust line count as one here, and the floor as level: a floor's height a few millimetres beside a place is the same.
 */
import type { Vec2 } from '../geometry/vector.ts';
import { endSign } from '../placement/facing.ts';
import type { StationRequirement } from '../placement/requirement.ts';
import { type Equipment, fixtureShape } from './equipment.ts';
import type { CarSize } from './parking.ts';

/** The fixture in plan, in the car's frame (ahead of the rear axle, to the car's left), mm. */
export interface StandPlace {
  readonly station: string;
  readonly name: string;
  readonly face: Vec2;
  readonly carLeftEnd: Vec2;
  readonly carRightEnd: Vec2;
  /** Outline of bar and board, with the depth of the base. */
  readonly outline: readonly Vec2[];
}

/** Half the depth of a fixture's base along its facing, mm (common practice, no source): what it needs of the floor. */
const HALF_BASE_MM = 350;

function aheadOfRearAxle(station: StationRequirement, size: CarSize): number {
  switch (station.ahead.from) {
    case 'rearAxle':
      return station.ahead.value;
    case 'frontAxle':
      return size.wheelbaseMm + station.ahead.value;
    case 'bodyFace':
      return size.wheelbaseMm + size.frontOverhangMm + station.ahead.value;
  }
}

/** The place of one station's fixture. */
export function standPlace(
  station: StationRequirement,
  size: CarSize,
  equipment: Pick<Equipment, 'fixture' | 'target'>,
  name = station.id,
): StandPlace {
  const shape = fixtureShape(equipment);
  const yaw = station.yaw.value;
  const out: Vec2 = [Math.cos(yaw), Math.sin(yaw)];
  const across: Vec2 = [-out[1], out[0]];
  const face: Vec2 = [aheadOfRearAxle(station, size), station.left.value];
  const bar: Vec2 = [face[0] - shape.faceOutMm * out[0], face[1] - shape.faceOutMm * out[1]];
  const from = (outMm: number, acrossMm: number): Vec2 => [
    bar[0] + outMm * out[0] + acrossMm * across[0],
    bar[1] + outMm * out[1] + acrossMm * across[1],
  ];
  const half = shape.barLengthMm / 2;
  const wide = Math.max(half, shape.boardWidthMm / 2);
  return {
    station: station.id,
    name,
    face,
    carLeftEnd: from(0, endSign(yaw, 'carLeft') * half),
    carRightEnd: from(0, endSign(yaw, 'carRight') * half),
    outline: [
      from(-HALF_BASE_MM, -wide),
      from(Math.max(HALF_BASE_MM, shape.faceOutMm), -wide),
      from(Math.max(HALF_BASE_MM, shape.faceOutMm), wide),
      from(-HALF_BASE_MM, wide),
    ],
  };
}
