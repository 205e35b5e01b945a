/**
 * Quantities computed from the adjuster's estimates, in the vehicle frame. Every function is pure and smooth, because
 * the covariance is carried through its derivatives. The frame itself is rebuilt from the estimates each time: its own
 * uncertainty is part of every coordinate.
 */
import type { Estimates } from '../adjust/solution.ts';
import { rotate, rotationMatrix, type YawPitchRoll, yawPitchRoll } from '../geometry/rotation.ts';
import { add, scaled, type Vec3 } from '../geometry/vector.ts';
import { type Matrix, multiply, transpose } from '../linalg/matrix.ts';
import { invariant } from '../result.ts';
import { leftOfCentrelineMm, offsetFromLineMm, thrustAngleRad } from '../vehicle/datum.ts';
import {
  type AtWheels,
  midpoint,
  pointToVehicle,
  rotationToVehicle,
  type VehicleFrame,
  vehicleFrame,
} from '../vehicle/frame.ts';
import type { PlacementFixture } from './equipment.ts';
import { leftSign } from './facing.ts';
import { floorWeights } from './fixtureNetwork.ts';
import {
  barMarkId,
  FIXTURE_ID,
  hubId,
  markId,
  pointId,
  slideErrorId,
  slideHeightErrorId,
  slideTiltId,
} from './names.ts';
import type { AheadDatum, LineDatum, StationRequirement } from './requirement.ts';

/** A point of the network as a vector in the bay frame, mm. */
export function bayPoint(estimates: Estimates, id: string): Vec3 {
  const { xMm, yMm, zMm } = estimates.point(id);
  return [xMm, yMm, zMm];
}

const atWheels = (
  estimates: Estimates,
  name: (wheel: 'FL' | 'FR' | 'RL' | 'RR') => string,
): AtWheels<Vec3> => ({
  FL: bayPoint(estimates, name('FL')),
  FR: bayPoint(estimates, name('FR')),
  RL: bayPoint(estimates, name('RL')),
  RR: bayPoint(estimates, name('RR')),
});

/** The vehicle frame of the estimates. A solved network always has one: the start was built from a real layout. */
export function frameOf(estimates: Estimates): VehicleFrame {
  const frame = vehicleFrame(atWheels(estimates, hubId), atWheels(estimates, markId));
  invariant(frame.ok, 'a solved car has a frame');
  return frame.value;
}

/** A network point in the vehicle frame. */
export const vehiclePoint = (estimates: Estimates, frame: VehicleFrame, id: string): Vec3 =>
  pointToVehicle(frame, bayPoint(estimates, id));

/** How far ahead of the rear-axle midpoint an "ahead" datum lies, mm. */
export function aheadDatumMm(estimates: Estimates, frame: VehicleFrame, from: AheadDatum): number {
  switch (from) {
    case 'rearAxle':
      return 0;
    case 'frontAxle': {
      const middle = midpoint(bayPoint(estimates, hubId('FL')), bayPoint(estimates, hubId('FR')));
      return pointToVehicle(frame, middle)[0];
    }
    case 'bodyFace': {
      const [x, y, z] = bayPoint(estimates, pointId('bodyFace'));
      return pointToVehicle(frame, [x, y, z + estimates.shared('bodyFace.height')])[0];
    }
  }
}

/** Heading of a line against the centreline, positive to the car's left, radians. */
export function lineHeadingRad(estimates: Estimates, from: LineDatum): number {
  return from === 'centreline' ? 0 : thrustAngleRad(estimates.shared('toe.RL'), estimates.shared('toe.RR'));
}

/** Where a target is and how it is turned, both in the vehicle frame. */
export interface TargetPose {
  readonly at: Vec3;
  readonly rotation: Matrix;
}

/** A target slid along the bar at a station. */
export interface Slid {
  readonly station: string;
  /** As read, or as it is to be set; negative toward the car's right. */
  readonly towardCarLeftMm: number;
  /** Height over the floor read there; absent inherits the bar's. */
  readonly heightMm?: number;
}

/** The target's pose with the slide at the bar's centre mark. */
export function targetAtCentre(estimates: Estimates, frame: VehicleFrame): TargetPose {
  return {
    at: vehiclePoint(estimates, frame, pointId('target')),
    rotation: rotationToVehicle(frame, rotationMatrix(estimates.body(FIXTURE_ID))),
  };
}

