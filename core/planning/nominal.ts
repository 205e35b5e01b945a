/**
 * The layout as it will be when everything is right: the car of the data sheet on a level floor, the target at its required
 * pose. Every point a reading touches, and what each reading would then say. The floor's slope is left out: it moves
 * points by millimetres and u by less than a hundredth.
 */
import { rotate, rotationMatrix } from '../geometry/rotation.ts';
import { add, length, scaled, subtract, type Vec3 } from '../geometry/vector.ts';
import { endSign } from '../placement/facing.ts';
import type { TiltDirection, Wheel } from '../placement/placementReading.ts';
import { nearPoints } from '../placement/recipe.ts';
import type { StationRequirement } from '../placement/requirement.ts';
import { invariant } from '../result.ts';
import { planDefaults } from './defaults.ts';
import type { PlanCar, PlanSetUp } from './types.ts';

/** A value of a reading as the nominal layout has it: mm or radians, never negative. */
export interface NominalValue {
  readonly value: number;
  readonly direction?: TiltDirection;
}

/** Points by name in the vehicle frame (ahead, left, up), and values by slot key. */
export interface Nominal {
  readonly points: ReadonlyMap<string, Vec3>;
  readonly values: ReadonlyMap<string, NominalValue>;
  /** Heading of the face's outward normal against the centreline. */
  readonly yawRad: number;
}

/** Height of the level's plane over the floor: any will do. */
const PLANE_MM = 1400;

/** How far ahead of the rear axle a station wants its target. */
export function nominalAheadMm(car: PlanCar, station: StationRequirement): number {
  switch (station.ahead.from) {
    case 'rearAxle':
      return station.ahead.value;
    case 'frontAxle':
      return car.wheelbaseMm + station.ahead.value;
    case 'bodyFace':
      return car.bodyFaceAheadMm + station.ahead.value;
  }
}

function beyond(near: Vec3, far: Vec3, byMm: number): Vec3 {
  const along = subtract(near, far);
  return add(near, scaled(along, byMm / length(along)));
}

function carPoints({ car, equipment, beyondAheadMm, beyondBehindMm }: PlanSetUp): Map<string, Vec3> {
  const points = new Map<string, Vec3>();
  const place = (wheel: Wheel, ahead: number, trackMm: number): void => {
    const left = wheel === 'FL' || wheel === 'RL' ? 1 : -1;
    const arm = left > 0 ? equipment.sideArms.left.mm : equipment.sideArms.right.mm;
    points.set(`hub.${wheel}`, [ahead, (left * trackMm) / 2, car.hubHeightMm]);
    points.set(`mark.${wheel}`, [ahead, left * (trackMm / 2 + arm), 0]);
  };
  place('FL', car.wheelbaseMm, car.trackFrontMm);
  place('FR', car.wheelbaseMm, car.trackFrontMm);
  place('RL', 0, car.trackRearMm);
  place('RR', 0, car.trackRearMm);
  for (const side of ['L', 'R'] as const) {
    const front = pointAt(points, `mark.F${side}`);
    const rear = pointAt(points, `mark.R${side}`);
    points.set(`ahead.${side}`, beyond(front, rear, beyondAheadMm ?? planDefaults.beyondMm));
    points.set(`behind.${side}`, beyond(rear, front, beyondBehindMm ?? planDefaults.beyondMm));
  }
  points.set('bodyFace', [car.bodyFaceAheadMm, 0, 0]);
  return points;
}

/** A point that the layout has. */
export function pointAt(points: ReadonlyMap<string, Vec3>, name: string): Vec3 {
  const point = points.get(name);
  invariant(point !== undefined, `the nominal layout has no point ${name}`);
  return point;
}

