/** A stand's plan as a card says it: a head line, a row a coordinate, what would prove what stays open, how many readings. */
import type { VerdictKind } from '../../core/certificate/document.ts';
import { COORDINATES } from '../../core/frames.ts';
import { type JobPlanError, type PlannedProof, worstOf } from '../../core/job/jobPlan.ts';
import {
  alternativeSentence,
  amountText,
  type Enough,
  type NamedSlots,
  planningErrorSentence,
  planReadingName,
  proofSentence,
  toleranceText,
} from '../../core/planning/index.ts';
import { formatFixed } from '../../core/units.ts';
import { say } from '../../core/words/index.ts';
import type { CountedPlan } from '../ahead/reckon.ts';

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

const KINDS = { cannot: 'outside', moreWould: 'notProven', proves: 'proven' } as const;
const WORDS = {
  cannot: 'planning.card.not',
  moreWould: 'planning.card.moreWould',
  proves: 'planning.card.can',
} as const;

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
      .map(({ proof }) => say(`card.${proof.coordinate}`))
      .join(', ');
  const [cannot, more] = [named('cannot'), named('moreWould')];
  if (rows.length === 0) return say('planning.card.none');
  if (cannot !== '') return say('planning.card.cannot', { coordinates: cannot });
  return more === '' ? say('planning.card.all') : say('planning.card.more', { coordinates: more });
}

/** The words of a plan. */
export function planWords(plan: Pick<CountedPlan, 'proofs' | 'carKnown'>): PlanWords {
  const all = plan.proofs.map(({ proof }) => proof);
  // The station where a coordinate is worst off speaks for all of them.
  const worst = COORDINATES.map((coordinate) => worstOf(all, coordinate));
  const rows = worst.flatMap((each) => plan.proofs.filter(({ proof }) => proof === each));
  const open = rows.flatMap(({ proof, wouldProve }) =>
    proof.outcome === 'proves'
      ? []
      : [
          proofSentence(proof),
          alternativeSentence(toleranceText(proof.coordinate, proof.halfWidth), wouldProve, proof.coordinate),
        ],
  );
  const outcomes = rows.map(({ proof }) => proof.outcome);
  const worstOutcome = (['cannot', 'moreWould'] as const).find((each) => outcomes.includes(each)) ?? 'proves';
  return {
    kind: KINDS[worstOutcome],
    head: headOf(rows),
    rows: rows.map(rowOf),
    open,
    car: plan.carKnown ? '' : say('planning.card.typicalCar'),
  };
}

/** How many readings prove everything and which of them more than once; nothing where none do: the open limits say so. */
export function enoughWords(plan: NamedSlots, found: Enough | null): readonly string[] {
  if (found === null) return [];
  const more = [...found.plan].filter(([, times]) => times > 1);
  return [
    say('planning.card.enough', {
      count: String(found.cost),
      minutes: formatFixed(Math.ceil(found.seconds / 60), 0),
    }),
    ...more.map(([key, times]) =>
      say('planning.fewest.more', { reading: planReadingName(plan, key), times: String(times) }),
    ),
  ];
}

/** Why there is no plan. */
export function noPlanWords(error: JobPlanError): string {
  return error.code === 'planning/otherBody' ? say('planning.card.noPlan') : planningErrorSentence(error);
}
