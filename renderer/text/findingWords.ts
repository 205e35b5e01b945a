/** What an answer says about its readings, in sentences: which does not fit, which repeats spread, which control fails. */
import type { ReadingSpec } from '../../core/placement/recipe.ts';
import type { PlacementAnswer } from '../../core/placement/types.ts';
import { formatDeg, formatMm } from '../../core/units.ts';
import { say } from '../../core/words/index.ts';
import { readingName, solveTroubleWords } from './solveTroubleWords.ts';

/** What is simply not read yet is said by the next action, not as trouble. */
const STILL_OPEN: ReadonlySet<string> = new Set(['vehicle', 'fixture']);

function amount(id: string, value: number, recipe: readonly ReadingSpec[]): string {
  const spec = recipe.find((each) => id.startsWith(each.id));
  return spec?.unit === 'deg' ? formatDeg(value, 2) : formatMm(value, 1);
}

export function findingWords(answer: PlacementAnswer, recipe: readonly ReadingSpec[]): readonly string[] {
  const suspects = answer.suspects.map((suspect) => {
    const [first = ''] = suspect.readingIds;
    const readings = suspect.readingIds.map((id) => readingName(id, recipe)).join('; ');
    const by = amount(first, suspect.estimatedBlunder, recipe);
    return suspect.readingIds.length === 1
      ? say('finding.suspect', { reading: readings, amount: by })
      : say('finding.oneOfThese', { readings, amount: by });
  });
  const spreads = answer.spreads.map((each) =>
    say('finding.spread', {
      reading: readingName(each.id, recipe),
      spread: amount(each.id, each.spread, recipe),
      limit: amount(each.id, each.limit, recipe),
    }),
  );
  const controls = answer.controls
    .filter((each) => !each.agrees)
    .map((each) =>
      say('finding.control', {
        reading: readingName(each.id, recipe),
        difference: formatMm(each.differenceMm, 1),
        limit: formatMm(each.limitMm, 1),
      }),
    );
  const disagreement =
    answer.globalTest !== undefined && !answer.globalTest.passed && suspects.length === 0
      ? [say('finding.disagree')]
      : [];
  const problems = answer.problems
    .filter((each) => each.code !== 'placement/undetermined' || !STILL_OPEN.has(each.quantity))
    .flatMap((each) => solveTroubleWords(each, recipe));
  return [...problems, ...suspects, ...spreads, ...controls, ...disagreement];
}
