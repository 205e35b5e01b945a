/**
 * Quantiles and probabilities of the normal, Student's t and chi-square distributions, and the coverage factor of
 * an expanded uncertainty. Distribution functions are those of @stdlib; degrees of freedom may be infinite.
 */
import chiSquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import chiSquareQuantileOf from '@stdlib/stats-base-dists-chisquare-quantile';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantileOf from '@stdlib/stats-base-dists-normal-quantile';
import tQuantileOf from '@stdlib/stats-base-dists-t-quantile';
import { invariant } from '../result.ts';

/**
 * Level of confidence of every U we state: 95.45 %, at which k is 2.00 for well known uncertainties and follows
 * Student's t for fewer degrees of freedom (JCGM 100:2008 G.6.4, Table G.2).
 */
export const COVERAGE = 0.9545;

/** From this many degrees of freedom on, t differs from the normal by less than a part in a million. */
const WELL_KNOWN_DOF = 1e6;

/** P(Z <= z) of the standard normal. */
export function normalProbability(z: number): number {
  return normalCdf(z, 0, 1);
}

/** z with P(Z <= z) = p: 1.644854 for 0.95. */
export function normalQuantile(p: number): number {
  return normalQuantileOf(p, 0, 1);
}

/** t with P(T <= t) = p at `dof` degrees of freedom, which need not be whole. */
export function tQuantile(p: number, dof: number): number {
  invariant(dof > 0, `degrees of freedom must be positive, got ${dof}`);
  return dof >= WELL_KNOWN_DOF ? normalQuantile(p) : tQuantileOf(p, dof);
}

/** Value that a chi-square of `dof` exceeds with probability 1 - p. */
export function chiSquareQuantile(p: number, dof: number): number {
  return chiSquareQuantileOf(p, dof);
}

/** P(chi-square of `dof` > value). */
export function chiSquareTail(value: number, dof: number): number {
  return 1 - chiSquareCdf(value, dof);
}

/** Two-sided coverage factor k for a level of confidence: coverageFactor(Infinity) is 2.00, coverageFactor(10) 2.28. */
export function coverageFactor(dof: number, level: number = COVERAGE): number {
  return tQuantile((1 + level) / 2, dof);
}
