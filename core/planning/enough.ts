/**
 * Repeats that prove what once does not: always the one more reading that brings the limit farthest from proof nearest, until
 * every limit is proven. A few dozen predictions, where the exact search for the fewest can take minutes on a tight limit; it
 * may plan a repeat or two more than the fewest.
 */
import { item } from '../linalg/at.ts';
import type { Design } from './design.ts';
import { type Counts, evaluate, planOf } from './evaluate.ts';
import { type Goal, goalsOf, ratiosOf } from './goals.ts';
import { costOf, secondsOf } from './search.ts';
import type { Plan } from './types.ts';

/** A plan that proves every limit. */
export interface Enough {
  readonly plan: Plan;
  readonly cost: number;
  readonly seconds: number;
}

/** More repeats than this nobody takes. */
const MOST_REPEATS = 12;

/** How far the worst limit is from proof; at most 1 when all are proven. Under the whole U the rule itself decides. */
function worstRatio(design: Design, goals: readonly Goal[], counts: Counts): number {
  const evaluation = evaluate(
    design,
    counts,
    goals.map(({ index }) => index),
  );
  if (evaluation === undefined) return Number.POSITIVE_INFINITY;
  const ratios = ratiosOf(goals, evaluation);
  return Math.max(
    0,
    ...goals.map((goal, k) =>
      goal.proven(evaluation, k) ? Math.min(1, item(ratios, k)) : Math.max(item(ratios, k), 1 + 1e-9),
    ),
  );
}

/** Repeats of the recipe's readings that prove every limit; undefined where no planned number of them does. */
export function enough(design: Design): Enough | undefined {
  const { slots } = design.laid;
  const goals = goalsOf(design);
  let counts: Counts = slots.map(() => 1);
  let now = worstRatio(design, goals, counts);
  for (let repeats = 0; now > 1; repeats++) {
    if (repeats === MOST_REPEATS) return undefined;
    const tries = slots.flatMap((slot, i) => {
      if (item(counts, i) >= slot.most) return [];
      const more = counts.map((count, k) => (k === i ? count + 1 : count));
      return [{ more, ratio: worstRatio(design, goals, more) }];
    });
    const [best] = tries.sort((a, b) => a.ratio - b.ratio);
    if (best === undefined || !(best.ratio < now)) return undefined;
    counts = best.more;
    now = best.ratio;
  }
  return { plan: planOf(design, counts), cost: costOf(design, counts), seconds: secondsOf(design, counts) };
}
