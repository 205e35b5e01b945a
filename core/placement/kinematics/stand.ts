/**
 * A stand as six numbers that each have their own move, and the rigid body they make. The base is a point of the floor
 * under the pivot; the bar is turned about it, the mast's length carries the target up, and lean and level tilt either
 * the whole stand about lines on the floor or only bar and target about the bar's centre mark. Because the six are the
 * stand's own joints, setting one leaves the others as they are: no move undoes one before it.
 *
 * Lengths in mm in the vehicle frame; turns in radians about the required face's own axes, zero is as required.
 * Limit: the floor under the stand is parallel to the car's plane; after the moves everything is read again anyway.
 */
import { rotate, rotationMatrix, type YawPitchRoll } from '../../geometry/rotation.ts';
import { add, scaled, subtract, type Vec3 } from '../../geometry/vector.ts';
import { type Matrix, multiply } from '../../linalg/matrix.ts';
import type { PlacementFixture } from '../equipment.ts';
import type { FixtureKinematics, Pivot } from './fixtureKinematics.ts';

/** The six numbers of a stand. */
export interface Stand {
  /** The floor point under the pivot, vehicle frame. */
  readonly base: Vec3;
  /** Height of the target's centre over the floor if the stand were upright. */
  readonly mastMm: number;
  readonly turn: YawPitchRoll;
}

/** What a stand is built like: the required attitude its turns are counted from, its fixture, and its pivot. */
export interface StandGeometry {
  readonly required: Matrix;
  readonly fixture: PlacementFixture;
  readonly pivot: Pivot;
}

/** The point under the bar's centre: what a stand turns about when nothing else is known. */
export const CENTRE_PIVOT: Pivot = { outMm: 0, acrossMm: 0 };

/** The rotation of the target's face in the vehicle frame. */
export const attitudeOf = (geometry: StandGeometry, turn: YawPitchRoll): Matrix =>
  multiply(geometry.required, rotationMatrix(turn));

/** The target from the base as a place for a mast of no length and what each millimetre of mast adds. */
interface Reach {
  readonly atNoMast: Vec3;
  readonly perMast: Vec3;
}

/** The stand's tilts: where their line is, or the head. */
function tiltsOf({ lean, level }: FixtureKinematics = {}) {
  return {
    // One tilting head carries both; a fixture with one of each kind is taken by its lean.
    atHead: (lean ?? level)?.where === 'head',
    leanAxisMm: lean?.axisMm ?? 0,
    levelAxisMm: level?.axisMm ?? 0,
  };
}

function reachOf({ required, fixture, pivot }: StandGeometry, turn: YawPitchRoll): Reach {
  const { outMm, acrossMm, upMm } = fixture.face;
  const yaw = rotationMatrix({ yawRad: turn.yawRad, pitchRad: 0, rollRad: 0 });
  const pitch = rotationMatrix({ yawRad: 0, pitchRad: turn.pitchRad, rollRad: 0 });
  const roll = rotationMatrix({ yawRad: 0, pitchRad: 0, rollRad: turn.rollRad });
  const turned = (v: Vec3): Vec3 => rotate(required, rotate(yaw, v));
  const { atHead, leanAxisMm, levelAxisMm } = tiltsOf(fixture.kinematics);
  if (atHead) {
    const head: Vec3 = [-pivot.outMm, -pivot.acrossMm, -upMm];
    const face = rotate(pitch, rotate(roll, [outMm, acrossMm, upMm]));
    return { atNoMast: turned(add(head, face)), perMast: turned([0, 0, 1]) };
  }
  const leanAt = kinematicOffset(fixture.kinematics?.lean !== undefined, leanAxisMm, pivot.outMm);
  const levelAt = kinematicOffset(fixture.kinematics?.level !== undefined, levelAxisMm, pivot.acrossMm);
  const beyond: Vec3 = [outMm - pivot.outMm - leanAt, acrossMm - pivot.acrossMm - levelAt, 0];
  const levelled = add([0, levelAt, 0], rotate(roll, beyond));
  const leaned = add([leanAt, 0, 0], rotate(pitch, levelled));
  return { atNoMast: turned(leaned), perMast: turned(rotate(pitch, rotate(roll, [0, 0, 1]))) };
}

/** A tilt's line from the pivot; one that is not known runs through the pivot itself. */
const kinematicOffset = (known: boolean, axisMm: number, pivotMm: number): number =>
  known ? axisMm - pivotMm : 0;

/** Where the target's centre is, vehicle frame, mm. */
export function targetOf(geometry: StandGeometry, stand: Stand): Vec3 {
  const { atNoMast, perMast } = reachOf(geometry, stand.turn);
  return add(stand.base, add(atNoMast, scaled(perMast, stand.mastMm)));
}

/** The stand that has its target at `at` with these turns, its base on the floor at height `floorUpMm`. */
export function standFor(geometry: StandGeometry, at: Vec3, floorUpMm: number, turn: YawPitchRoll): Stand {
  const { atNoMast, perMast } = reachOf(geometry, turn);
  const mastMm = (at[2] - floorUpMm - atNoMast[2]) / perMast[2];
  return { base: subtract(at, add(atNoMast, scaled(perMast, mastMm))), mastMm, turn };
}
