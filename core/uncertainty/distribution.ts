/**
 * The distributions that knowledge of an input is expressed by, with their means and standard deviations
 * (JCGM 101:2008, 6.4 and Table 1). Limits and units are those of the input.
 */
import { assertNever, invariant } from '../result.ts';
import type { Quantity } from './quantity.ts';
import { rectangular, triangular } from './quantity.ts';
import { arcsine, inexactLimits, trapezoidal } from './typeB.ts';

/** A distribution between two limits. */
interface Between {
  readonly lower: number;
  readonly upper: number;
}

/** One input's distribution. */
export type Distribution =
  | { readonly kind: 'normal'; readonly mean: number; readonly u: number }
  /** All values between the limits alike. */
  | ({ readonly kind: 'rectangular' } & Between)
  /** The middle likeliest. */
  | ({ readonly kind: 'triangular' } & Between)
  /** Something that swings evenly between the limits. */
  | ({ readonly kind: 'arcsine' } & Between)
  /** Flat over the share `top` of its width, falling to nothing at the limits. */
  | ({ readonly kind: 'trapezoidal'; readonly top: number } & Between)
  /** Rectangular, with limits themselves known only to +-doubt. */
  | ({ readonly kind: 'curvilinearTrapezoid'; readonly doubt: number } & Between)
  /** Student's t, moved and stretched: mean and s / sqrt n of n = dof + 1 readings (6.4.9). */
  | { readonly kind: 't'; readonly mean: number; readonly scale: number; readonly dof: number };

/**
 * The distribution of a quantity known by value, u and dof: normal when u is well known, else t with u as its scale
 * (JCGM 101:2008 6.4.7, 6.4.9). The t is wider than u says: its standard deviation is u sqrt(dof / (dof - 2)).
 */
export function distributionOf({ value, u, dof }: Quantity): Distribution {
  return dof === Number.POSITIVE_INFINITY
    ? { kind: 'normal', mean: value, u }
    : { kind: 't', mean: value, scale: u, dof };
}

/** Expectation; of a t with one degree of freedom or fewer there is none, and its middle is answered. */
export function distributionMean(distribution: Distribution): number {
  switch (distribution.kind) {
    case 'normal':
    case 't':
      return distribution.mean;
    default:
      return distribution.lower + (distribution.upper - distribution.lower) / 2;
  }
}

/** Standard deviation; infinite for a t of two degrees of freedom or fewer. */
export function distributionDeviation(distribution: Distribution): number {
  const half = 'lower' in distribution ? (distribution.upper - distribution.lower) / 2 : 0;
  switch (distribution.kind) {
    case 'normal':
      return distribution.u;
    case 'rectangular':
      return rectangular(half);
    case 'triangular':
      return triangular(half);
    case 'arcsine':
      return arcsine(half);
    case 'trapezoidal':
      return trapezoidal(half, distribution.top);
    case 'curvilinearTrapezoid':
      return inexactLimits(half, distribution.doubt);
    case 't': {
      const { scale, dof } = distribution;
      return dof > 2 ? scale * Math.sqrt(dof / (dof - 2)) : Number.POSITIVE_INFINITY;
    }
    default:
      return assertNever(distribution);
  }
}

/** Throws on a distribution that cannot be: limits in the wrong order, a negative u, a doubt wider than the limits. */
export function checkDistribution(distribution: Distribution): void {
  const said = JSON.stringify(distribution);
  if ('lower' in distribution) {
    invariant(distribution.lower < distribution.upper, `limits run from lower to upper: ${said}`);
  }
  const { kind } = distribution;
  if (kind === 'normal') invariant(distribution.u >= 0, `u is not negative: ${said}`);
  if (kind === 't') invariant(distribution.scale >= 0 && distribution.dof > 0, `scale and dof: ${said}`);
  if (kind === 'trapezoidal') {
    invariant(distribution.top >= 0 && distribution.top <= 1, `the top is a share, 0 to 1: ${said}`);
  }
  if (kind === 'curvilinearTrapezoid') {
    const { doubt, lower, upper } = distribution;
    invariant(doubt >= 0 && 2 * doubt <= upper - lower, `limits may not pass each other: ${said}`);
  }
}
