/** The eight stages in their usual order, and look-ups over their fields. */
import { bay } from './bay.ts';
import { datum } from './datum.ts';
import { intake } from './intake.ts';
import { outcome } from './outcome.ts';
import { placement } from './placement.ts';
import { prechecks } from './prechecks.ts';
import { signoff } from './signoff.ts';
import type { Field, Stage, StageId } from './stage.ts';
import { stations } from './stations.ts';

export {
  type Choice,
  checkChoices,
  type Field,
  type FieldKind,
  type Need,
  NOT_APPLICABLE,
  type Stage,
  type StageId,
  type Walk,
} from './stage.ts';

export const stages: readonly Stage[] = [
  intake,
  prechecks,
  bay,
  datum,
  placement,
  stations,
  outcome,
  signoff,
];

const byField = new Map<string, { readonly stage: Stage; readonly field: Field }>(
  stages.flatMap((stage) => stage.fields.map((field) => [field.id, { stage, field }] as const)),
);

/** The stage and table row of a field id, or undefined where no stage has it. */
export function fieldById(id: string): { readonly stage: Stage; readonly field: Field } | undefined {
  return byField.get(id);
}

/** One stage by its id. */
export function stageById(id: StageId): Stage {
  const found = stages.find((stage) => stage.id === id);
  if (found === undefined) throw new Error(`no stage ${id}`);
  return found;
}
