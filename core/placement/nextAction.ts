/** The one line that says what to do next: one action, in the words of the catalogue. */
import { say } from '../words/index.ts';
import { RECIPE_WORDS, type RecipeWordKey } from '../words/recipe.ts';
import type { StationFinding } from './finding.ts';
import type { Move, NextAction } from './instruction.ts';
import { knownWordKey } from './names.ts';
import type { PlacementError } from './placementError.ts';
import type { ReadingSlot } from './placementReading.ts';
import type { ControlFinding, SuspectFinding } from './readingFinding.ts';
import { type ReadingSpec, slotKey } from './recipe.ts';

/** What the next action follows from. */
export interface NextInput {
  readonly recipe: readonly ReadingSpec[];
  readonly problems: readonly PlacementError[];
  readonly missing: readonly ReadingSlot[];
  readonly suspects: readonly SuspectFinding[];
  readonly controls: readonly ControlFinding[];
  readonly moves: readonly Move[];
  readonly stations: readonly StationFinding[];
}

const isLabel = (label: string): label is RecipeWordKey => Object.hasOwn(RECIPE_WORDS, label);

/** The name of a reading or a known thing by its slot key or share name, in words. */
export function readingName(recipe: readonly ReadingSpec[], key: string): string {
  const known = knownWordKey(key);
  if (known !== undefined) return say(known);
  const label = recipe.find((spec) => slotKey(spec) === key)?.label;
  return label !== undefined && isLabel(label) ? say(label) : key;
}

/** The reading that puts most into the variance of what cannot be judged, leaving out what is only known beforehand. */
function betterReading(stations: readonly StationFinding[]): string | undefined {
  const finding = stations
    .filter((station) => station.basis === 'found')
    .flatMap((station) => [...station.coordinates, ...(station.radial === undefined ? [] : [station.radial])])
    .find((each) => each.verdict === 'cannotBeJudged');
  return finding?.shares.find((share) => knownWordKey(share.readingId) === undefined)?.readingId;
}

/** Slots of one stage of the work; slides and controls wait until the fixture stands right. */
const beforeSlides = (recipe: readonly ReadingSpec[], slot: ReadingSlot): boolean =>
  recipe.find((spec) => slotKey(spec) === slotKey(slot))?.stage !== 'stations';

/**
 * In this order: what is impossible or missing of the car and the fixture, what does not fit (a failed global test always names
 * a suspect, so that no move is ordered while nobody knows where the fixture stands), what does not agree, what must be moved, the slides, a better reading, and at last that everything is proven.
 */
export function nextAction(input: NextInput): NextAction {
  const { recipe, problems, missing, suspects, controls, moves, stations } = input;
  const read = (wordKey: NextAction['wordKey'], key: string): NextAction => ({
    wordKey,
    values: { reading: readingName(recipe, key) },
  });
  const impossible = problems.find(
    (each) => each.code === 'placement/impossible' || each.code === 'placement/sideContradicted',
  );
  const [wrong] = impossible !== undefined && 'readingIds' in impossible ? impossible.readingIds : [];
  if (wrong !== undefined) return read('next.readAgain', wrong);
  const first = missing.find((slot) => beforeSlides(recipe, slot));
  if (first !== undefined) return read('next.read', slotKey(first));
  const [suspect] = suspects;
  const [suspected] = suspect?.readingIds ?? [];
  if (suspect !== undefined && suspected !== undefined) {
    return suspect.readingIds.length > 1
      ? read('next.oneOfThese', suspect.separatedBy ?? suspected)
      : read('next.readAgain', suspected);
  }
  if (controls.some((control) => !control.agrees)) return { wordKey: 'next.control', values: {} };
  const [move] = moves;
  const better = betterReading(stations);
  if (better !== undefined && (move === undefined || move.kind === 'setSlide')) {
    return read('next.betterReading', better);
  }
  if (move !== undefined) return { wordKey: move.wordKey, values: move.values };
  const [later] = missing;
  if (later !== undefined) return read('next.read', slotKey(later));
  if (stations.length === 0) return { wordKey: 'next.noStation', values: {} };
  const proven = stations.every((each) => each.worst === 'proven' || each.worst === 'notJudged');
  return { wordKey: proven ? 'next.proven' : 'next.moveOnce', values: {} };
}
