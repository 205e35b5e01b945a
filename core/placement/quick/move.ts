/**
 * The moves of quick placement: the same steps as after a proof set, asked for as soon as what a move sets is known as well as
 * a hand can set it; with the tape held while moving where a tape shows the move, so that it ends where the tape reads a
 * number and not where a hand guesses an amount.
 */
import { rotationMatrix } from '../../geometry/rotation.ts';
import type { Move, MoveKind } from '../instruction.ts';
import type { OwnUncertainties } from '../kinematics/steps.ts';
import { movesTo, ownUncertainties } from '../moves.ts';
import { asPose } from '../poses.ts';
import { TAPE_STEP_MM } from '../tape.ts';
import { changed, grown, read, type Six } from './belief.ts';
import { quickDefaults } from './defaults.ts';
import { expectedValue, linearReading, type QuickReading, roundingVariance, slopeOf } from './expected.ts';
import type { QuickGround } from './ground.ts';
import { standing } from './odds.ts';
import type { MoveUntil, QuickKnowledge, QuickMove } from './types.ts';

/**
 * What may be left standing along and about the face's own axes; in the plan the nearer limit counts for both. Never less than
 * the look's own u, below which a deviation cannot be told from none, nor less than a hand can set.
 */
function standingOf(ground: QuickGround, known: QuickKnowledge, own: OwnUncertainties): OwnUncertainties {
  const least = quickDefaults.leastMoveMm;
  const of = (coordinate: Parameters<typeof standing>[2]): number => standing(ground, known, coordinate);
  const plan = Math.min(of('ahead'), of('left'));
  const halfBarMm = ground.fixture.barLength.mm / 2;
  const mastMm = Math.max(halfBarMm, ground.station.up.value);
  return {
    out: Math.max(least, own.out, plan),
    across: Math.max(least, own.across, plan),
    up: Math.max(least, own.up, of('up')),
    yaw: Math.max(least / halfBarMm, own.yaw, of('yaw')),
    pitch: Math.max(least / mastMm, own.pitch, of('pitch')),
    roll: Math.max(least / halfBarMm, own.roll, of('roll')),
  };
}

/** Which of the face's own coordinates a move sets. */
const SETS: Readonly<Record<Exclude<MoveKind, 'setSlide'>, keyof OwnUncertainties>> = {
  turn: 'yaw',
  roll: 'out',
  shift: 'across',
  raise: 'up',
  lean: 'pitch',
  level: 'roll',
};

/** How far off a hand sets an amount that is told, mm, one standard deviation. */
export const handMm = (amountMm: number): number =>
  Math.hypot(quickDefaults.settleMm, quickDefaults.handShare * amountMm);

/** What a move changes for each millimetre it is made. */
export function perMm({ amountMm, predictedEffect }: Move): Six {
  const { ahead, left, up, yaw, pitch, roll } = predictedEffect;
  return [ahead, left, up, yaw, pitch, roll].map((value) => value / Math.max(amountMm, 1e-9));
}

/** True when what the move sets is known as well as a hand sets it, so that another look before it gains nothing. */
function isKnown(known: OwnUncertainties, move: Move, halfBarMm: number, mastMm: number): boolean {
  if (move.kind === 'setSlide') return false;
  const u = known[SETS[move.kind]];
  const lever = move.kind === 'turn' || move.kind === 'level' ? halfBarMm : move.kind === 'lean' ? mastMm : 1;
  return u * lever <= handMm(move.amountMm);
}

/** The first move worth making now, and whether any waits for another look. */
export function quickMove(
  ground: QuickGround,
  known: QuickKnowledge,
): { readonly first?: QuickMove; readonly waiting: boolean } {
  const required = asPose(ground.required);
  const own = ownUncertainties(known.covariance, rotationMatrix(required));
  const heightMm = expectedValue(ground, known.pose, 'target.height');
  const moves = movesTo({
    finding: { required, target: asPose(known.pose), covariance: known.covariance, coordinates: [] },
    fixture: ground.fixture,
    heightMm,
    recipe: ground.recipe,
    standing: standingOf(ground, known, own),
  });
  const halfBarMm = ground.fixture.barLength.mm / 2;
  const move = moves.find((each) => isKnown(own, each, halfBarMm, heightMm));
  if (move === undefined) return { waiting: moves.length > 0 };
  const until = untilOf(ground, known, move);
  return { first: { move, ...(until === undefined ? {} : { until }) }, waiting: true };
}

/** The tapes that can be held while a kind of move is made. */
const HELD: Readonly<Partial<Record<MoveKind, readonly QuickReading[]>>> = {
  turn: ['bar.sameL', 'bar.sameR', 'bar.diagLR', 'bar.diagRL'],
  roll: ['bar.sameL', 'bar.sameR', 'bar.diagLR', 'bar.diagRL'],
  shift: ['bar.sameL', 'bar.sameR', 'bar.diagLR', 'bar.diagRL'],
  raise: ['target.height'],
};

const dot = (a: Six, b: Six): number => a.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0);

/** The tape that shows the move best, and what it must read at its end. Past an adjuster's end no tape is held. */
function untilOf(ground: QuickGround, known: QuickKnowledge, move: Move): MoveUntil | undefined {
  if (move.beyondMm !== undefined) return undefined;
  const after = changed(
    known.pose,
    perMm(move).map((value) => value * move.amountMm),
  );
  const seen = (HELD[move.kind] ?? [])
    .map((id) => ({ id, slope: Math.abs(dot(slopeOf(ground, after, id), perMm(move))) }))
    .sort((a, b) => b.slope - a.slope)[0];
  if (seen === undefined || seen.slope < quickDefaults.leastSlope) return undefined;
  const valueMm = Math.round(expectedValue(ground, after, seen.id) / TAPE_STEP_MM) * TAPE_STEP_MM;
  return { slot: { id: seen.id, purpose: 'guide' }, valueMm };
}

const isQuick = (id: string): id is QuickReading => /^(?:bar\.|target\.height$)/.test(id);

/**
 * What is believed after a move was made as asked. A told amount is off by the hand; a move to a tape's number may have gone
 * any way along itself, but ends where the tape read that number, within the reading's own u and the stand's settling.
 */
export function afterMove(
  ground: QuickGround,
  { pose, covariance }: QuickKnowledge,
  { move, until }: QuickMove,
): QuickKnowledge {
  const along = perMm(move);
  const after = changed(
    pose,
    along.map((value) => value * move.amountMm),
  );
  if (until === undefined || !isQuick(until.slot.id)) {
    const hand = handMm(move.amountMm);
    return { pose: after, covariance: grown(covariance, along, hand * hand) };
  }
  const free = grown(covariance, along, quickDefaults.freeMm * quickDefaults.freeMm);
  const { slope, variance } = linearReading(ground, after, until.slot.id);
  const taped = read(free, { slope, variance: variance + roundingVariance() });
  const beyond = until.valueMm - expectedValue(ground, after, until.slot.id);
  return {
    pose: changed(
      after,
      taped.gain.map((value) => value * beyond),
    ),
    covariance: grown(taped.covariance, along, quickDefaults.settleMm * quickDefaults.settleMm),
  };
}
