/**
 * Quick placement as plain data: looks of two readings each, moves between them, and what is believed of the pose. All of it
 * guides the hands only. A proof set is solved by `solvePlacement` from proof readings alone and never sees any of this.
 */
import type { Coordinate } from '../../frames.ts';
import type { PoseCovariance } from '../found.ts';
import type { Move, NextAction } from '../instruction.ts';
import type { TargetPose } from '../model.ts';
import type { PlacementInput } from '../placementInput.ts';
import type { PlacementReading, ReadingSlot } from '../placementReading.ts';

/** What is believed of where the target stands: vehicle frame, mm and radians, small turns about the car's axes. */
export interface QuickKnowledge {
  readonly pose: TargetPose;
  readonly covariance: PoseCovariance;
}

/**
 * One thing that happened. `look`: readings of the fixture as it stands (a proof set that did not prove is one of these too).
 * `moved`: the move that was asked for is done. `disturbed`: the fixture was moved otherwise, so that nothing is known.
 */
export type QuickStep =
  | { readonly kind: 'look'; readonly readings: readonly PlacementReading[] }
  | { readonly kind: 'moved' }
  | { readonly kind: 'disturbed' };

/** The car and the fixture as `solvePlacement` takes them (its fixture readings are not used), and what happened since. */
export interface QuickInput {
  readonly placement: PlacementInput;
  readonly steps: readonly QuickStep[];
}

/** What a tape must read at the end of a move: the person moves with the tape held, until it reads this. */
export interface MoveUntil {
  readonly slot: ReadingSlot;
  /** Rounded to the tape's step. */
  readonly valueMm: number;
}

/** A move of quick placement; with `until` its sentence names the tape, and `move` tells the way and the amount. */
export interface QuickMove {
  readonly move: Move;
  readonly until?: MoveUntil;
}

/** What to do next: take a look of two readings, move, or take the proof set. */
export type QuickNext =
  | { readonly kind: 'look'; readonly slots: readonly ReadingSlot[] }
  | ({ readonly kind: 'move' } & QuickMove)
  | { readonly kind: 'prove' };

/** One coordinate as the looks have it. */
export interface QuickCoordinate {
  readonly coordinate: Coordinate;
  /** Found minus required, mm or radians. */
  readonly deviation: number;
  /** Standard uncertainty of the looks, against the car as it was measured. */
  readonly u: number;
  /** How far it may be off for the proof set to prove it by the guarded rule; half the tolerance where none could. */
  readonly room: number;
  /** Probability that a proof set taken now finds it within that room. */
  readonly odds: number;
}

/** Everything a screen shows of quick placement. */
export interface QuickAnswer {
  readonly next: QuickNext;
  /** The one line at the top. */
  readonly nextAction: NextAction;
  /** Judged coordinates only; empty where quick placement does not serve this fixture or the car is not known yet. */
  readonly coordinates: readonly QuickCoordinate[];
  /** Probability that a proof set taken now finds all of them within their rooms. */
  readonly odds: number;
  /** Looks since the fixture was put up or disturbed. */
  readonly looks: number;
}
