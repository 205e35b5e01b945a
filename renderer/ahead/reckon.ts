/**
 * What takes longer than a frame and nobody waits for with a key down: plans of a stand, and the next step of quick placement.
 * Plain questions and plain answers, so that they can be reckoned beside the window. Pure.
 */
import { enoughOf, type JobPlan, type JobPlanError, jobPlan } from '../../core/job/jobPlan.ts';
import type { VehicleFound } from '../../core/placement/found.ts';
import { type QuickAnswer, type QuickStep, quickPlacement } from '../../core/placement/index.ts';
import type { PlacementInput } from '../../core/placement/placementInput.ts';
import type { Enough, NamedSlots } from '../../core/planning/index.ts';
import { ok, type Result } from '../../core/result.ts';
import { inLanguage, type Language } from '../../core/words/index.ts';

interface PlanMatter {
  /** Two questions with the same key have the same answer. */
  readonly key: string;
  readonly input: PlacementInput;
  readonly vehicle: VehicleFound | undefined;
}

export type PlanQuestion = PlanMatter & { readonly ask: 'plan' };
/** How often each reading is to be taken; counted after the plan, for it takes about as long again. */
export type EnoughQuestion = PlanMatter & { readonly ask: 'enough' };

export interface QuickQuestion {
  readonly ask: 'quick';
  readonly key: string;
  /** An answer holds names and turns in words. */
  readonly language: Language;
  readonly placement: PlacementInput;
  readonly steps: readonly QuickStep[];
}

export type Question = PlanQuestion | EnoughQuestion | QuickQuestion;

/** A plan without what only the planner needs. */
export interface CountedPlan extends Pick<JobPlan, 'proofs' | 'carKnown'>, NamedSlots {}

/** The answer to each kind of question. */
export interface Answers {
  readonly plan: Result<CountedPlan, JobPlanError>;
  /** Null where no number of readings proves everything. */
  readonly enough: Enough | null;
  /** Null where quick placement has nothing to stand on. */
  readonly quick: QuickAnswer | null;
}

export type Ask = keyof Answers;

/** An answer as it comes back, to which question; null where the reckoning broke. */
export interface Reply<A extends Ask = Ask> {
  readonly ask: A;
  readonly key: string;
  readonly answer: Answers[A] | null;
}

/** The plan counted last: the question after it nearly always is how often its readings are to be taken. */
let last: { readonly key: string; readonly plan: Result<JobPlan, JobPlanError> } | undefined;

function planOf({ key, input, vehicle }: PlanMatter): Result<JobPlan, JobPlanError> {
  if (last?.key !== key) last = { key, plan: jobPlan(input, vehicle) };
  return last.plan;
}

function countedPlan(question: PlanQuestion): Answers['plan'] {
  const plan = planOf(question);
  if (!plan.ok) return plan;
  const { design, proofs, carKnown } = plan.value;
  return ok({ proofs, carKnown, slots: design.laid.slots.map(({ key, label }) => ({ key, label })) });
}

function enoughAnswer(question: EnoughQuestion): Enough | null {
  const plan = planOf(question);
  return plan.ok ? (enoughOf(plan.value) ?? null) : null;
}

function quickAnswer({ language, placement, steps }: QuickQuestion): QuickAnswer | null {
  const answer = inLanguage(language, () => quickPlacement({ placement, steps }));
  return answer.ok ? answer.value : null;
}

/** Answers one question. */
export function reckon(question: Question): Reply {
  const { ask, key } = question;
  switch (question.ask) {
    case 'plan':
      return { ask, key, answer: countedPlan(question) };
    case 'enough':
      return { ask, key, answer: enoughAnswer(question) };
    case 'quick':
      return { ask, key, answer: quickAnswer(question) };
  }
}