/**
 * The pose of a slid target: carried along the bar, at its own height over the floor line between the bar marks, tilted
 * by its off-centre weight within what is known of that. `yawRad` is the required heading of the face.
 */
export function targetSlid(
  estimates: Estimates,
  frame: VehicleFrame,
  fixture: PlacementFixture,
  yawRad: number,
  slid: Slid,
): TargetPose {
  const inBay = rotationMatrix(estimates.body(FIXTURE_ID));
  const slideMm = slid.towardCarLeftMm + estimates.shared(slideErrorId(slid.station));
  const along = scaled(rotate(inBay, [0, 1, 0]), leftSign(yawRad) * slideMm);
  const [x, y, inherited] = add(bayPoint(estimates, pointId('target')), along);
  const sag = sagOf(fixture, yawRad, slid.towardCarLeftMm);
  const base =
    slid.heightMm === undefined
      ? inherited - sag.sinksMm
      : floorUnderMm(estimates, fixture, yawRad, slid) + slid.heightMm;
  const z = base + estimates.shared(slideHeightErrorId(slid.station));
  const tilt = { yawRad: 0, pitchRad: 0, rollRad: sag.rollRad + estimates.shared(slideTiltId(slid.station)) };
  const tilted = multiply(inBay, rotationMatrix(tilt));
  return { at: pointToVehicle(frame, [x, y, z]), rotation: rotationToVehicle(frame, tilted) };
}

/**
 * What the off-centre weight is known to do: how far the target sinks, and its roll in the fixture frame. The slid side
 * goes low: roll lifts what lies along Y, which is the car's left or right as the face looks.
 */
function sagOf(
  fixture: PlacementFixture,
  yawRad: number,
  towardCarLeftMm: number,
): { readonly sinksMm: number; readonly rollRad: number } {
  const known = fixture.kinematics?.offCentre;
  if (known === undefined) return { sinksMm: 0, rollRad: 0 };
  const alongYM = (leftSign(yawRad) * towardCarLeftMm) / 1000;
  return { sinksMm: known.sinksMmPerM * Math.abs(alongYM), rollRad: -known.tiltRadPerM * alongYM };
}

/** Bay height of the floor under a slid target, on the line between the two bar marks. */
function floorUnderMm(estimates: Estimates, fixture: PlacementFixture, yawRad: number, slid: Slid): number {
  const place = slid.towardCarLeftMm + leftSign(yawRad) * fixture.face.acrossMm;
  const weights = floorWeights(fixture.barLength.mm, place);
  const [left, right] = [estimates.point(barMarkId('carLeft')), estimates.point(barMarkId('carRight'))];
  return weights.carLeft * left.zMm + weights.carRight * right.zMm;
}

/** The required pose of a station in the vehicle frame of these estimates. */
export function requiredPose(
  estimates: Estimates,
  frame: VehicleFrame,
  station: StationRequirement,
): TargetPose {
  const ahead = aheadDatumMm(estimates, frame, station.ahead.from) + station.ahead.value;
  const line = lineHeadingRad(estimates, station.left.from);
  const yawRad = lineHeadingRad(estimates, station.yaw.from) + station.yaw.value;
  return {
    at: [ahead, leftOfCentrelineMm(ahead, station.left.value, line), station.up.value],
    rotation: rotationMatrix({ yawRad, pitchRad: station.pitch.value, rollRad: station.roll.value }),
  };
}

/** The turn that carries one rotation into another, as yaw, pitch and roll about the outer frame's axes. */
export function turnBetween(from: Matrix, to: Matrix): YawPitchRoll {
  return yawPitchRoll(multiply(to, transpose(from)));
}

/** Six deviations found minus required, each against its own datum: ahead, left, up in mm, yaw, pitch, roll in radians. */
export function deviations(
  estimates: Estimates,
  frame: VehicleFrame,
  found: TargetPose,
  station: StationRequirement,
): readonly number[] {
  const required = requiredPose(estimates, frame, station);
  const line = lineHeadingRad(estimates, station.left.from);
  const turn = turnBetween(required.rotation, found.rotation);
  return [
    found.at[0] - required.at[0],
    offsetFromLineMm(found.at[0], found.at[1], line) - station.left.value,
    found.at[2] - required.at[2],
    turn.yawRad,
    turn.pitchRad,
    turn.rollRad,
  ];
}
