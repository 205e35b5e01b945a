/**
 * Toe, thrust and their lengths. Individual toe is against the centreline, positive toe-in: the front of the wheel is
 * nearer the centreline. Two signs of the thrust angle are in print, and every figure says which one it uses.
 */
import { invariant } from '../result.ts';
import { thrustAngleRad } from './datum.ts';

/**
 * `positiveLeft`: (right - left) / 2, the yaw sign of ISO 8855, used inside this program (and the formula of one maker's
 * manual). `positiveRight`: (left - right) / 2, the axle points to the car's right (another maker's description).
 */
export type ThrustConvention = 'positiveLeft' | 'positiveRight';

/** Toe of an axle, rad. */
export interface AxleToe {
  readonly leftRad: number;
  readonly rightRad: number;
}

/** Direction an axle's wheels share, rad, in the sign asked for: +0.20 and +0.10 deg give -0.05 to the left. */
export function axleHeadingRad({ leftRad, rightRad }: AxleToe, convention: ThrustConvention): number {
  const positiveLeft = thrustAngleRad(leftRad, rightRad);
  return convention === 'positiveLeft' ? positiveLeft : -positiveLeft;
}

/** The heading of a wheel in the vehicle frame, rad, positive to the car's left, from its toe; and back again. */
export function headingFromToeRad(toeRad: number, side: 'left' | 'right'): number {
  return side === 'left' ? -toeRad : toeRad;
}

/**
 * Toe of one wheel from two horizontal distances to a line parallel to the centreline outside the wheel, taken at the
 * rim's front and rear, `spanMm` apart along the rim: positive when the front is farther from that line.
 */
export function toeFromRimRad(frontGapMm: number, rearGapMm: number, spanMm: number): number {
  const sine = (frontGapMm - rearGapMm) / spanMm;
  invariant(spanMm > 0 && Math.abs(sine) < 1, `gaps of ${frontGapMm} and ${rearGapMm} over ${spanMm} mm`);
  return Math.asin(sine);
}

/** u of that toe, rad, each gap with the same u and the span taken as exact: sqrt 2 u / span at small angles. */
export function toeFromRimUncertaintyRad(gapUMm: number, spanMm: number): number {
  return (Math.SQRT2 * gapUMm) / spanMm;
}

/** Total toe as a length at a measuring diameter, mm, positive toe-in: the rim's rears are this much farther apart. */
export function totalToeLengthMm({ leftRad, rightRad }: AxleToe, measuringDiameterMm: number): number {
  return measuringDiameterMm * (Math.sin(leftRad) + Math.sin(rightRad));
}
