/** The verdict on one coordinate by the decision rule of the job, and the worst of several. */
import { decide } from '../uncertainty/decision.ts';
import type { DecisionRuleName, PermittedDeviation, VerdictName } from './types.ts';

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
export function judge({ deviation, u, U, permitted, rule, consistent }: Judged): {
  readonly verdict: VerdictName;
  readonly probability?: number;
} {
  if (permitted === undefined) return { verdict: 'notJudged' };
  const { lower, upper } = permitted;
  const limits = { ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) };
  const decision = decide(deviation, u, limits, rule, U);
  const verdict = decision.wording ?? (decision.verdict === 'outside' ? 'outside' : 'proven');
  if (consistent) return { verdict, probability: decision.probability };
  return { verdict: verdict === 'proven' || verdict === 'within' ? 'cannotBeJudged' : verdict };
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
