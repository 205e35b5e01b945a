/** Camber: the lean of a wheel out of the vertical of the car's own plane, positive when its top leans outward. */
import { invariant } from '../result.ts';

/**
 * Camber from two horizontal distances to an upright outside the wheel, at the rim's top and bottom, `spanMm` apart:
 * positive when the top is nearer the upright. The upright is plumb; a floor that falls towards this wheel's side by
 * `fallOutwardRad` leans car and wheel outward, which is no camber, and is taken off.
 */
export function camberFromRimRad(
  topGapMm: number,
  bottomGapMm: number,
  spanMm: number,
  fallOutwardRad = 0,
): number {
  const sine = (bottomGapMm - topGapMm) / spanMm;
  invariant(spanMm > 0 && Math.abs(sine) < 1, `gaps of ${topGapMm} and ${bottomGapMm} over ${spanMm} mm`);
  return Math.asin(sine) - fallOutwardRad;
}

/** Left camber minus right camber, rad: positive, the car tends to its left (common practice, no source). */
export function crossCamberRad(leftRad: number, rightRad: number): number {
  return leftRad - rightRad;
}
