/** What hands make of a move: near to what was asked, never exactly. */
import type { Move } from '../placement/instruction.ts';
import { type RehearsalState, streamOf } from './rehearsalBay.ts';
import type { Pose6 } from './trueBay.ts';

/** How moves go wrong, one standard deviation each: a share of the amount, and what a stand let go settles by (common practice, no source). */
export const HAND = { share: 0.05, settleMm: 1 } as const;

function partMade(amountMm: number, normal: () => number): number {
  if (amountMm === 0) return 1;
  return 1 + HAND.share * normal() + (HAND.settleMm * normal()) / amountMm;
}

/** The pose after one move. Of a face that looks at the car, pitch and roll of the effect turn the other way in its own frame. */
function afterMove(pose: Pose6, move: Move, normal: () => number): Pose6 {
  const part = partMade(move.amountMm, normal);
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

/** The fixture after the moves were made as asked; `round` makes each time's errors its own. */
export function movedAsAsked(state: RehearsalState, moves: readonly Move[], round: number): RehearsalState {
  const { normal } = streamOf(state.seed, `hand ${round}`);
  return { ...state, pose: moves.reduce((pose, move) => afterMove(pose, move, normal), state.pose) };
}

/** The fixture rolled and turned by hand on the plan: along the car, across it (mm), and about the plumb line (radians). */
export function draggedBy(
  state: RehearsalState,
  by: { readonly aheadMm?: number; readonly leftMm?: number; readonly yawRad?: number },
): RehearsalState {
  const { pose } = state;
  return {
    ...state,
    pose: {
      ...pose,
      ahead: pose.ahead + (by.aheadMm ?? 0),
      left: pose.left + (by.leftMm ?? 0),
      yaw: pose.yaw + (by.yawRad ?? 0),
    },
  };
}