/** Puts the fixture's points in, and answers its two tilts. */
function addFixture(points: Map<string, Vec3>, setUp: PlanSetUp, station: StationRequirement) {
  const { face, barLength } = setUp.equipment.fixture;
  const yawRad = station.yaw.value;
  const turned = rotationMatrix({ yawRad, pitchRad: station.pitch.value, rollRad: station.roll.value });
  const ahead = nominalAheadMm(setUp.car, station);
  const target: Vec3 = [ahead, station.left.value, station.up.value];
  const origin = subtract(target, rotate(turned, [face.outMm, face.acrossMm, face.upMm]));
  points.set('target', target);
  points.set('barCentre', origin);
  for (const side of ['carLeft', 'carRight'] as const) {
    const end = add(origin, rotate(turned, [0, (endSign(yawRad, side) * barLength.mm) / 2, 0]));
    points.set(`barEnd.${side}`, end);
    points.set(`barMark.${side}`, [end[0], end[1], 0]);
  }
  const dip = -Math.asin(rotate(turned, [1, 0, 0])[2]);
  const rise = pointAt(points, 'barEnd.carLeft')[2] - pointAt(points, 'barEnd.carRight')[2];
  const tilt = Math.asin(Math.min(1, Math.abs(rise) / barLength.mm));
  return {
    pitch: { value: Math.abs(dip), direction: dip < 0 ? 'awayFromCar' : 'towardCar' },
    roll: { value: tilt, direction: rise > 0 ? 'carRightLow' : 'carLeftLow' },
  } satisfies Record<string, NominalValue>;
}

/** Which two points each distance joins, by slot key; the bar is measured from the pair it stands nearer. */
export function distanceEnds(near: 'ahead' | 'behind'): readonly (readonly [string, string, string])[] {
  return [
    ['base.L', 'mark.RL', 'mark.FL'],
    ['base.R', 'mark.RR', 'mark.FR'],
    ['ahead.L', 'mark.FL', 'ahead.L'],
    ['ahead.R', 'mark.FR', 'ahead.R'],
    ['behind.L', 'mark.RL', 'behind.L'],
    ['behind.R', 'mark.RR', 'behind.R'],
    ['width.ahead', 'ahead.L', 'ahead.R'],
    ['width.behind', 'behind.L', 'behind.R'],
    ['diagonal.LR', 'behind.L', 'ahead.R'],
    ['diagonal.RL', 'behind.R', 'ahead.L'],
    ['bar.sameL', `${near}.L`, 'barMark.carLeft'],
    ['bar.sameR', `${near}.R`, 'barMark.carRight'],
    ['bar.diagLR', `${near}.L`, 'barMark.carRight'],
    ['bar.diagRL', `${near}.R`, 'barMark.carLeft'],
    ['rear.sameL', 'mark.RL', 'barMark.carLeft'],
    ['rear.sameR', 'mark.RR', 'barMark.carRight'],
    ['rear.diagLR', 'mark.RL', 'barMark.carRight'],
    ['rear.diagRL', 'mark.RR', 'barMark.carLeft'],
  ];
}

/** The layout of a set-up with at least one station. */
export function nominal(setUp: PlanSetUp): Nominal {
  const [base, ...others] = setUp.stations;
  invariant(base !== undefined, 'a plan is made for a station');
  const points = carPoints(setUp);
  const tilts = addFixture(points, setUp, base);
  const values = new Map<string, NominalValue>();
  const put = (key: string, value: number): void => {
    values.set(key, { value });
  };
  for (const wheel of ['FL', 'FR', 'RL', 'RR']) {
    put(`floor.${wheel}`, PLANE_MM);
    put(`drop.${wheel}`, setUp.car.hubHeightMm);
  }
  put('floor.fixtureLeft', PLANE_MM);
  put('floor.fixtureRight', PLANE_MM);
  for (const [key, a, b] of distanceEnds(nearPoints(setUp.stations))) {
    put(key, length(subtract(pointAt(points, a), pointAt(points, b))));
  }
  const lineAheadMm = (pointAt(points, 'ahead.L')[0] + pointAt(points, 'ahead.R')[0]) / 2;
  put('face', Math.abs(lineAheadMm - setUp.car.bodyFaceAheadMm));
  for (const side of ['RL', 'RR']) values.set(`toe.${side}`, { value: 0, direction: 'toeIn' });
  put('target.height', base.up.value);
  values.set('fixture.pitch', tilts.pitch);
  values.set('fixture.roll', tilts.roll);
  for (const slide of others) {
    // Sideways grows by the cosine of the bar's turn along it.
    const along = Math.abs(slide.left.value - base.left.value) / Math.abs(Math.cos(base.yaw.value));
    put(`slide@${slide.id}`, along);
    put(`target.height@${slide.id}`, slide.up.value);
  }
  return { points, values, yawRad: base.yaw.value };
}
