/** Tails of Fisher's F, and with them the distribution function of Student's t, from @stdlib. */
import fCdf from '@stdlib/stats-base-dists-f-cdf';
import { invariant } from '../result.ts';
import { normalProbability } from './coverage.ts';

/** P(F > value) with these degrees of freedom: the p-value of a ratio of variances. Keeps its digits far out. */
export function fTail(value: number, dofAbove: number, dofBelow: number): number {
  invariant(dofAbove > 0 && dofBelow > 0, `degrees of freedom are positive, got ${dofAbove} and ${dofBelow}`);
  if (value <= 0) return 1;
  // The reciprocal has the degrees of freedom the other way round, and its lower tail is the upper one here.
  return value === Number.POSITIVE_INFINITY ? 0 : fCdf(1 / value, dofBelow, dofAbove);
}

/** P(T <= t) of Student's t; its square is an F with one degree of freedom above. */
export function tProbability(t: number, dof: number): number {
  if (dof === Number.POSITIVE_INFINITY) return normalProbability(t);
  const beyond = fTail(t * t, 1, dof) / 2;
  return t < 0 ? beyond : 1 - beyond;
}
