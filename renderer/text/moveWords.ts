/** A move in a list: what to do, by how many turns, what it should change, what is read again after all of them. */
import { COORDINATES, type Coordinate, isAngleCoordinate, type TargetPlace } from '../../core/frames.ts';
import type { StationFinding } from '../../core/placement/finding.ts';
import type { Move } from '../../core/placement/instruction.ts';
import { type ReadingSpec, slotKey } from '../../core/placement/recipe.ts';
import { formatDeg, radFromDeg } from '../../core/units.ts';
import { deviationInWords, say, withoutThenRead } from '../../core/words/index.ts';
import { lengthText } from './lengthText.ts';
import { moveText } from './moveText.ts';
import { sayKey } from './sayKey.ts';
import { readingName } from './solveTroubleWords.ts';

/** A move's whole sentence: what is kept with the fact that it was done. */
export function moveSentence(move: Move): string {
  return sayKey(move.wordKey, move.values);
}

/** A move without what is to be read after it: in a list all are made first, then everything is read again. */
export function moveAlone(move: Move): string {
  return withoutThenRead(moveText(move));
}

/** Changes below these are not worth a word: nobody could read them. */
const TOLD = { mm: 0.5, rad: radFromDeg(0.02) } as const;
/** The largest changes of a move; a turn about a pivot moves the target too. */
const MOST_EFFECTS = 2;

/** What a move should change at the target, the coordinate that it is made for first. */
export function effectWords(move: Move, station: StationFinding, place: TargetPlace): string {
  const view = { place, facingYawRad: station.required.yawRad };
  const size = (coordinate: Coordinate): number =>
    Math.abs(move.predictedEffect[coordinate]) / (isAngleCoordinate(coordinate) ? TOLD.rad : TOLD.mm);
  const effects = COORDINATES.filter((coordinate) => size(coordinate) >= 1)
    .sort((a, b) => size(b) - size(a))
    .slice(0, MOST_EFFECTS)
    .map((coordinate) => {
      const change = move.predictedEffect[coordinate];
      const amount = isAngleCoordinate(coordinate)
        ? formatDeg(Math.abs(change), 2)
        : lengthText(Math.abs(change), 1);
      return say(deviationInWords(coordinate, change, view).key, { amount });
    });
  return effects.length === 0 ? '' : say('moves.effect', { effects: effects.join('; ') });
}

/** So many readings are named one by one. */
const MOST_NAMED = 3;

/** What is read again after these moves: the readings by name where they are few, else the whole fixture. */
export function thenReadWords(moves: readonly Move[], recipe: readonly ReadingSpec[]): string {
  const keys = new Set(moves.flatMap((move) => move.thenRead.map(slotKey)));
  const named = recipe.filter((spec) => spec.stage === 'placement' && keys.has(slotKey(spec)));
  if (named.length === 0) return '';
  if (named.length > MOST_NAMED) return say('moves.thenReadAll');
  return say('moves.thenRead', {
    readings: named.map((spec) => readingName(slotKey(spec), recipe)).join('; '),
  });
}
