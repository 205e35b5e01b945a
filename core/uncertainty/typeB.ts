/** Standard uncertainties of known limits, beside the rectangular and triangular ones of `quantity.ts`. */
import { invariant } from '../result.ts';

/** Limits +-a of something that swings evenly, such as a cycling temperature: a / sqrt 2 (JCGM 100:2008 H.1.3.4). */
export function arcsine(halfWidth: number): number {
  return halfWidth / Math.SQRT2;
}

/** Limits +-a, all values within +-beta a alike, falling to nothing at the limits: a sqrt((1 + beta^2) / 6) (4.3.9). */
export function trapezoidal(halfWidth: number, beta: number): number {
  invariant(beta >= 0 && beta <= 1, `the top is a part of the base, 0 to 1, got ${beta}`);
  return halfWidth * Math.sqrt((1 + beta * beta) / 6);
}

/** Limits +-a that are themselves known only to +-d: sqrt(a^2 / 3 + d^2 / 9) (JCGM 101:2008 6.4.3.3). */
export function inexactLimits(halfWidth: number, doubt: number): number {
  return Math.sqrt((halfWidth * halfWidth) / 3 + (doubt * doubt) / 9);
}
