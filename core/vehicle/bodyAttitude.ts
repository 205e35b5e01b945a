/**
 * How the body lies over the plane of its contact patches: heave, pitch, roll and twist from how much each of its four
 * corners is higher than it should be. Pitch is positive nose down and roll positive left side up (ISO 8855:2011). Four
 * corners fix a plane and one thing more: the twist, which no rigid body has and which therefore shows a wrong reading
 * or a bent body.
 */
import { type KnownPlane, knownPlane, knownPlaneHeight } from '../bay/weightedPlane.ts';
import { type AtWheels, atWheels, wheelList } from '../bay/wheels.ts';
import { err, invariant, ok, type Result } from '../result.ts';
import type { KnownAngle } from './wheelGeometry.ts';

/** A corner: where it is in the car (ahead, left) and how much higher than it should be, mm, with its u. */
export interface BodyCorner {
  readonly aheadMm: number;
  readonly leftMm: number;
  readonly raisedMm: number;
  readonly uMm: number;
}

/** A height with its u, mm. */
export interface KnownMm {
  readonly mm: number;
  readonly uMm: number;
}

/** The body's attitude over the contact plane; angles of a few degrees at most. */
export interface BodyAttitude {
  /** How much the body is raised above the middle of its corners. */
  readonly heave: KnownMm;
  readonly pitch: KnownAngle;
  readonly roll: KnownAngle;
  /** Front left plus rear right minus the other two: 0 for a rigid body that is read right. */
  readonly twist: KnownMm;
  readonly plane: KnownPlane;
}

/** Corners that fix no plane. */
export interface BodyCornersError {
  readonly code: 'vehicle/cornersNotApart';
}

/** The attitude from four corners, each weighed alike. */
export function bodyAttitude(corners: AtWheels<BodyCorner>): Result<BodyAttitude, BodyCornersError> {
  const list = wheelList(corners);
  const heights = list.map((c) => ({ xMm: c.aheadMm, yMm: c.leftMm, zMm: c.raisedMm, uMm: c.uMm }));
  const fit = knownPlane(heights, [1, 1, 1, 1]);
  if (!fit.ok) return err({ code: 'vehicle/cornersNotApart' });
  const plane = fit.value;
  const variance = (k: number): number => plane.covariance.data[4 * k] ?? 0;
  // Where the body rises ahead its nose is up: pitch is minus the slope. The same turn seen across: roll is the slope.
  const slopeAngle = (slope: number, sign: 1 | -1, k: number): KnownAngle => ({
    rad: sign * Math.atan(slope),
    uRad: Math.sqrt(variance(k)) / (1 + slope * slope),
    dof: Number.POSITIVE_INFINITY,
  });
  const { FL, FR, RL, RR } = corners;
  return ok({
    heave: {
      mm: knownPlaneHeight(plane, plane.centreXMm, plane.centreYMm).value,
      uMm: Math.sqrt(variance(0)),
    },
    pitch: slopeAngle(plane.slopeX, -1, 1),
    roll: slopeAngle(plane.slopeY, 1, 2),
    twist: {
      mm: FL.raisedMm + RR.raisedMm - FR.raisedMm - RL.raisedMm,
      uMm: Math.hypot(FL.uMm, FR.uMm, RL.uMm, RR.uMm),
    },
    plane,
  });
}

/** Ride heights as read and as they should be, at known corners; the reading's u and that of the stated height. */
export interface RideHeight {
  readonly aheadMm: number;
  readonly leftMm: number;
  readonly readMm: number;
  readonly statedMm: number;
  readonly uReadMm: number;
  readonly uStatedMm: number;
}

/** The attitude from ride heights (sill or arch over the contact plane) against the stated ones. */
export function attitudeFromRideHeights(
  heights: AtWheels<RideHeight>,
): Result<BodyAttitude, BodyCornersError> {
  return bodyAttitude(
    atWheels((wheel) => {
      const { aheadMm, leftMm, readMm, statedMm, uReadMm, uStatedMm } = heights[wheel];
      return { aheadMm, leftMm, raisedMm: readMm - statedMm, uMm: Math.hypot(uReadMm, uStatedMm) };
    }),
  );
}

/** What the body's attitude does to a sensor fixed to it. */
export interface SensorEffect {
  /** The sensor itself is higher by this, mm. */
  readonly raised: KnownMm;
  /** Its aim along the car turns up by this, rad: minus the pitch. */
  readonly aimUp: KnownAngle;
  /** Its picture turns by the roll, rad. */
  readonly turned: KnownAngle;
  /** Its aim is higher by this at a distance down the road, metres, the sensor's own rise included. */
  readonly higherMetres: number;
}

/** The effect on a sensor at a place in the car, looking along it, told `roadMetres` down the road. */
export function effectAtSensor(
  attitude: BodyAttitude,
  sensor: { readonly aheadMm: number; readonly leftMm: number },
  roadMetres: number,
): SensorEffect {
  invariant(roadMetres > 0, `a distance down the road is positive, got ${roadMetres}`);
  const here = knownPlaneHeight(attitude.plane, sensor.aheadMm, sensor.leftMm);
  const aimUp: KnownAngle = { ...attitude.pitch, rad: -attitude.pitch.rad };
  return {
    raised: { mm: here.value, uMm: here.u },
    aimUp,
    turned: attitude.roll,
    higherMetres: roadMetres * Math.tan(aimUp.rad) + here.value / 1000,
  };
}
