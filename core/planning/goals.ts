/** What a search has to reach: every coordinate with a tolerance, as the largest variance that the rule could still prove. */
import { at } from '../linalg/at.ts';
import { coverageFactor } from '../uncertainty/coverage.ts';
import { GUARD_FACTOR } from '../uncertainty/decision.ts';
import type { Design } from './design.ts';
import { dofOf, type Evaluation } from './evaluate.ts';
import { aimOf, provable } from './proves.ts';
import type { PlanTarget } from './types.ts';

/** One coordinate to prove. */
export interface Goal {
  /** Its place in `design.targets`. */
  readonly index: number;
  readonly target: PlanTarget;
  /** No larger variance proves it: exact for `guarded`, and for `fullU` at the least coverage factor there is. */
  readonly mostVariance: number;
  /** Whether it is proven; `k` is its place among the goals, as in an evaluation of them. */
  proven(evaluation: Evaluation, k: number): boolean;
}

/** The goals of a design; under simple acceptance, which guards nothing, there are none. */
export function goalsOf(design: Design): readonly Goal[] {
  const { stations, decisionRule: rule } = design.laid.setUp;
  if (rule === 'simple') return [];
  const factor = rule === 'guarded' ? GUARD_FACTOR : coverageFactor(Number.POSITIVE_INFINITY);
  return design.targets.flatMap((target, index): readonly Goal[] => {
    const station = stations.find(({ id }) => id === target.station);
    const permitted = station?.[target.coordinate].permitted;
    if (permitted === undefined || station?.free?.includes(target.coordinate)) return [];
    const { halfWidth } = aimOf(permitted);
    if (halfWidth === Number.POSITIVE_INFINITY) return [];
    const mostU = halfWidth / factor;
    const proven = (evaluation: Evaluation, k: number): boolean => {
      const u = Math.sqrt(at(evaluation.variance, k));
      const U = rule === 'fullU' ? coverageFactor(dofOf(evaluation, k)) * u : 2 * u;
      return provable({ u, U }, permitted, rule).proven;
    };
    return [{ index, target, mostVariance: mostU * mostU, proven }];
  });
}

/** How far each goal is from proof: variance against the most it may be. */
export function ratiosOf(goals: readonly Goal[], evaluation: Evaluation): readonly number[] {
  return goals.map(({ mostVariance }, k) => at(evaluation.variance, k) / mostVariance);
}
