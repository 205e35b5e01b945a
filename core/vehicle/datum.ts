/**
 * The lines a procedure measures from. The centreline is the X axis of the vehicle frame. The thrust line runs through
 * the rear-axle midpoint along the mean heading of the rear wheels; individual toe is against the centreline, positive
 * toe-in (front of the wheel nearer the centreline).
 */
import { degFromRad } from '../units.ts';

/**
 * The thrust angle in radians, positive to the car's left, the yaw sign of ISO 8855: (right toe - left toe) / 2. Makers'
 * documents also use the opposite sign; here +0.20 deg left and +0.10 deg right give -0.05 deg, to the car's right.
 */
export function thrustAngleRad(rearLeftToeRad: number, rearRightToeRad: number): number {
  return (rearRightToeRad - rearLeftToeRad) / 2;
}

/** Total rear toe in radians, positive toe-in. */
export function totalToeRad(rearLeftToeRad: number, rearRightToeRad: number): number {
  return rearLeftToeRad + rearRightToeRad;
}

/**
 * Perpendicular distance of a place from the line through the origin with heading `lineRad`, positive to the line's
 * left, mm. Heading 0 is the centreline: the result is then `leftMm`.
 */
export function offsetFromLineMm(aheadMm: number, leftMm: number, lineRad: number): number {
  return Math.cos(lineRad) * leftMm - Math.sin(lineRad) * aheadMm;
}

/** The inverse of `offsetFromLineMm` at a given place ahead: how far left of the centreline the place lies, mm. */
export function leftOfCentrelineMm(aheadMm: number, offsetMm: number, lineRad: number): number {
  return (offsetMm + Math.sin(lineRad) * aheadMm) / Math.cos(lineRad);
}

/** True when the two lines differ by more than the expanded uncertainty of their angle: alignment comes first. */
export function linesDiffer(angleRad: number, expandedRad: number): boolean {
  return Math.abs(angleRad) > expandedRad;
}

/** How far apart two lines through one point are at a distance, mm: 0.1 deg at 5 m gives 8.7. */
export function separationMm(angleRad: number, distanceMm: number): number {
  return distanceMm * Math.tan(Math.abs(angleRad));
}

/** Length by which a rim edge pair differs for a toe angle, mm: measuring diameter times the sine. */
export function toeLengthMm(toeRad: number, measuringDiameterMm: number): number {
  return measuringDiameterMm * Math.sin(toeRad);
}

/** The thrust angle's side of the car, for words; `none` within a hundredth of a degree. */
export function thrustSide(angleRad: number): 'carLeft' | 'carRight' | 'none' {
  if (Math.abs(degFromRad(angleRad)) < 0.005) return 'none';
  return angleRad > 0 ? 'carLeft' : 'carRight';
}
