/**
 * The confidence ellipse of a point from its 2 by 2 covariance: the axes are the covariance's principal axes
 * (Ghilani, Adjustment Computations, chapter 19), enlarged so that the true point lies inside with 95 %
 * probability when the variances are known beforehand.
 */
import { invariant } from '../result.ts';

/** Covariance of a plan position, mm squared; x and y as in the scene. */
export interface PlanCovariance {
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

/** Semi-axes in mm, the major axis turned from x toward y by `turnRad` in (-pi/2, pi/2]. */
export interface EllipseAxes {
  readonly semiMajorMm: number;
  readonly semiMinorMm: number;
  readonly turnRad: number;
}

/** Square root of the 95 % point of chi-square with two degrees of freedom: -2 ln 0.05 = 5.991465. */
export const ELLIPSE_95 = 2.447747;

/** The ellipse of `factor` standard deviations; a covariance that is not one (negative variance) throws. */
export function errorEllipse(covariance: PlanCovariance, factor: number = ELLIPSE_95): EllipseAxes {
  const { xx, xy, yy } = covariance;
  const mean = (xx + yy) / 2;
  const spread = Math.hypot((xx - yy) / 2, xy);
  // Rounding may leave the smaller eigenvalue of a singular covariance a hair below zero.
  const slack = 1e-9 * (xx + yy);
  invariant(xx >= 0 && yy >= 0 && mean - spread >= -slack, `not a covariance: ${xx}, ${xy}, ${yy}`);
  return {
    semiMajorMm: factor * Math.sqrt(mean + spread),
    semiMinorMm: factor * Math.sqrt(Math.max(0, mean - spread)),
    turnRad: spread === 0 ? 0 : Math.atan2(2 * xy, xx - yy) / 2,
  };
}
