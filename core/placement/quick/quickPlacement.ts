/**
 * Quick placement: two readings, a move, two readings, until a proof set would very likely prove what stands there. It keeps
 * the walk short and the proof sets few; it proves nothing itself. `quickPlacement` is the whole of it for a window: from
 * the car's readings and what happened since the fixture was put up to the next two readings, the next move, or the proof set.
 */
import { ok, type Result } from '../../result.ts';
import { formatLength } from '../../units.ts';
import type { MoveKind, NextAction } from '../instruction.ts';
import { readingName } from '../nextAction.ts';
import type { PlacementError } from '../placementError.ts';
import type { PlacementReading } from '../placementReading.ts';
import { uncorrelated } from './belief.ts';
import { quickDefaults } from './defaults.ts';
import { type QuickGround, quickGround, servesQuickly } from './ground.ts';
import { afterLook } from './look.ts';
import { afterMove, quickMove } from './move.ts';
import { coordinatesOf, oddsOf } from './odds.ts';
import { guideSlots, mostTelling } from './telling.ts';
import type { QuickAnswer, QuickInput, QuickKnowledge, QuickMove, QuickNext, QuickStep } from './types.ts';

/** What is known of a fixture that was put up by eye: it stands about where it must, give or take. */
export function putUpByEye({ required }: QuickGround): QuickKnowledge {
  const { planMm, upMm, yawRad, tiltRad } = quickDefaults.byEye;
  return { pose: required, covariance: uncorrelated([planMm, planMm, upMm, yawRad, tiltRad, tiltRad]) };
}

/** What to do with what is believed after so many looks. */
export function quickNext(ground: QuickGround, known: QuickKnowledge, looks: number): QuickNext {
  if (looks >= quickDefaults.mostLooks) return { kind: 'prove' };
  const { first, waiting } = quickMove(ground, known);
  if (first !== undefined) return { kind: 'move', ...first };
  const enough = oddsOf(coordinatesOf(ground, known)) >= quickDefaults.enoughOdds;
  if (enough && !waiting) return { kind: 'prove' };
  const { pair, left } = mostTelling(ground, known);
  if (!waiting && left > quickDefaults.worthALook) return { kind: 'prove' };
  return { kind: 'look', slots: guideSlots(pair) };
}

/** The sentence of a move with the tape held, by its kind. */
const TAPED: Readonly<
  Partial<Record<MoveKind, 'quick.turn' | 'quick.roll' | 'quick.shift' | 'quick.raise'>>
> = {
  turn: 'quick.turn',
  roll: 'quick.roll',
  shift: 'quick.shift',
  raise: 'quick.raise',
};

function actionOf({ recipe }: QuickGround, next: QuickNext): NextAction {
  switch (next.kind) {
    case 'prove':
      return { wordKey: 'quick.prove', values: {} };
    case 'look': {
      const [first] = next.slots;
      return {
        wordKey: 'quick.look',
        values: { reading: first === undefined ? '' : readingName(recipe, first.id) },
      };
    }
    case 'move':
      return moveAction(recipe, next);
  }
}

function moveAction(recipe: QuickGround['recipe'], { move, until }: QuickMove): NextAction {
  const taped = TAPED[move.kind];
  if (until === undefined || taped === undefined) return { wordKey: move.wordKey, values: move.values };
  return {
    wordKey: taped,
    values: { reading: readingName(recipe, until.slot.id), reads: formatLength(until.valueMm, 0, 'mm') },
  };
}

interface Told {
  readonly known: QuickKnowledge;
  readonly looks: number;
}

function after(ground: QuickGround, told: Told, step: QuickStep): Result<Told, PlacementError> {
  const { known, looks } = told;
  switch (step.kind) {
    case 'disturbed':
      return ok({ known: putUpByEye(ground), looks: 0 });
    case 'look': {
      const seen = afterLook(ground, known, step.readings);
      return seen.ok ? ok({ known: seen.value, looks: looks + 1 }) : seen;
    }
    case 'moved': {
      const { first } = quickMove(ground, known);
      return ok({ looks, known: first === undefined ? known : afterMove(ground, known, first) });
    }
  }
}

/** Where quick placement does not serve, or has nothing to stand on yet, the way on is the proof set. */
const NOT_SERVED: QuickAnswer = {
  next: { kind: 'prove' },
  nextAction: { wordKey: 'quick.prove', values: {} },
  coordinates: [],
  odds: 0,
  looks: 0,
};

/**
 * What to do next. Fails with what the car still lacks, or with the readings of a look that cannot be. Where the fixture is
 * of another kind than a bar that looks along the car the answer is at once the proof set.
 */
export function quickPlacement({ placement, steps }: QuickInput): Result<QuickAnswer, PlacementError> {
  if (!servesQuickly(placement)) return ok(NOT_SERVED);
  const ground = quickGround(placement);
  if (!ground.ok) return ground;
  let told: Told = { known: putUpByEye(ground.value), looks: 0 };
  for (const step of steps) {
    const next = after(ground.value, told, step);
    if (!next.ok) return next;
    told = next.value;
  }
  const coordinates = coordinatesOf(ground.value, told.known);
  const next = quickNext(ground.value, told.known, told.looks);
  return ok({
    next,
    nextAction: actionOf(ground.value, next),
    coordinates,
    odds: oddsOf(coordinates),
    looks: told.looks,
  });
}

/**
 * The steps of a job from its record: fixture readings by the set-up they were taken in, and which set-ups began with a move
 * that was asked for (`moveDone`); one that began otherwise is a disturbance. The first reading of a look that still lacks
 * its second one waits for it. Car readings and struck ones are for the caller to leave out.
 */
export function quickSteps(
  readings: readonly PlacementReading[],
  setUps: { readonly first: number; readonly now: number; readonly byMove: ReadonlySet<number> },
): readonly QuickStep[] {
  const steps: QuickStep[] = [];
  for (let setUp = setUps.first; setUp <= setUps.now; setUp++) {
    if (setUp > setUps.first) steps.push({ kind: setUps.byMove.has(setUp) ? 'moved' : 'disturbed' });
    const taken = readings.filter(({ fixtureSetUp }) => fixtureSetUp === setUp);
    const looks = looksOf(taken).filter((look) => look.length === 2 || setUp < setUps.now);
    for (const look of looks) steps.push({ kind: 'look', readings: look });
  }
  return steps;
}

/** Readings of one set-up as looks of two, in the order they were taken; the last may have one reading only. */
function looksOf(readings: readonly PlacementReading[]): readonly (readonly PlacementReading[])[] {
  return readings.flatMap((_, i) => (i % 2 === 0 ? [readings.slice(i, i + 2)] : []));
}
