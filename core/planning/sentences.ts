/** Planning in words: every sentence from the catalogue, amounts rounded and without sign. */
import { type Coordinate, isAngleCoordinate } from '../frames.ts';
import { knownWordKey } from '../placement/names.ts';
import { formatDeg, formatFixed, formatMm, formatShare } from '../units.ts';
import { say, templateOf, type WordKey } from '../words/index.ts';
import type { Alternative } from './alternatives.ts';
import type { Fewest } from './fewest.ts';
import type { LaidOut } from './network.ts';
import { aimOf, type Proof } from './proves.ts';
import type { RankedReading, Ranking } from './rank.ts';
import type { NamedSlots, ObstacleName, PlanningError, PlanTarget } from './types.ts';

/** An amount of a coordinate: millimetres with one decimal, degrees with two. */
export function amountText(coordinate: Coordinate, value: number): string {
  return isAngleCoordinate(coordinate) ? formatDeg(value, 2) : formatMm(value, 1);
}

/** One decimal more, for amounts that are compared with each other. */
function fineText(coordinate: Coordinate, value: number): string {
  return isAngleCoordinate(coordinate) ? formatDeg(value, 3) : formatMm(value, 2);
}

/** A tolerance as amount and coordinate: `3.0 mm to the car's left or right`. */
export function toleranceText(coordinate: Coordinate, halfWidth: number): string {
  return say(`planning.tolerance.${coordinate}`, { amount: amountText(coordinate, halfWidth) });
}

/** What one proof says: `Plumbing the hubs to their marks cannot prove 3.0 mm to the car's left or right: ...`. */
export function proofSentence(proof: Proof): string {
  const { coordinate, outcome, limit } = proof;
  const tolerance =
    proof.halfWidth === Number.POSITIVE_INFINITY
      ? say('planning.tolerance.endless')
      : toleranceText(coordinate, proof.halfWidth);
  const U = amountText(coordinate, proof.U);
  if (outcome === 'proves' && (proof.rule === 'simple' || proof.halfWidth === Number.POSITIVE_INFINITY)) {
    return say('planning.provesAlways', { tolerance, U });
  }
  if (outcome === 'proves') {
    return say('planning.proves', { tolerance, U, room: amountText(coordinate, proof.room) });
  }
  const best = amountText(coordinate, proof.bestU);
  const limited = { limit: say(`planning.limit.${limit.name}`), share: formatShare(limit.share, 0) };
  if (outcome === 'moreWould') return say('planning.moreWould', { tolerance, U, best, ...limited });
  return say('planning.cannot', { tolerance, best, ...limited });
}

/** The name of a reading of a laid-out recipe, or of a thing known beforehand. */
export function planReadingName({ slots }: NamedSlots, key: string): string {
  const slot = slots.find((each) => each.key === key);
  const known = slot?.label ?? knownWordKey(key);
  if (known === undefined || templateOf(known) === undefined) return key;
  const name = say(known as WordKey);
  const [, station] = key.split('@');
  return station === undefined ? name : `${name} (${station})`;
}

const obstacleText = (name: ObstacleName): string => say(`planning.obstacle.${name}`);

/** Several names as one phrase: `a, b and c`. */
export function listText(names: readonly string[]): string {
  const [last, ...before] = names.toReversed();
  if (last === undefined) return '';
  return before.length === 0
    ? last
    : say('planning.and', { first: before.toReversed().join(', '), second: last });
}

/** A blocked reading with what blocks it. */
export function blockedSentence(laid: LaidOut, key: string, by: readonly ObstacleName[]): string {
  return say('planning.blocked', {
    reading: planReadingName(laid, key),
    obstacles: listText(by.map(obstacleText)),
  });
}

/** The tolerance of a target, as amount and coordinate. */
export function targetText(laid: LaidOut, { station, coordinate }: PlanTarget): string {
  const permitted = laid.setUp.stations.find(({ id }) => id === station)?.[coordinate].permitted;
  const halfWidth = permitted === undefined ? Number.POSITIVE_INFINITY : aimOf(permitted).halfWidth;
  return halfWidth === Number.POSITIVE_INFINITY
    ? say('planning.tolerance.endless')
    : toleranceText(coordinate, halfWidth);
}

/** The answer of the search for the fewest readings, one line each. */
export function fewestSentences(laid: LaidOut, fewest: Fewest): readonly string[] {
  switch (fewest.outcome) {
    case 'found': {
      const more = [...fewest.plan].filter(([, times]) => times > 1);
      const head = say('planning.fewest', {
        count: `${fewest.cost}`,
        minutes: formatFixed(Math.ceil(fewest.seconds / 60), 0),
      });
      const without = laid.slots.filter(({ key }) => !fewest.plan.has(key));
      return [
        head,
        ...more.map(([key, times]) =>
          say('planning.fewest.more', { reading: planReadingName(laid, key), times: `${times}` }),
        ),
        ...without.map(({ key }) => say('planning.fewest.without', { reading: planReadingName(laid, key) })),
      ];
    }
    case 'never': {
      const [limit = { name: 'tapes', share: 0 } as const] = fewest.limits;
      const values = { limit: say(`planning.limit.${limit.name}`), share: formatShare(limit.share, 0) };
      return [say('planning.fewest.none', { tolerance: targetText(laid, fewest.target), ...values })];
    }
    case 'tooMany':
      return [say('planning.fewest.tooMany', { tolerance: targetText(laid, fewest.target) })];
    case 'blocked':
      return fewest.readingIds.map((key) =>
        say('planning.fewest.blocked', { reading: planReadingName(laid, key) }),
      );
  }
}

/** One ranked reading: by how much the deciding U falls. */
export function nextSentence(
  laid: LaidOut,
  ranking: Extract<Ranking, { state: 'ranked' }>,
  next: RankedReading,
): string {
  const { coordinate, U } = ranking.deciding;
  return say('planning.next', {
    reading: planReadingName(laid, next.key),
    before: fineText(coordinate, U),
    after: fineText(coordinate, next.UAfter),
  });
}

/** What would prove a tolerance that this plan cannot. */
export function alternativeSentence(
  tolerance: string,
  found: Alternative | undefined,
  coordinate: Coordinate,
): string {
  if (found === undefined) return say('planning.nothingWould', { tolerance });
  return say('planning.wouldProve', {
    recipe: say(`planning.recipe.${found.recipe}`),
    work: say(`planning.work.${found.work}`),
    tolerance,
    U: amountText(coordinate, found.U),
  });
}

/** Why there is no prediction. */
export function planningErrorSentence(error: PlanningError): string {
  switch (error.code) {
    case 'planning/undetermined':
      return say('planning.undetermined', { readings: listText(error.readingIds) });
    case 'planning/datumNotGiven':
      return say('planning.datumNotGiven', { recipe: say(`planning.recipe.${error.recipe}`) });
    case 'planning/impossible':
      return say('planning.impossible', { cause: error.cause });
  }
}
