/** The verdict on one coordinate or on a position in a plane by the decision rule of the job, and the worst of several. */
import { decideWithinCircle, type PlanDeviation } from '../uncertainty/conformity.ts';
import { type Decision, decide, GUARD_FACTOR } from '../uncertainty/decision.ts';
import type { VerdictName } from './finding.ts';
import type { DecisionRuleName, PermittedDeviation } from './requirement.ts';

/** What a verdict is made from. `consistent` is the global test of the adjustment. */
export interface Judged {
  readonly deviation: number;
  readonly u: number;
  readonly U: number;
  readonly permitted: PermittedDeviation | undefined;
  readonly rule: DecisionRuleName;
  readonly consistent: boolean;
}

/**
 * Verdict and probability of conformity. While the readings contradict each other nothing counts as proven or within:
 * that is "cannot be judged", because a reading is wanted and not another position. The probability is then left out, since
 * it rests on uncertainties that do not hold.
 */
export function judge({ deviation, u, U, permitted, rule, consistent }: Judged): Verdict {
  if (permitted === undefined) return { verdict: 'notJudged' };
  const { lower, upper } = permitted;
  const limits = { ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) };
  return worded(decide(deviation, u, limits, rule, U), consistent);
}

interface Verdict {
  readonly verdict: VerdictName;
  readonly probability?: number;
}

function worded(decision: Decision, consistent: boolean): Verdict {
  const verdict = decision.wording ?? (decision.verdict === 'outside' ? 'outside' : 'proven');
  if (consistent) return { verdict, probability: decision.probability };
  return { verdict: verdict === 'proven' || verdict === 'within' ? 'cannotBeJudged' : verdict };
}

/** What a verdict on a position in a plane is made from; lengths in mm. */
export interface JudgedInPlane {
  readonly found: PlanDeviation;
  readonly radiusMm: number;
  readonly rule: DecisionRuleName;
  readonly consistent: boolean;
}

/** Verdict, probability of conformity over the circle, and the u that the verdict used. */
export function judgeWithinCircle({ found, radiusMm, rule, consistent }: JudgedInPlane): Verdict & {
  readonly u: number;
} {
  const decision = decideWithinCircle(found, radiusMm, rule);
  // The guarded rule's guard band tells which u was taken for this place, whatever rule the job has.
  const u = decideWithinCircle(found, radiusMm, 'guarded').guard / GUARD_FACTOR;
  return { ...worded(decision, consistent), u };
}

/** From best to worst; a coordinate that is not judged does not count against the others. */
const ORDER: readonly VerdictName[] = [
  'notJudged',
  'proven',
  'within',
  'cannotBeJudged',
  'beyond',
  'outside',
];

/** The verdict that decides: the latest in the order proven, within, cannot be judged, beyond, outside. */
export function worstVerdict(verdicts: readonly VerdictName[]): VerdictName {
  return verdicts.reduce<VerdictName>(
    (worst, verdict) => (ORDER.indexOf(verdict) > ORDER.indexOf(worst) ? verdict : worst),
    'notJudged',
  );
}
