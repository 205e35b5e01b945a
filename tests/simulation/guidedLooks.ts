/**
 * The same technician guided by quick placement: put up by eye, then looks of two readings and moves as the product asks for
 * them, until it asks for the proof set. A move with the tape held is made until the tape reads the number told: it ends off
 * by one tape reading with its drop, by half a step of the tape, and by the stand's settling; any other move by the hand's 5 %
 * and 2 mm. Tilts and what a move does not change stay as they are.
 */

import { type QuickGround, quickGround } from '../../core/placement/quick/ground.ts';
import { afterLook } from '../../core/placement/quick/look.ts';
import { afterMove, perMm } from '../../core/placement/quick/move.ts';
import { putUpByEye, quickNext } from '../../core/placement/quick/quickPlacement.ts';
import type { QuickKnowledge, QuickMove } from '../../core/placement/quick/types.ts';
import { type Pose6, trueReadings } from '../../core/rehearsal/trueBay.ts';
import { SQUARE } from '../core/placement/trueLayout.ts';
import { readBy } from './bayErrors.ts';
import type { Draws } from './draws.ts';
import {
  type Bay,
  BY_EYE,
  type Cell,
  CLUMSINESS,
  type Effort,
  MOST_ROUNDS,
  madeOf,
  measuredAgain,
  type Outcome,
  placementOf,
  proofSet,
  stationFor,
  trulyWithin,
} from './technician.ts';

/** Where the target stands, what is believed of it, and what it took. */
export interface Guided {
  readonly pose: Pose6;
  readonly known: QuickKnowledge;
  readonly effort: Effort;
}

/** Put up without a reading: sideways by sight along the car, the mast by its own scale, bubbles; ahead and turn as rolled in. */
export function putUp(start: Pose6, { normal }: Draws): Pose6 {
  const goal = SQUARE.target;
  return {
    ...start,
    left: goal.left + BY_EYE.leftMm * normal(),
    up: goal.up + BY_EYE.upMm * normal(),
    pitch: BY_EYE.tiltRad * normal(),
    roll: BY_EYE.tiltRad * normal(),
  };
}

/** Looks and moves until the proof set is asked for. `before` counts on. */
export function guide(
  bay: Bay,
  ground: QuickGround,
  from: Pick<Guided, 'pose' | 'known'>,
  before: Effort,
  draws: Draws,
): Guided {
  let { pose, known } = from;
  let { looks, moves, readings } = before;
  let fresh = 0;
  for (;;) {
    const next = quickNext(ground, known, fresh);
    if (next.kind === 'prove') return { pose, known, effort: { looks, moves, readings } };
    if (next.kind === 'move') {
      pose = made(bay, pose, next, draws);
      known = afterMove(ground, known, next);
      moves += 1;
      readings += next.until === undefined ? 0 : 1;
      continue;
    }
    const ids = next.slots.map(({ id }) => id);
    bay.person.dropAgain();
    const taken = readBy(bay.person, { ...bay.layout, target: pose }).filter(({ id }) => ids.includes(id));
    const seen = afterLook(ground, known, taken);
    if (!seen.ok) throw new Error(`a look that cannot be: ${seen.error.code}`);
    known = seen.value;
    fresh += 1;
    looks += 1;
    readings += ids.length;
  }
}

/** What quick placement stands on for this car. */
function groundOf(bay: Bay, cell: Cell): QuickGround {
  const ground = quickGround(placementOf(bay, cell, bay.carReadings));
  if (!ground.ok) throw new Error(`no ground: ${ground.error.code}`);
  return ground.value;
}

const NO_EFFORT: Effort = { looks: 0, moves: 0, readings: 0 };

/**
 * The whole of a placement with the product: looks and moves, a proof set, and after one that does not prove looks and moves
 * again, which then know what that proof set read. A round is one full proof set.
 */
