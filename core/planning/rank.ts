/**
 * The next most valuable reading: each candidate that can be taken here, one more time, by how far the u that decides falls.
 * Exact: every candidate is solved anew, for the one coordinate that matters.
 */
import { at } from '../linalg/at.ts';
import type { PlacementReading } from '../placement/placementReading.ts';
import { slotKey } from '../placement/recipe.ts';
import { coverageFactor } from '../uncertainty/coverage.ts';
import type { Design } from './design.ts';
import { type Counts, countsOf, dofOf, evaluate, missingOf } from './evaluate.ts';
import { blockedReadings } from './lineOfSight.ts';
import { aimOf, provable } from './proves.ts';
import type { Plan, PlanTarget } from './types.ts';

/** One candidate; mm or rad. */
export interface RankedReading {
  readonly key: string;
  /** Which time it would be: 1 for a reading that is not there yet. */
  readonly times: number;
  readonly uAfter: number;
  readonly UAfter: number;
  /** u before less u after. */
  readonly fall: number;
}

/** The coordinate that decides: the one with the least room for its tolerance. */
export interface Deciding extends PlanTarget {
  readonly u: number;
  readonly U: number;
}

/** Candidates ranked, or the readings that are needed before any u exists, in walking order. */
export type Ranking =
  | { readonly state: 'undetermined'; readonly needed: readonly string[] }
  | { readonly state: 'ranked'; readonly deciding: Deciding; readonly candidates: readonly RankedReading[] };

/** The plan that readings amount to: proof readings counted by slot. Give those of the present set-ups (`heldReadings`). */
export function planOfReadings(readings: readonly PlacementReading[]): Plan {
  const plan = new Map<string, number>();
  for (const reading of readings) {
    if (reading.purpose !== 'proof') continue;
    const key = slotKey(reading);
    plan.set(key, (plan.get(key) ?? 0) + 1);
  }
  return plan;
}

/** Falls nearer to each other than this share of u are equal. */
const EQUAL = 1e-9;

/** u and U of one target at counts that hold everything. */
function uAt(design: Design, counts: Counts, target: number): { u: number; U: number } | undefined {
  const evaluation = evaluate(design, counts, [target]);
  if (evaluation === undefined) return undefined;
  const u = Math.sqrt(at(evaluation.variance, 0));
  return { u, U: coverageFactor(dofOf(evaluation, 0)) * u };
}

/** How tight a target is: its guard against the room it has, 1 when it just cannot be proven; 0 without a tolerance. */
function tightness(design: Design, target: PlanTarget, u: number, U: number): number {
  const { stations, decisionRule } = design.laid.setUp;
  const station = stations.find(({ id }) => id === target.station);
  const permitted = station?.[target.coordinate].permitted;
  if (permitted === undefined || station?.free?.includes(target.coordinate)) return 0;
  const { halfWidth } = aimOf(permitted);
  if (halfWidth === Number.POSITIVE_INFINITY) return 0;
  // Without a guard band the rule is never tight; U against the tolerance still tells what is known worst.
  const { room } = provable({ u, U }, permitted, decisionRule === 'simple' ? 'fullU' : decisionRule);
  return (halfWidth - room) / halfWidth;
}

function decidingOf(design: Design, counts: Counts): { index: number; deciding: Deciding } | undefined {
  const evaluation = evaluate(design, counts);
  if (evaluation === undefined) return undefined;
  let best: { index: number; tight: number; deciding: Deciding } | undefined;
  for (const [index, target] of design.targets.entries()) {
    const u = Math.sqrt(at(evaluation.variance, index));
    const U = coverageFactor(dofOf(evaluation, index)) * u;
    const tight = tightness(design, target, u, U);
    if (best === undefined || tight > best.tight) best = { index, tight, deciding: { ...target, u, U } };
  }
  return best;
}

/**
 * Ranks one more of every reading that can be taken here, given what is there already. `most` keeps a reading from being
 * proposed more often than anybody would take it. Equal falls keep walking order.
 */
export function rankNext(design: Design, plan: Plan): Ranking {
  const counts = countsOf(design, plan);
  const missing = missingOf(design, counts);
  const found = missing.length > 0 ? undefined : decidingOf(design, counts);
  if (found === undefined) return { state: 'undetermined', needed: missing };
  const { index, deciding } = found;
  const blocked = new Set(blockedReadings(design.laid).map(({ key }) => key));
  const candidates = design.laid.slots.flatMap((slot, i): readonly RankedReading[] => {
    const count = counts[i] ?? 0;
    if (count >= slot.most || blocked.has(slot.key)) return [];
    const after = uAt(design, counts.with(i, count + 1), index);
    if (after === undefined) return [];
    const { u: uAfter, U: UAfter } = after;
    return [{ key: slot.key, times: count + 1, uAfter, UAfter, fall: deciding.u - uAfter }];
  });
  // Both sides of a car gain alike: what differs by rounding alone keeps its order.
  const steps = ({ fall }: RankedReading): number => Math.round(fall / (EQUAL * deciding.u));
  return { state: 'ranked', deciding, candidates: candidates.toSorted((a, b) => steps(b) - steps(a)) };
}
