/** Conditions that many procedures ask for, to be picked instead of typed; the words are taken as they read when picked. */
import { say } from '../../core/words/index.ts';
import type { ConditionDraft } from './procedureDraft.ts';

export const LISTED_CONDITIONS = [
  'tyrePressures',
  'loadEmpty',
  'fuelFull',
  'suspensionNormal',
  'steeringStraight',
  'nobodyAboard',
  'doorsShut',
  'batterySupport',
  'glassClean',
  'coverClean',
  'targetWhole',
  'nothingAlike',
] as const;
export type ListedCondition = (typeof LISTED_CONDITIONS)[number];

function listed(id: ListedCondition): ConditionDraft {
  return {
    kind: 'confirm',
    id,
    text: say(`listedCondition.${id}`),
    caution: '',
    blocking: true,
    unit: '',
    least: '',
    most: '',
    choices: [],
  };
}

/** Exactly these of the list, beside whatever else is there; those already there stay as they are. */
export function withListed(
  conditions: readonly ConditionDraft[],
  chosen: readonly string[],
): readonly ConditionDraft[] {
  const own = conditions.filter((each) => !LISTED_CONDITIONS.some((id) => id === each.id));
  const picked = LISTED_CONDITIONS.filter((id) => chosen.includes(id)).map(
    (id) => conditions.find((each) => each.id === id) ?? listed(id),
  );
  return [...picked, ...own];
}
