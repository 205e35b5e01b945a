/** Readings of the other bodies, exactly as a layout has them: from points, tapes and a plumb line alone. */
import type { BodyKind } from '../../../../core/placement/bodies/readings.ts';
import type { PlacementEquipment } from '../../../../core/placement/equipment.ts';
import type { PlacementInput } from '../../../../core/placement/placementInput.ts';
import type { StationRequirement } from '../../../../core/placement/requirement.ts';
import {
  distance,
  type P3,
  type TrueLayout,
  trueReadings,
  worldOf,
} from '../../../../core/rehearsal/trueBay.ts';
import { asReadings, CENTRE, EQUIPMENT, inputOf } from '../trueLayout.ts';

const PLANE_MM = 1432.1;

/** Distance in plan of a point from the line of two others. */
function fromLine(p: P3, a: P3, b: P3): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  return Math.abs(dx * (p[1] - a[1]) - dy * (p[0] - a[0])) / Math.hypot(dx, dy);
}

interface Options {
  readonly near?: 'ahead' | 'behind';
  readonly equipment?: PlacementEquipment;
  readonly leaveOut?: readonly string[];
  /** Zero error of the inclinometer on a plate, rad. */
  readonly zero?: number;
}

/** The input of a body read without a fault. */
export function bodyInput(
  body: BodyKind,
  layout: TrueLayout,
  stations: readonly StationRequirement[] = [CENTRE],
  { near = 'ahead', equipment = EQUIPMENT, leaveOut = [], zero = 0 }: Options = {},
): PlacementInput {
  const world = worldOf(layout, equipment);
  const point = (name: string): P3 => {
    const found = world.points[name];
    if (found === undefined) throw new Error(`no ${name}`);
    return found;
  };
  const numbers = trueReadings(layout, equipment, near);
  const add = (key: string, value: number): void => {
    numbers[key] = { value };
  };
  const [x, y, z] = world.target;
  const mark: P3 = [x, y, world.fixtureFloorZ(x, y)];
  if (body === 'singleStand') {
    const [left, right] = [point(`${near}.L`), point(`${near}.R`)];
    add('stand.fromL', distance(left, mark));
    add('stand.fromR', distance(right, mark));
    add('stand.fromLine', fromLine(mark, left, right));
    add('floor.stand', PLANE_MM - mark[2]);
    add('target.height', z - mark[2]);
  }
  if (body === 'plate') {
    const dip = -Math.asin(world.fixtureAxes.x[2]);
    for (const [key, value] of [
      ['plate.tilt', dip + zero],
      ['plate.tiltTurned', dip - zero],
    ] as const) {
      numbers[key] = { value: Math.abs(value), direction: value < 0 ? 'awayFromCar' : 'towardCar' };
    }
  }
  if (body === 'corner') {
    const left = (stations[0]?.left.value ?? 0) >= 0;
    const [outer, inner] = left ? ['carLeft', 'carRight'] : ['carRight', 'carLeft'];
    const hub = point(`mark.${near === 'ahead' ? 'F' : 'R'}${left ? 'L' : 'R'}`);
    const beyond = point(`${near}.${left ? 'L' : 'R'}`);
    add('corner.hubIn', distance(hub, point(`barMark.${inner}`)));
    add('corner.hubOut', distance(hub, point(`barMark.${outer}`)));
    add('corner.pointIn', distance(beyond, point(`barMark.${inner}`)));
    add('corner.pointOut', distance(beyond, point(`barMark.${outer}`)));
  }
  return { ...inputOf(layout, stations), equipment, body, readings: asReadings(numbers, leaveOut) };
}
