/**
 * Toe, total toe, thrust angle and camber of an axle from rim readings, run-out removed, each with its u. Convention:
 * individual toe positive toe-in; thrust angle (right - left) / 2, positive to the car's left, the yaw sign of ISO 8855;
 * makers also print (left - right) / 2, positive to the right, and both are given. Camber positive with the top outward.
 *
 * Three sources of u. Each reading's own, which the mean of two positions halves in variance. The direction of the lines
 * the toes are read from: laid out together they err together, which turns the thrust and leaves the total toe. And what
 * is left of the run-out when the wheel was not turned by exactly half a turn.
 */
import { rectangular } from '../uncertainty/quantity.ts';
import { effectiveDof } from '../uncertainty/welchSatterthwaite.ts';
import { wrapRad } from '../units.ts';
import type { KnownHeading } from './datumLine.ts';
import { type HalfTurnPair, runOutLeftRad, withoutRunOut } from './runOut.ts';

/** An angle with its u and degrees of freedom, rad. */
export interface KnownAngle {
  readonly rad: number;
  readonly uRad: number;
  readonly dof: number;
}

/** One wheel's angles, each read twice half a turn apart, rad. */
export interface WheelReadings {
  /** Positive toe-in, as `toeFromRimRad` gives it. */
  readonly toe: HalfTurnPair;
  /** Positive with the top outward, as `camberFromRimRad` gives it; absent when it was not read. */
  readonly camber?: HalfTurnPair;
}

/** How well the readings of an axle are known. */
export interface RimQuality {
  /** u of one toe reading, and of one camber reading, rad, with the degrees of freedom behind both. */
  readonly uToeRad: number;
  readonly uCamberRad: number;
  readonly dof: number;
  /** u of the direction of the two lines, which were laid out together, against the centreline (or the frame), rad. */
  readonly uLineRad: number;
  /** Largest miss of the half turn, rad: 10 degrees is easily held by a mark on the tyre (common practice, no source). */
  readonly overRad: number;
  /** Run-out that the rim and clamp may have, rad; where the two readings show more, that counts. */
  readonly runOutLimitRad: number;
}

/** What an axle's rims say. */
export interface AxleGeometry {
  readonly toeLeft: KnownAngle;
  readonly toeRight: KnownAngle;
  /** Left plus right, positive toe-in. The lines' direction drops out. */
  readonly totalToe: KnownAngle;
  /** (right - left) / 2, positive to the car's left. */
  readonly thrust: KnownAngle;
  /** The same angle as makers print it who count it positive to the right. */
  readonly thrustPositiveRight: KnownAngle;
  readonly camberLeft: KnownAngle | undefined;
  readonly camberRight: KnownAngle | undefined;
  /** Left minus right. */
  readonly crossCamber: KnownAngle | undefined;
  /** Run-out seen at each wheel in the toe readings, rad. */
  readonly runOutLeftRad: number;
  readonly runOutRightRad: number;
}

/** The mean of a pair with the u of its own readings and of the run-out that may be left in it. */
function mean(
  pair: HalfTurnPair,
  uReadingRad: number,
  quality: RimQuality,
): KnownAngle & { readonly runOutRad: number } {
  const found = withoutRunOut(pair, uReadingRad);
  const largest = Math.max(Math.abs(found.runOutRad), quality.runOutLimitRad);
  const uLeft = rectangular(runOutLeftRad(largest, quality.overRad));
  return {
    rad: found.angleRad,
    uRad: Math.hypot(found.uRad, uLeft),
    dof: effectiveDof([
      { u: found.uRad, dof: quality.dof },
      { u: uLeft, dof: Number.POSITIVE_INFINITY },
    ]),
    runOutRad: found.runOutRad,
  };
}

/** weight . (left, right), plus a shared part that enters with `shared` times its u. */
function combined(
  left: KnownAngle,
  right: KnownAngle,
  weights: readonly [number, number],
  shared = 0,
): KnownAngle {
  const parts = [
    { u: Math.abs(weights[0]) * left.uRad, dof: left.dof },
    { u: Math.abs(weights[1]) * right.uRad, dof: right.dof },
    { u: shared, dof: Number.POSITIVE_INFINITY },
  ];
  return {
    rad: weights[0] * left.rad + weights[1] * right.rad,
    uRad: Math.hypot(...parts.map((part) => part.u)),
    dof: effectiveDof(parts),
  };
}

/** Geometry of an axle from the readings of its two wheels. */
export function axleGeometry(left: WheelReadings, right: WheelReadings, quality: RimQuality): AxleGeometry {
  const toeLeft = mean(left.toe, quality.uToeRad, quality);
  const toeRight = mean(right.toe, quality.uToeRad, quality);
  const thrust = combined(toeLeft, toeRight, [-0.5, 0.5], quality.uLineRad);
  const camberLeft = left.camber && mean(left.camber, quality.uCamberRad, quality);
  const camberRight = right.camber && mean(right.camber, quality.uCamberRad, quality);
  return {
    toeLeft: combined(toeLeft, toeRight, [1, 0], quality.uLineRad),
    toeRight: combined(toeLeft, toeRight, [0, 1], quality.uLineRad),
    totalToe: combined(toeLeft, toeRight, [1, 1]),
    thrust,
    thrustPositiveRight: { ...thrust, rad: -thrust.rad },
    camberLeft: camberLeft && combined(camberLeft, camberLeft, [1, 0]),
    camberRight: camberRight && combined(camberRight, camberRight, [1, 0]),
    crossCamber: camberLeft && camberRight && combined(camberLeft, camberRight, [1, -1]),
    runOutLeftRad: toeLeft.runOutRad,
    runOutRightRad: toeRight.runOutRad,
  };
}

/**
 * The axle's heading in the frame the lines were laid out in, for `thrustLineFromHeadings`: the lines' own heading there
 * plus the thrust angle. How well the lines were laid out is in the thrust's u already.
 */
export function axleHeading(geometry: AxleGeometry, linesHeadingRad: number): KnownHeading {
  const { thrust } = geometry;
  return { headingRad: wrapRad(linesHeadingRad + thrust.rad), uRad: thrust.uRad, dof: thrust.dof };
}
