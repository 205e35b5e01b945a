/**
 * The same technician without looks: from the quick first placement straight to full proof sets, with the ordered moves of
 * `solvePlacement` between them, each off by 5 % of its amount and by 2 mm. It shows what the looks save, and what the moves
 * after a proof set are worth by themselves.
 */
import type { Move } from '../../core/placement/instruction.ts';
import type { Pose6 } from '../../core/rehearsal/trueBay.ts';
import type { Draws } from './draws.ts';
import {
  type Bay,
  type Cell,
  MOST_ROUNDS,
  madeOf,
  measuredAgain,
  type Outcome,
  proofSet,
  stationFor,
  trulyWithin,
} from './technician.ts';

/** The pose after a move as this hand makes it: the predicted effect, as much of it as was made. */
function moved(pose: Pose6, move: Move, draws: Draws): Pose6 {
  const part = move.amountMm === 0 ? 1 : madeOf(move.amountMm, draws) / move.amountMm;
  const effect = move.predictedEffect;
  return {
    ahead: pose.ahead + part * effect.ahead,
    left: pose.left + part * effect.left,
    up: pose.up + part * effect.up,
    yaw: pose.yaw + part * effect.yaw,
    pitch: pose.pitch - part * effect.pitch,
    roll: pose.roll - part * effect.roll,
  };
}

/** The quick first placement before it: one look, two moves. */
const FIRST = { looks: 1, moves: 2, readings: 2 } as const;

/** Places the target by proof sets and ordered moves until the verdict is proven. */
export function placeByProofSets(bay: Bay, cell: Cell, from: Pose6, draws: Draws): Outcome {
  const station = stationFor(cell.toleranceMm);
  let car = bay;
  let pose = from;
  let { looks, moves, readings }: { looks: number; moves: number; readings: number } = FIRST;
  let failedBefore = false;
  for (let round = 1; round <= MOST_ROUNDS; round++) {
    const { answer, taken } = proofSet(car, cell, pose);
    readings += taken;
    const effort = { looks, moves, readings };
    if (answer.worst === 'proven')
      return { rounds: round, pose, within: trulyWithin(pose, station), ...effort };
    const failed = answer.globalTest?.passed === false;
    // What contradicts itself twice, with all of the fixture's readings new, lies with the car: it is measured again.
    if (failed && failedBefore) car = measuredAgain(car, draws);
    failedBefore = failed && !failedBefore;
    const isOff = answer.worst === 'outside' || answer.worst === 'beyond';
    if (failed && !isOff) continue;
    // A set that did not prove is not simply taken again: without a move it is decided at sign-off.
    if (!failed && answer.moves.length === 0) break;
    for (const move of answer.moves) pose = moved(pose, move, draws);
    moves += answer.moves.length;
  }
  return { rounds: undefined, pose, within: trulyWithin(pose, station), looks, moves, readings };
}