export function placeGuided(bay: Bay, cell: Cell, start: Pose6, draws: Draws): Outcome {
  const station = stationFor(cell.toleranceMm);
  let car = bay;
  let ground = groundOf(car, cell);
  let at: Guided = { pose: putUp(start, draws), known: putUpByEye(ground), effort: NO_EFFORT };
  let failedBefore = false;
  /** Whether the last proof set agreed with itself; there is none yet. */
  let agreed = false;
  for (let round = 1; round <= MOST_ROUNDS; round++) {
    const before = at.effort;
    at = guide(car, ground, at, before, draws);
    // A set that did not prove is not simply taken again: where the product asks for nothing more, it is decided at sign-off.
    const nothingAsked = at.effort.looks === before.looks && at.effort.moves === before.moves;
    if (nothingAsked && agreed) break;
    const { answer, fixtureReadings, taken } = proofSet(car, cell, at.pose);
    const effort = { ...at.effort, readings: at.effort.readings + taken };
    if (answer.worst === 'proven') {
      return { rounds: round, pose: at.pose, within: trulyWithin(at.pose, station), ...effort };
    }
    const failed = answer.globalTest?.passed === false;
    // What contradicts itself twice, with all of the fixture's readings new, lies with the car: it is measured again.
    if (failed && failedBefore) {
      car = measuredAgain(car, draws);
      ground = groundOf(car, cell);
      at = { pose: at.pose, known: putUpByEye(ground), effort };
    } else if (failed) {
      // What does not agree with itself is not believed either.
      at = { ...at, effort };
    } else {
      const seen = afterLook(ground, at.known, fixtureReadings);
      if (!seen.ok) throw new Error(`a proof set that cannot be: ${seen.error.code}`);
      at = { pose: at.pose, known: seen.value, effort };
    }
    agreed = !failed;
    failedBefore = failed && !failedBefore;
  }
  return { rounds: undefined, pose: at.pose, within: trulyWithin(at.pose, station), ...at.effort };
}

/** The pose after a move as this hand makes it. */
function made(bay: Bay, pose: Pose6, quick: QuickMove, draws: Draws): Pose6 {
  const { move, until } = quick;
  const along = perMm(move);
  const at = (mm: number): Pose6 => movedBy(pose, along, mm);
  if (until === undefined) return at(madeOf(move.amountMm, draws));
  return at(
    stopMm(bay, at, until.slot.id, until.valueMm, move.amountMm, draws) + CLUMSINESS.mm * draws.normal(),
  );
}

/** Along a move by so many millimetres of it. Of a face that looks back at the car pitch and roll turn the other way. */
function movedBy(pose: Pose6, along: readonly number[], mm: number): Pose6 {
  const [ahead = 0, left = 0, up = 0, yaw = 0, pitch = 0, roll = 0] = along.map((value) => value * mm);
  return {
    ahead: pose.ahead + ahead,
    left: pose.left + left,
    up: pose.up + up,
    yaw: pose.yaw + yaw,
    pitch: pose.pitch - pitch,
    roll: pose.roll - roll,
  };
}

const SECANT_STEPS = 5;

/** How far the move goes until the tape, with its error, reads the number. */
function stopMm(
  bay: Bay,
  at: (mm: number) => Pose6,
  id: string,
  readsMm: number,
  aboutMm: number,
  draws: Draws,
): number {
  const { person, layout, measuring } = bay;
  person.dropAgain();
  const asIs = { beside: person.errors.beside, read: (_key: string, value: number) => value };
  const shown = (mm: number): number =>
    trueReadings({ ...layout, target: at(mm) }, person.truly, measuring.near, asIs)[id]?.value ?? Number.NaN;
  // The error of reading a tape, without the step: the stop is at a line of the scale, seen to half of one.
  const off = heldError(bay, id, readsMm) + draws.between(-0.5, 0.5);
  let [last, now] = [aboutMm - 10, aboutMm];
  let lastMiss = shown(last) + off - readsMm;
  for (let i = 0; i < SECANT_STEPS; i++) {
    const miss = shown(now) + off - readsMm;
    if (Math.abs(miss - lastMiss) < 1e-9) break;
    [last, now, lastMiss] = [now, now - (miss * (now - last)) / (miss - lastMiss), miss];
  }
  return now;
}

/** One error of a tape held while moving: of a height read upright to the face, or of a length along the floor. */
function heldError({ person }: Bay, id: string, valueMm: number): number {
  return id === 'target.height' ? person.errors.read(id, valueMm) - valueMm : person.tapeMm(valueMm);
}
