/** What an answer says about its readings, in sentences: which does not fit, which repeats spread, which control fails. */

import type { PlacementAnswer } from '../../core/placement/placementAnswer.ts';
import type { SuspectFinding } from '../../core/placement/readingFinding.ts';
import { type ReadingSpec, slotKey } from '../../core/placement/recipe.ts';
import { formatDeg } from '../../core/units.ts';
import { say } from '../../core/words/index.ts';
import { lengthText } from './lengthText.ts';
import { readingName, solveTroubleWords, specOfKey } from './solveTroubleWords.ts';

/** What is simply not read yet is said calmly, not as trouble. */
const STILL_OPEN: ReadonlySet<string> = new Set(['vehicle', 'fixture']);

/** So many readings are named one by one; the lap shows the rest. */
const MOST_NAMED = 4;

function amount(id: string, value: number, recipe: readonly ReadingSpec[]): string {
  const spec = recipe.find((each) => id.startsWith(each.id));
  return spec?.unit === 'deg' ? formatDeg(value, 2) : lengthText(value, 1);
}

/** A finding in one sentence, and the names it is about where they are too many to read in passing. */
export interface FindingLine {
  readonly words: string;
  readonly names: readonly string[];
}

const plain = (words: string): FindingLine => ({ words, names: [] });

/**
 * One suspect by name and amount. Several that cannot be told apart: the one to read again first; then all of them, what
 * can be read again before what is known beforehand; no amount, because it would be another for each of them.
 */
function suspectLine(suspect: SuspectFinding, recipe: readonly ReadingSpec[]): FindingLine {
  const [first = ''] = suspect.readingIds;
  if (suspect.readingIds.length === 1) {
    const by = amount(first, suspect.estimatedBlunder, recipe);
    return plain(say('finding.suspect', { reading: readingName(first, recipe), amount: by }));
  }
  const isRead = (id: string): boolean => specOfKey(id, recipe) !== undefined;
  const ids = [...suspect.readingIds.filter(isRead), ...suspect.readingIds.filter((id) => !isRead(id))];
  return {
    words: say('finding.oneOfThese', {
      reading: readingName(suspect.separatedBy ?? ids[0] ?? first, recipe),
    }),
    names: ids.map((id) => readingName(id, recipe)),
  };
}

/** What is not known yet because it is not read yet: what is open, and the reading that comes next. */
export function openWords(answer: PlacementAnswer, recipe: readonly ReadingSpec[]): readonly string[] {
  return answer.problems.flatMap((each) => {
    if (each.code !== 'placement/undetermined' || !STILL_OPEN.has(each.quantity)) return [];
    const open = say(`undetermined.${each.quantity}`);
    const needed = recipe.filter((spec) => each.readingIds.includes(slotKey(spec))).map(slotKey);
    const names = (needed.length === 0 ? each.readingIds : needed).map((id) => readingName(id, recipe));
    if (names.length <= MOST_NAMED) return [say('finding.open', { open, readings: names.join('; ') })];
    const count = String(names.length - MOST_NAMED);
    return [say('finding.openMany', { open, readings: names.slice(0, MOST_NAMED).join('; '), count })];
  });
}

export function findingLines(
  answer: PlacementAnswer,
  recipe: readonly ReadingSpec[],
): readonly FindingLine[] {
  const suspects = answer.suspects.map((suspect) => suspectLine(suspect, recipe));
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
        difference: lengthText(each.differenceMm, 1),
        limit: lengthText(each.limitMm, 1),
      }),
    );
  const disagreement =
    answer.globalTest !== undefined && !answer.globalTest.passed && suspects.length === 0
      ? [say('finding.disagree')]
      : [];
  const problems = answer.problems
    .filter((each) => each.code !== 'placement/undetermined' || !STILL_OPEN.has(each.quantity))
    .flatMap((each) => solveTroubleWords(each, recipe));
  return [...problems.map(plain), ...suspects, ...[...spreads, ...controls, ...disagreement].map(plain)];
}
