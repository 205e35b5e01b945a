/**
 * The verdict on one deviation: proven, outside, or not proven, and for the last which of three words holds. Follows
 * the guarded acceptance and guarded rejection of JCGM 106:2012 (clause 8.3, from memory) and the three zones of
 * ISO 14253-1.
 */
import { assertNever, invariant } from '../result.ts';
import { normalProbability } from './coverage.ts';

/**
 * `guarded`: a guard band of 1.645 u, so that at its edge the nearer limit is kept with 95 % probability. `simple`: no
 * guard band. `fullU`: the whole expanded uncertainty as guard band.
 */
export type DecisionRule = 'guarded' | 'simple' | 'fullU';

/** Limits of the deviation; a side without a limit is absent. Symmetric: {lower: -T, upper: T}. Radial: {upper: T}. */
export interface Tolerance {
  readonly lower?: number;
  readonly upper?: number;
}

/** Why a deviation is not proven. */
export type NotProvenWording = 'within' | 'beyond' | 'cannotBeJudged';

/** Verdict with its grounds. All in the unit of the deviation. */
export interface Decision {
  readonly verdict: 'proven' | 'notProven' | 'outside';
  /** Only with `notProven`. */
  readonly wording?: NotProvenWording;
  /** Probability that the true deviation lies within the tolerance, for a normal distribution (JCGM 106 7.2-7.4). */
  readonly probability: number;
  /** Width of the guard band. */
  readonly guard: number;
  readonly rule: DecisionRule;
}

/** One-sided 95 % quantile of the normal distribution, as printed: 1.645 (exact 1.644854). */
export const GUARD_FACTOR = 1.645;

/** Nearer to a limit than this the stricter verdict holds, so that rounding never decides in favour. */
export const STRICTNESS = 1e-9;

/** Verdict on a deviation with standard uncertainty u. `U` is used by `fullU`; absent, it is 2 u. */
export function decide(
  deviation: number,
  u: number,
  tolerance: Tolerance,
  rule: DecisionRule = 'guarded',
  U: number = 2 * u,
): Decision {
  const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = tolerance;
  invariant(lower < upper, `a tolerance runs from lower to upper, got ${lower} to ${upper}`);
  invariant(
    Number.isFinite(deviation) && u >= 0,
    `a deviation and its u are numbers, got ${deviation}, ${u}`,
  );
  const guard = guardBand(rule, u, U);
  // Distance to the nearer limit, positive inside.
  const room = Math.min(upper - deviation, deviation - lower);
  const grounds = { probability: probabilityWithin(deviation, u, tolerance), guard, rule };
  if (room - guard > STRICTNESS) return { verdict: 'proven', ...grounds };
  if (room + guard <= STRICTNESS) return { verdict: 'outside', ...grounds };
  return { verdict: 'notProven', wording: wording(room, u, tolerance), ...grounds };
}

function guardBand(rule: DecisionRule, u: number, U: number): number {
  switch (rule) {
    case 'guarded':
      return GUARD_FACTOR * u;
    case 'simple':
      return 0;
    case 'fullU':
      return U;
    default:
      return assertNever(rule);
  }
}

function wording(room: number, u: number, tolerance: Tolerance): NotProvenWording {
  if (2 * u > permitted(tolerance) - STRICTNESS) return 'cannotBeJudged';
  return room > STRICTNESS ? 'within' : 'beyond';
}

/**
 * What 2 u is compared with: half the width between two limits (T when they are equal), which is all the room the best
 * position has; for one limit, its distance from no deviation. A single limit at no deviation itself leaves room
 * without end on its other side.
 */
function permitted({ lower, upper }: Tolerance): number {
  if (lower !== undefined && upper !== undefined) return (upper - lower) / 2;
  return Math.abs(upper ?? lower ?? 0) || Number.POSITIVE_INFINITY;
}

/** Probability that the true value lies within the limits, for a normal distribution about the deviation found. */
export function probabilityWithin(deviation: number, u: number, tolerance: Tolerance): number {
  const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = tolerance;
  if (u === 0) return deviation >= lower && deviation <= upper ? 1 : 0;
  // The smaller tail is subtracted on its own side, which keeps its digits.
  const below = lower === Number.NEGATIVE_INFINITY ? 0 : normalProbability((lower - deviation) / u);
  const above = upper === Number.POSITIVE_INFINITY ? 0 : normalProbability((deviation - upper) / u);
  return Math.max(0, 1 - below - above);
}
