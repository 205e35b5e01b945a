/** A stand's plan as a card says it: a head line, a row a coordinate, what would prove what stays open, the fewest readings. */
import type { VerdictKind } from '../../core/certificate/document.ts';
import { COORDINATES } from '../../core/frames.ts';
import type { JobPlan, JobPlanError, PlannedProof } from '../../core/job/jobPlan.ts';
import {
  alternativeSentence,
  amountText,
  type Fewest,
  fewestSentences,
  planningErrorSentence,
  proofSentence,
  toleranceText,
} from '../../core/planning/index.ts';
import { say } from '../../core/words/index.ts';

export interface PlanRow {
  readonly coordinate: string;
  readonly title: string;
  readonly note: string;
  readonly kind: VerdictKind;
  readonly words: string;
}

export interface PlanWords {
  readonly kind: VerdictKind;
  readonly head: string;
  readonly rows: readonly PlanRow[];
  /** What cannot be proven and what would: two sentences for each limit that stays open. */
  readonly open: readonly string[];
  readonly car: string;
}

const RANK = { cannot: 0, moreWould: 1, proves: 2 } as const;
const KINDS = { cannot: 'outside', moreWould: 'notProven', proves: 'proven' } as const;
const WORDS = {
  cannot: 'planning.card.not',
  moreWould: 'planning.card.moreWould',
  proves: 'planning.card.can',
} as const;

/** The station where a coordinate is worst off speaks for all of them. */
function worst(proofs: readonly PlannedProof[]): PlannedProof | undefined {
  return [...proofs].sort(
    (a, b) => RANK[a.proof.outcome] - RANK[b.proof.outcome] || a.proof.room - b.proof.room,
  )[0];
}

function rowOf({ proof }: PlannedProof): PlanRow {
  const { coordinate, halfWidth } = proof;
  const U = amountText(coordinate, proof.U);
  return {
    coordinate,
    title: say(`card.${coordinate}`),
    note:
      halfWidth === Number.POSITIVE_INFINITY
        ? say('planning.card.rowOpen', { U })
        : say('planning.card.row', { U, limit: amountText(coordinate, halfWidth) }),
    kind: KINDS[proof.outcome],
    words: say(WORDS[proof.outcome]),
  };
}

function headOf(rows: readonly PlannedProof[]): string {
  const named = (outcome: 'cannot' | 'moreWould'): string =>
    rows
      .filter(({ proof }) => proof.outcome === outcome)
      .map(({ proof }) => say(`card.${proof.coordinate}`).toLowerCase())
      .join(', ');
  const [cannot, more] = [named('cannot'), named('moreWould')];
  if (rows.length === 0) return say('planning.card.none');
  if (cannot !== '') return say('planning.card.cannot', { coordinates: cannot });
  return more === '' ? say('planning.card.all') : say('planning.card.more', { coordinates: more });
}

/** The words of a plan. */
export function planWords(plan: JobPlan): PlanWords {
  const rows = COORDINATES.flatMap((coordinate) => {
    const found = worst(plan.proofs.filter(({ proof }) => proof.coordinate === coordinate));
    return found === undefined ? [] : [found];
  });
  const open = rows.flatMap(({ proof, wouldProve }) =>
    proof.outcome === 'proves'
      ? []
      : [
          proofSentence(proof),
          alternativeSentence(toleranceText(proof.coordinate, proof.halfWidth), wouldProve, proof.coordinate),
        ],
  );
  const worstOutcome = worst(rows)?.proof.outcome ?? 'proves';
  return {
    kind: KINDS[worstOutcome],
    head: headOf(rows),
    rows: rows.map(rowOf),
    open,
    car: plan.carKnown ? '' : say('planning.card.typicalCar'),
  };
}

/** The fewest readings that prove everything, or why none do. */
export function fewestWords(plan: JobPlan, found: Fewest): readonly string[] {
  return fewestSentences(plan.design.laid, found);
}

/** Why there is no plan. */
export function noPlanWords(error: JobPlanError): string {
  return error.code === 'planning/otherBody' ? say('planning.card.noPlan') : planningErrorSentence(error);
}
