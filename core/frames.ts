/**
 * Points and poses that know their frame. The bay frame has any floor mark as origin and Z up by gravity. The
 * vehicle frame has ISO 8855:2011 axes (X ahead, Y left, Z up) with Z along the normal of the plane through the
 * tyre contact patches and its origin at the foot of that normal from the datum point. The fixture frame has
 * its origin at the bar's centre mark and its X along the outward normal of the target face: facing a car from
 * ahead, its Y points to the car's right. Types of different frames cannot be mixed; the only way to make one
 * is its constructor, and the only way between two is a pose that is known.
 */
import { invariant } from './result.ts';
import { type Mm, mm, type Rad, rad } from './units.ts';

declare const frameOf: unique symbol;
type InFrame<F extends string> = { readonly [frameOf]: F };

/** A point in the bay frame, mm; `zMm` is up by gravity. */
export type PointInBay = { readonly xMm: Mm; readonly yMm: Mm; readonly zMm: Mm } & InFrame<'bay'>;
/** A point in the vehicle frame, mm: ahead, to the car's left, up from the plane of the contact patches. */
export type PointInVehicle = {
  readonly aheadMm: Mm;
  readonly leftMm: Mm;
  readonly upMm: Mm;
} & InFrame<'vehicle'>;
/** A point in the fixture frame, mm: out of the target face, to the left of one who looks out of it, up the mast. */
export type PointInFixture = {
  readonly outMm: Mm;
  readonly acrossMm: Mm;
  readonly upMm: Mm;
} & InFrame<'fixture'>;

/** The three rotations of ISO 8855 in radians: yaw positive to the left, pitch positive nose down, roll positive left side up. */
export type Attitude = { readonly yawRad: Rad; readonly pitchRad: Rad; readonly rollRad: Rad };

/** A body's pose in the vehicle frame: its reference point and its attitude (turned by yaw, then pitch, then roll). */
export type PoseInVehicle = {
  readonly aheadMm: Mm;
  readonly leftMm: Mm;
  readonly upMm: Mm;
} & Attitude &
  InFrame<'pose in vehicle'>;
/** A body's pose in the bay frame: its reference point and its attitude (turned by yaw, then pitch, then roll). */
export type PoseInBay = { readonly xMm: Mm; readonly yMm: Mm; readonly zMm: Mm } & Attitude &
  InFrame<'pose in bay'>;

/** The six coordinates of a pose in the vehicle frame, in the order they are printed. */
export const COORDINATES = ['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const;
/** One of the six coordinates of a pose in the vehicle frame. */
export type Coordinate = (typeof COORDINATES)[number];
/** The three coordinates that are lengths. */
export type LengthCoordinate = 'ahead' | 'left' | 'up';
/** The three coordinates that are rotations. */
export type AngleCoordinate = 'yaw' | 'pitch' | 'roll';

/** True for yaw, pitch and roll. */
export function isAngleCoordinate(coordinate: Coordinate): coordinate is AngleCoordinate {
  return coordinate === 'yaw' || coordinate === 'pitch' || coordinate === 'roll';
}

/** A point in the bay frame from millimetres. */
export function pointInBay(xMm: number, yMm: number, zMm: number): PointInBay {
  return { xMm: mm(xMm), yMm: mm(yMm), zMm: mm(zMm) } as PointInBay;
}

/** A point in the vehicle frame from millimetres ahead, left and up. */
export function pointInVehicle(aheadMm: number, leftMm: number, upMm: number): PointInVehicle {
  return { aheadMm: mm(aheadMm), leftMm: mm(leftMm), upMm: mm(upMm) } as PointInVehicle;
}

/** A point in the fixture frame from millimetres out of the face, across and up. */
export function pointInFixture(outMm: number, acrossMm: number, upMm: number): PointInFixture {
  return { outMm: mm(outMm), acrossMm: mm(acrossMm), upMm: mm(upMm) } as PointInFixture;
}

/** The six numbers of a pose, lengths in mm and angles in radians. */
export type PoseNumbers = {
  readonly aheadMm: number;
  readonly leftMm: number;
  readonly upMm: number;
  readonly yawRad: number;
  readonly pitchRad: number;
  readonly rollRad: number;
};

/** A pose in the vehicle frame. */
export function poseInVehicle(numbers: PoseNumbers): PoseInVehicle {
  return {
    aheadMm: mm(numbers.aheadMm),
    leftMm: mm(numbers.leftMm),
    upMm: mm(numbers.upMm),
    yawRad: rad(numbers.yawRad),
    pitchRad: rad(numbers.pitchRad),
    rollRad: rad(numbers.rollRad),
  } as PoseInVehicle;
}

/** A pose in the bay frame; `numbers` names the bay's x, y, z in millimetres and the attitude in radians. */
export function poseInBay(numbers: {
  readonly xMm: number;
  readonly yMm: number;
  readonly zMm: number;
  readonly yawRad: number;
  readonly pitchRad: number;
  readonly rollRad: number;
}): PoseInBay {
  return {
    xMm: mm(numbers.xMm),
    yMm: mm(numbers.yMm),
    zMm: mm(numbers.zMm),
    yawRad: rad(numbers.yawRad),
    pitchRad: rad(numbers.pitchRad),
    rollRad: rad(numbers.rollRad),
  } as PoseInBay;
}

/** The number of one coordinate of a pose: mm for ahead, left, up; radians for yaw, pitch, roll. */
export function poseCoordinate(pose: PoseInVehicle, coordinate: Coordinate): number {
  switch (coordinate) {
    case 'ahead':
      return pose.aheadMm;
    case 'left':
      return pose.leftMm;
    case 'up':
      return pose.upMm;
    case 'yaw':
      return pose.yawRad;
    case 'pitch':
      return pose.pitchRad;
    case 'roll':
      return pose.rollRad;
  }
}

/** Where a target stands seen from the car, which decides what "toward the car" means for it. */
export type TargetPlace = 'ahead' | 'behind' | 'carLeft' | 'carRight';

/**
 * Where a target stands: ahead of the front-most or behind the rear-most point of the body, else beside it.
 * `frontMm` and `rearMm` are those two body points' ahead coordinates in the same vehicle frame.
 */
export function targetPlace(
  target: { readonly aheadMm: number; readonly leftMm: number },
  frontMm: number,
  rearMm: number,
): TargetPlace {
  invariant(frontMm > rearMm, `front-most point ${frontMm} must lie ahead of rear-most ${rearMm}`);
  if (target.aheadMm > frontMm) return 'ahead';
  if (target.aheadMm < rearMm) return 'behind';
  return target.leftMm >= 0 ? 'carLeft' : 'carRight';
}
