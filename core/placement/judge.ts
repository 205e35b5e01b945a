/** The verdict on one coordinate, and the worst of several. */
import type { DecisionRuleName, PermittedDeviation, VerdictName } from './types.ts';

/** What a verdict is made from. `consistent` is the global test of the adjustment. */
export interface Judged {
  readonly deviation: number;
  readonly u: number;
  readonly permitted: PermittedDeviation | undefined;
  readonly rule: DecisionRuleName;
  readonly consistent: boolean;
}

const GUARD: Readonly<Record<DecisionRuleName, number>> = { guarded: 1.645, simple: 0, fullU: 2 };

/** Verdict and probability of conformity. */
export function judge({ deviation, u, permitted, rule }: Judged): {
  readonly verdict: VerdictName;
  readonly probability?: number;
} {
  if (permitted === undefined) return { verdict: 'notJudged' };
  const lower = permitted.lower ?? Number.NEGATIVE_INFINITY;
  const upper = permitted.upper ?? Number.POSITIVE_INFINITY;
  const guard = GUARD[rule] * u;
  if (deviation + guard <= upper && deviation - guard >= lower) return { verdict: 'proven' };
  if (deviation - guard > upper || deviation + guard < lower) return { verdict: 'outside' };
  return { verdict: deviation >= lower && deviation <= upper ? 'within' : 'beyond' };
}

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
