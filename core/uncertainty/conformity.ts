/**
 * Probability of conformity of a position in the plane, and what simple numbers say of a guard band (JCGM 106:2012,
 * clauses 7 and 8). For one quantity see `decision.ts`: one-sided, unequal and range tolerances are its `Tolerance`.
 */
import { assertNever, invariant } from '../result.ts';
import { coverageFactor, normalProbability, normalQuantile } from './coverage.ts';
import {
  type Decision,
  type DecisionRule,
  decide,
  GUARD_FACTOR,
  STRICTNESS,
  type Tolerance,
} from './decision.ts';
import { tProbability } from './fDistribution.ts';
import { integral } from './quadrature.ts';

/** A deviation in the plane with its covariance, in one unit. */
export interface PlanDeviation {
  readonly x: number;
  readonly y: number;
  readonly uX: number;
  readonly uY: number;
  /** Correlation coefficient of the two; 0 when absent. */
  readonly r?: number;
}

/** Probability of conformity that `guarded` promises. */
const PROVEN = 0.95;

/** Standard deviations past which a normal density holds less than 1e-17. */
const REACH = 8.5;

/**
 * Probability that the true position lies within `radius` of the required one: the joint normal density about the
 * deviation found, integrated over the circle. With uX = uY = u and no deviation it is 1 - exp(-radius^2 / 2 u^2).
 */
export function probabilityWithinCircle(found: PlanDeviation, radius: number): number {
  const { x, y, r = 0 } = found;
  invariant(radius > 0, `a radial tolerance is positive, got ${radius}`);
  invariant(found.uX >= 0 && found.uY >= 0 && Math.abs(r) <= 1, 'u is not negative and r at most 1');
  const [major, minor, mx, my] = principal(x, y, found.uX, found.uY, r);
  if (major === 0) return mx * mx + my * my <= radius * radius ? 1 : 0;
  // Slices along the longer axis; in each the other coordinate is a plain normal.
  const from = Math.max(-radius, mx - REACH * major);
  const to = Math.min(radius, mx + REACH * major);
  if (from >= to) return 0;
  const slice = (at: number): number => {
    const z = (at - mx) / major;
    const half = Math.sqrt(Math.max(0, radius * radius - at * at));
    return (Math.exp((-z * z) / 2) / (major * Math.sqrt(2 * Math.PI))) * between(my, minor, half);
  };
  // Put on the angle, so that the circle's steep ends are smooth: at = radius sin(angle).
  const angle = (at: number): number => Math.asin(Math.max(-1, Math.min(1, at / radius)));
  const total = integral(
    (t) => slice(radius * Math.sin(t)) * radius * Math.cos(t),
    angle(from),
    angle(to),
    24,
  );
  return Math.max(0, Math.min(1, total));
}

/** P(-half < Y < half), Y normal about `mean`. */
function between(mean: number, u: number, half: number): number {
  if (u === 0) return Math.abs(mean) <= half ? 1 : 0;
  return Math.max(0, 1 - normalProbability((-half - mean) / u) - normalProbability((mean - half) / u));
}

/** The deviation on the axes of its error ellipse: larger and smaller u, and the coordinates along them. */
function principal(
  x: number,
  y: number,
  uX: number,
  uY: number,
  r: number,
): readonly [number, number, number, number] {
  const [xx, yy, xy] = [uX * uX, uY * uY, r * uX * uY];
  const [mean, gap] = [(xx + yy) / 2, Math.hypot((xx - yy) / 2, xy)];
  const turn = 0.5 * Math.atan2(2 * xy, xx - yy);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return [Math.sqrt(mean + gap), Math.sqrt(Math.max(0, mean - gap)), c * x + s * y, c * y - s * x];
}

/**
 * Verdict on a position against a radial tolerance. The distance is what is judged; its u is taken along the deviation
 * (and, for a deviation of nothing, along the ellipse's longer axis), never less than that. The probability is the
 * integral over the circle.
 */
export function decideWithinCircle(
  found: PlanDeviation,
  radius: number,
  rule: DecisionRule = 'guarded',
): Decision {
  const { x, y, uX, uY, r = 0 } = found;
  const distance = Math.hypot(x, y);
  const [major] = principal(x, y, uX, uY, r);
  const along = distance === 0 ? major : Math.sqrt(alongVariance(found, x / distance, y / distance));
  // Near the middle the distance is not normal: there the longer axis speaks, so that U is never understated.
  const u = distance < 2 * major ? major : along;
  const probability = probabilityWithinCircle(found, radius);
  const straight = { ...decide(distance, u, { upper: radius }, rule), probability };
  // A circle curves away from the straight limit the guard band is made for: what it leaves is asked of the integral.
  if (rule !== 'guarded' || straight.verdict !== 'proven' || probability >= PROVEN) return straight;
  return { ...straight, verdict: 'notProven', wording: 'within' };
}

function alongVariance({ uX, uY, r = 0 }: PlanDeviation, cx: number, cy: number): number {
  return Math.max(0, cx * cx * uX * uX + cy * cy * uY * uY + 2 * r * cx * cy * uX * uY);
}

/** As `probabilityWithin`, for a u known with few degrees of freedom: Student's t instead of the normal (7.2.2, note). */
export function probabilityWithinT(deviation: number, u: number, dof: number, tolerance: Tolerance): number {
  const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = tolerance;
  if (u === 0) return deviation >= lower && deviation <= upper ? 1 : 0;
  const below = lower === Number.NEGATIVE_INFINITY ? 0 : tProbability((lower - deviation) / u, dof);
  const above = upper === Number.POSITIVE_INFINITY ? 0 : tProbability((deviation - upper) / u, dof);
  return Math.max(0, 1 - below - above);
}

/** Guard band that keeps a wanted probability of conformity at its edge, one limit counting: 1.645 u for 0.95 (8.3.2). */
export function guardBandFor(probability: number, u: number): number {
  invariant(probability >= 0.5 && probability < 1, `between 0.5 and 1, got ${probability}`);
  return normalQuantile(probability) * u;
}

/** Limits within which a deviation is accepted (8.3): the tolerance less the guard band on each limited side. */
export function acceptanceLimits(
  tolerance: Tolerance,
  u: number,
  rule: DecisionRule,
  U: number = 2 * u,
): Tolerance {
  const guard = guardOf(rule, u, U) + STRICTNESS;
  return {
    ...(tolerance.lower === undefined ? {} : { lower: tolerance.lower + guard }),
    ...(tolerance.upper === undefined ? {} : { upper: tolerance.upper - guard }),
  };
}

function guardOf(rule: DecisionRule, u: number, U: number): number {
  switch (rule) {
    case 'guarded':
      return GUARD_FACTOR * u;
    case 'fullU':
      return U;
    case 'simple':
      return 0;
    default:
      return assertNever(rule);
  }
}

/**
 * Largest u with which a tolerance of this width can be proven at all: the guard bands of its limits must leave room for
 * the best position. For +-T and the guarded rule T / 1.645.
 */
export function largestProvableU(
  tolerance: Tolerance,
  rule: DecisionRule,
  dof = Number.POSITIVE_INFINITY,
): number {
  const { lower, upper } = tolerance;
  if (lower === undefined || upper === undefined) return Number.POSITIVE_INFINITY;
  const perU = guardOf(rule, 1, coverageFactor(dof));
  return perU === 0 ? Number.POSITIVE_INFINITY : (upper - lower) / 2 / perU;
}
