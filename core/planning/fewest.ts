/**
 * The fewest readings that prove every tolerance with the target at its best: cost is the number of readings, ties go to the
 * shorter work. Costs are tried in rising order, each by an exact search, so that the first that proves is the fewest.
 */

import { at, item } from '../linalg/at.ts';
import { invariant } from '../result.ts';
import { type Box, forcesOf, rowsOfSlots } from './allocation.ts';
import type { Design } from './design.ts';
import { type Counts, evaluate, missingOf, planOf } from './evaluate.ts';
import { type Goal, goalsOf, ratiosOf } from './goals.ts';
import { type Limit, limitsOf } from './limits.ts';
import { blockedReadings } from './lineOfSight.ts';
import { predictCounts } from './predict.ts';
import { endlessCounts } from './proves.ts';
import { ONE_MAY_BE_ABSENT } from './recipes.ts';
import { costOf, Search } from './search.ts';
import type { Plan, PlanTarget } from './types.ts';

/** The answer of the search. */
export type Fewest =
  | { readonly outcome: 'found'; readonly plan: Plan; readonly cost: number; readonly seconds: number }
  /** No number of readings: `limits` is what remains of the variance, the largest part first; `bestU` in mm or rad. */
  | {
      readonly outcome: 'never';
      readonly target: PlanTarget;
      readonly bestU: number;
      readonly limits: readonly Limit[];
    }
  /** It could be proven, but not within the most times each reading is planned. */
  | { readonly outcome: 'tooMany'; readonly target: PlanTarget }
  /** Readings that nothing replaces cannot be taken here. */
  | { readonly outcome: 'blocked'; readonly readingIds: readonly string[] };

/** How often each reading may be taken at most, by slot key; absent ones as in the recipe. */
export type MostTimes = ReadonlyMap<string, number>;

/** The goal farthest from proof, when one is not proven. */
function unproven(design: Design, goals: readonly Goal[], counts: Counts): Goal | undefined {
  const evaluation = evaluate(
    design,
    counts,
    goals.map(({ index }) => index),
  );
  if (evaluation === undefined) return goals[0];
  const ratios = ratiosOf(goals, evaluation);
  const open = goals.map((goal, k) => ({ goal, k })).filter(({ goal, k }) => !goal.proven(evaluation, k));
  return open.sort((a, b) => item(ratios, b.k) - item(ratios, a.k))[0]?.goal;
}

function never(design: Design, goal: Goal, endless: Counts): Fewest {
  const { station, coordinate } = goal.target;
  const found = predictCounts(design, endless)
    ?.find((each) => each.station === station)
    ?.coordinates.find((each) => each.coordinate === coordinate);
  return {
    outcome: 'never',
    target: goal.target,
    bestU: found?.U ?? 0,
    limits: limitsOf(found?.shares ?? []),
  };
}

/** A slot that cannot take more than this share off any goal, however often it is read, is read as seldom as can be. */
const NO_GAIN = 1e-9;

/**
 * The slots worth reading more often, those with the most influence first, which cuts boxes off early. By convexity no count
 * of a slot gains more than the tangent at the poorest plan says.
 */
function worthwhile(design: Design, goals: readonly Goal[], box: Box): readonly number[] {
  const evaluation = evaluate(
    design,
    box.least,
    goals.map(({ index }) => index),
  );
  const order = design.laid.slots.map((_, i) => i);
  if (evaluation === undefined) return order;
  const rows = rowsOfSlots(design);
  const pull = goals.map(({ mostVariance }) => 1 / mostVariance);
  const force = forcesOf(evaluation, pull);
  const gain = (slot: number): number => {
    const [few, many] = [item(box.least, slot), item(box.most, slot)].map((n) =>
      n > 0 ? design.weights(n).weight : undefined,
    );
    return (rows[slot] ?? []).reduce(
      (sum, row) => sum + at(force, row) * ((many ? at(many, row) : 0) - (few ? at(few, row) : 0)),
      0,
    );
  };
  return order.filter((slot) => gain(slot) > NO_GAIN).sort((a, b) => gain(b) - gain(a));
}

/** Boxes with every way of leaving out what may be left out; all their plans hold everything. */
function startBoxes(design: Design, most: Counts): readonly Box[] {
  const { slots } = design.laid;
  const choices: readonly (readonly (string | undefined)[])[] = ONE_MAY_BE_ABSENT.map((set) => [
    undefined,
    ...set.filter((name) => slots.some(({ key }) => key === name)),
  ]);
  const [first = [undefined], second = [undefined]] = choices;
  const absents = first.flatMap((a) => second.map((b) => new Set<string | undefined>([a, b])));
  const boxes = absents.map((absent) => {
    const top = slots.map(({ key }, i) => (absent.has(key) ? 0 : item(most, i)));
    return { least: top.map((count) => Math.min(1, count)), most: top };
  });
  return boxes.filter((box) => missingOf(design, box.least).length === 0);
}

/**
 * The goals that some barest plan does not reach. More readings never raise a variance, so that for the guarded rule the
 * others are reached by every plan and need no further thought. U as a whole could only be trusted to fall with u, so that
 * under `fullU` all goals stay.
 */
function undecided(design: Design, goals: readonly Goal[], boxes: readonly Box[]): readonly Goal[] {
  if (design.laid.setUp.decisionRule !== 'guarded') return goals;
  const indices = goals.map(({ index }) => index);
  const evaluations = boxes.map(({ least }) => evaluate(design, least, indices));
  return goals.filter((goal, k) => evaluations.some((one) => one === undefined || !goal.proven(one, k)));
}

/** Finds the fewest readings; see `Fewest` for the ways it can end. */
export function fewest(design: Design, mostTimes: MostTimes = new Map()): Fewest {
  const { slots } = design.laid;
  const blocked = new Set(blockedReadings(design.laid).map(({ key }) => key));
  const most = slots.map((slot) => (blocked.has(slot.key) ? 0 : (mostTimes.get(slot.key) ?? slot.most)));
  const open = missingOf(design, most);
  if (open.length > 0) return { outcome: 'blocked', readingIds: open };
  const goals = goalsOf(design);
  const endless = endlessCounts(most);
  const impossible = unproven(design, goals, endless);
  if (impossible !== undefined) return never(design, impossible, endless);
  const tooTight = unproven(design, goals, most);
  if (tooTight !== undefined) return { outcome: 'tooMany', target: tooTight.target };
  const starts = startBoxes(design, most);
  const sought = undecided(design, goals, starts);
  const boxes = starts.map((box) => ({ box, open: worthwhile(design, sought, box) }));
  const search = new Search(design, sought, most);
  const cheapest = Math.min(...boxes.map(({ box }) => costOf(design, box.least)));
  const dearest = costOf(design, most);
  for (let cost = cheapest; cost <= dearest; cost++) {
    for (const { box, open: varied } of boxes) search.run(cost, box, varied);
    if (search.best === undefined) continue;
    const { counts, seconds } = search.best;
    return { outcome: 'found', plan: planOf(design, counts), cost, seconds };
  }
  // Only readings that gain next to nothing could still have tipped it.
  const [tightest] = sought;
  invariant(tightest !== undefined, 'without a goal the barest plan is found');
  return { outcome: 'tooMany', target: tightest.target };
}
