/**
 * What a plan can prove when the target stands at its best: where, by the rule of the job, the verdict could be "proven",
 * how far the target may then be off, and what stands in the way where it could not. At its best means in the middle of two
 * limits, which for equal ones is no deviation at all.
 */
import type { DecisionRuleName, PermittedDeviation } from '../placement/requirement.ts';
import { decide } from '../uncertainty/decision.ts';
import { planDefaults } from './defaults.ts';
import type { Design } from './design.ts';
import { type Counts, countsOf } from './evaluate.ts';
import { type Limit, limitsOf } from './limits.ts';
import { predictCounts } from './predict.ts';
import type { Plan, PlanTarget, PredictedCoordinate, PredictedStation } from './types.ts';

/** The best place between limits, and how far the nearer limit is from there; mm or rad. */
export interface Aim {
  readonly deviation: number;
  /** Infinity where a single limit lies at or before no deviation: then the target may stand as far on as it takes. */
  readonly halfWidth: number;
}

/** Where to aim within permitted deviations. */
export function aimOf({ lower, upper }: PermittedDeviation): Aim {
  if (lower !== undefined && upper !== undefined) {
    return { deviation: (lower + upper) / 2, halfWidth: (upper - lower) / 2 };
  }
  const reach = upper ?? (lower === undefined ? 0 : -lower);
  return { deviation: 0, halfWidth: reach > 0 ? reach : Number.POSITIVE_INFINITY };
}

/** Whether a u can prove a tolerance at its best, and the room it leaves; mm or rad. */
export interface Provable {
  readonly proven: boolean;
  /** How far the target may be off its best place and still be proven; negative by how much the guard is too wide. */
  readonly room: number;
}

/** Asks the decision rule itself, at the best place: guarded, proven while |d| + 1.645 u <= T. */
export function provable(
  { u, U }: { readonly u: number; readonly U: number },
  permitted: PermittedDeviation,
  rule: DecisionRuleName,
): Provable {
  const { deviation, halfWidth } = aimOf(permitted);
  if (halfWidth === Number.POSITIVE_INFINITY) return { proven: true, room: halfWidth };
  const { lower, upper } = permitted;
  const limits = { ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) };
  const { verdict, guard } = decide(deviation, u, limits, rule, U);
  return { proven: verdict === 'proven', room: halfWidth - guard };
}

/** What a plan proves of one coordinate. */
export interface Proof extends PlanTarget {
  readonly permitted: PermittedDeviation;
  readonly rule: DecisionRuleName;
  readonly halfWidth: number;
  readonly u: number;
  readonly U: number;
  /** `proves`: this plan can. `moreWould`: only more drops or repeats of it. `cannot`: no number of them. */
  readonly outcome: 'proves' | 'moreWould' | 'cannot';
  readonly room: number;
  /** U when every reading is taken however often: what shared errors leave. */
  readonly bestU: number;
  /** The largest part of this plan's variance; for `cannot`, of what repeats leave. */
  readonly limit: Limit;
}

const NOTHING: Limit = { name: 'tapes', share: 0 };

function proofOf(
  target: PlanTarget,
  planned: PredictedCoordinate,
  endless: PredictedCoordinate,
  permitted: PermittedDeviation,
  rule: DecisionRuleName,
): Proof {
  const now = provable(planned, permitted, rule);
  const ever = provable(endless, permitted, rule);
  const outcome = now.proven ? 'proves' : ever.proven ? 'moreWould' : 'cannot';
  const [limit = NOTHING] = limitsOf((outcome === 'cannot' ? endless : planned).shares);
  const { u, U } = planned;
  const { halfWidth } = aimOf(permitted);
  const { station, coordinate } = target;
  const bestU = endless.U;
  return { station, coordinate, permitted, rule, halfWidth, u, U, outcome, room: now.room, bestU, limit };
}

/** Counts however often, of the readings that are taken at all. */
export function endlessCounts(counts: Counts): Counts {
  return counts.map((count) => (count > 0 ? planDefaults.endless : 0));
}

/** Pairs of predictions with the same station and coordinate. */
function pairs(planned: readonly PredictedStation[], endless: readonly PredictedStation[]) {
  return planned.flatMap(({ station, coordinates }, s) =>
    coordinates.flatMap((now, c) => {
      const ever = endless[s]?.coordinates[c];
      return ever === undefined ? [] : [{ station, now, ever }];
    }),
  );
}

/** What a plan proves of every coordinate that has a tolerance; undefined while the plan leaves something open. */
export function whatItProves(design: Design, plan: Plan): readonly Proof[] | undefined {
  const counts = countsOf(design, plan);
  const planned = predictCounts(design, counts);
  const endless = planned && predictCounts(design, endlessCounts(counts));
  if (planned === undefined || endless === undefined) return undefined;
  const rule = design.laid.setUp.decisionRule;
  return pairs(planned, endless).flatMap(({ station, now, ever }) => {
    if (now.permitted === undefined) return [];
    return [proofOf({ station, coordinate: now.coordinate }, now, ever, now.permitted, rule)];
  });
}
