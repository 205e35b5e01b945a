/** What the person at the fixture is told: moves, and the one next thing to do. */
import type { Coordinate } from '../frames.ts';
import type { PlacementWordKey } from '../words/placement.ts';
import type { FixturePart, ReadingSlot } from './placementReading.ts';

/** Kinds of move in the order they are made, so that none undoes one before it. */
export type MoveKind = 'turn' | 'roll' | 'shift' | 'raise' | 'lean' | 'level' | 'setSlide';

/** One instruction to the person at the fixture. */
export interface Move {
  readonly kind: MoveKind;
  /** Key of the whole sentence in the catalogue and the values of its slots, already rounded and worded. */
  readonly wordKey: PlacementWordKey;
  readonly values: Readonly<Record<string, string>>;
  /** How far, at the place that is moved (bar end for a turn, top of the mast for a lean), never negative. */
  readonly amountMm: number;
  /** Turns of the adjuster's screw, where the fixture's data know it. */
  readonly turns?: number;
  /** Past the end of an adjuster: how far, mm. The sentence then says what to do instead. */
  readonly beyondMm?: number;
  /** What it changes in the target's coordinates, found after minus found before; mm and radians. */
  readonly predictedEffect: Readonly<Record<Coordinate, number>>;
  /** Parts of the fixture that the move leaves as they were, so that their readings still hold. */
  readonly keeps?: readonly FixturePart[];
  /** What has to be read again afterwards. */
  readonly thenRead: readonly ReadingSlot[];
}

/** The one line at the top of the screen: one action, at most twelve words. */
export interface NextAction {
  readonly wordKey: PlacementWordKey;
  readonly values: Readonly<Record<string, string>>;
  /** Where the fixture is to be put up next: the id of that stand's station. */
  readonly stand?: string;
}
