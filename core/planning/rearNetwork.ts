/**
 * The network of the rear axle alone: two hub drops, four tapes from their marks straight to the bar's, heights as always.
 * Nothing is measured at the front axle but the floor, so that the centreline is only what square to the rear axle says,
 * within what axles are out of square: two short levers where four hubs give a long one.
 */
import type { Network, NetworkPoint, Reading } from '../adjust/network.ts';
import { fitFloorPlane, planeNormal } from '../bay/floorPlane.ts';
import { cross, inner, length, scaled, subtract, type Vec3 } from '../geometry/vector.ts';
import { matrixFromRows } from '../linalg/matrix.ts';
import { workUncertainties } from '../placement/defaults.ts';
import { fixturePart } from '../placement/fixtureNetwork.ts';
import { hubDropReadings } from '../placement/hubDrop.ts';
import { bayPoint } from '../placement/model.ts';
import { barMarkId, hubId, markId } from '../placement/names.ts';
import { floorReading, freePoint, knownLength } from '../placement/networkPart.ts';
import type { PlacementInput } from '../placement/placementInput.ts';
import { type CarSide, WHEELS, type Wheel } from '../placement/placementReading.ts';
import type { SlotValues } from '../placement/readings.ts';
import { tapeDistance, tapeUnknowns } from '../placement/tape.ts';
import { invariant } from '../result.ts';
import { midpoint, type VehicleFrame } from '../vehicle/frame.ts';
import { planDefaults } from './defaults.ts';
import { type Nominal, pointAt } from './nominal.ts';

/** How far the rear axle is from square to the centreline: a known unknown of this recipe. */
export const AXLE_SQUARE_ID = 'axle.square';

const REAR_TAPES = [
  ['rear.sameL', 'RL', 'carLeft'],
  ['rear.diagLR', 'RL', 'carRight'],
  ['rear.sameR', 'RR', 'carRight'],
  ['rear.diagRL', 'RR', 'carLeft'],
] as const satisfies readonly (readonly [string, Wheel, CarSide])[];

const fixedAt = (point: NetworkPoint, axis: 'x' | 'y', valueMm: number): NetworkPoint => ({
  ...point,
  [axis]: { state: 'fixed', valueMm },
});

function hubDrop(input: PlacementInput, values: SlotValues, wheel: 'RL' | 'RR'): readonly Reading[] {
  const drop = values.get(`drop.${wheel}`);
  return drop === undefined ? [] : hubDropReadings(wheel, drop, workUncertainties(input.equipment));
}

/** The network, in a bay frame through the two rear marks; undefined while a reading it needs is missing. */
export function rearNetwork(
  input: PlacementInput,
  values: SlotValues,
  layout: Nominal,
  near: 'ahead' | 'behind',
): Network | undefined {
  const work = workUncertainties(input.equipment);
  const floorMm = values.get('floor.RL')?.value ?? 0;
  const inBay = (name: string): Vec3 => {
    const [x, y, z] = subtract(pointAt(layout.points, name), pointAt(layout.points, 'mark.RL'));
    return [x, y, z - floorMm];
  };
  const inPlan = (name: string) => [inBay(name)[0], inBay(name)[1]] as const;
  const fixture = fixturePart(input, values, {
    carLeft: inPlan('barMark.carLeft'),
    carRight: inPlan('barMark.carRight'),
    beyond: true,
    sideIsClear: false,
  });
  if (!fixture.ok) return undefined;
  const mark = (wheel: Wheel): NetworkPoint => {
    const at = inBay(`mark.${wheel}`);
    const point = fixedAt(freePoint(markId(wheel), at), 'x', at[0]);
    return wheel === 'RR' ? point : fixedAt(point, 'y', at[1]);
  };
  const tapes = REAR_TAPES.flatMap(([id, wheel, end]) => {
    const value = values.get(id);
    return value === undefined
      ? []
      : [{ value, reading: tapeDistance(id, value, markId(wheel), barMarkId(end), work) }];
  });
  const floors = WHEELS.flatMap((wheel) => {
    const value = values.get(`floor.${wheel}`);
    return value === undefined ? [] : [floorReading(`floor.${wheel}`, value, markId(wheel))];
  });
  const line = { from: markId('RR'), to: markId('RL') };
  const side = near === 'ahead' ? 'right' : 'left';
  const { left, right } = input.equipment.sideArms;
  return {
    format: 'datumline-network-1',
    points: [
      ...(['RL', 'RR'] as const).map((wheel) => freePoint(hubId(wheel), inBay(`hub.${wheel}`))),
      ...WHEELS.map(mark),
      ...fixture.value.points,
    ],
    bodies: fixture.value.bodies,
    shared: [
      ...fixture.value.shared,
      knownLength('sideArm.left', left),
      knownLength('sideArm.right', right),
      {
        id: AXLE_SQUARE_ID,
        quantity: 'angle',
        is: { state: 'known', valueRad: 0, uRad: planDefaults.axleSquareRad },
      },
      ...tapeUnknowns(
        tapes.map(({ value }) => value),
        work,
      ),
    ],
    readings: [
      ...floors,
      ...hubDrop(input, values, 'RL'),
      ...hubDrop(input, values, 'RR'),
      ...fixture.value.readings,
      ...tapes.map(({ reading }) => reading),
    ],
    sides: [
      { point: barMarkId('carLeft'), line, side },
      { point: barMarkId('carRight'), line, side },
    ],
  };
}

/** The vehicle frame that the rear axle alone gives: ahead is square to it, turned by what it is out of square. */
export function rearFrame(estimates: Parameters<typeof bayPoint>[0]): VehicleFrame {
  const plane = fitFloorPlane(WHEELS.map((wheel) => bayPoint(estimates, markId(wheel))));
  invariant(plane.ok, 'four wheels have a contact plane');
  const up = planeNormal(plane.value);
  const [carLeft, carRight] = [bayPoint(estimates, hubId('RL')), bayPoint(estimates, hubId('RR'))];
  const rear = midpoint(carLeft, carRight);
  const onPlane: Vec3 = [0, 0, plane.value.z0Mm];
  const axle = subtract(carLeft, carRight);
  const level = subtract(axle, scaled(up, inner(up, axle)));
  const across = scaled(level, 1 / length(level));
  const square = cross(across, up);
  const turn = estimates.shared(AXLE_SQUARE_ID);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const ahead: Vec3 = [
    c * square[0] + s * across[0],
    c * square[1] + s * across[1],
    c * square[2] + s * across[2],
  ];
  return {
    origin: subtract(rear, scaled(up, inner(up, subtract(rear, onPlane)))),
    axes: matrixFromRows([ahead, cross(up, ahead), up]),
  };
}
