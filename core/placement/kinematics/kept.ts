/**
 * What a move leaves as it was, so that nobody reads again what has not changed. A base that rolls or turns stands on other
 * floor: nothing is kept. A mast that goes up or down, and a head that tilts, leave the bar's marks on the floor where they
 * are, as long as they do not carry the bar sideways by more than a drop can show. A turn adjuster on the stand leaves the
 * height. What is not known of a fixture counts as moving everything.
 */
import type { Coordinate } from '../../frames.ts';
import type { MoveKind } from '../instruction.ts';
import type { FixturePart } from '../placementReading.ts';
import type { FixtureKinematics } from './fixtureKinematics.ts';

/** Sideways travel of a bar mark that no drop shows, mm: a fifth of what a careful drop is good for (0.8 to 1 mm). */
export const STAYS_WITHIN_MM = 0.2;

/** What of a move decides. */
export interface KeptInput {
  readonly kind: MoveKind;
  readonly kinematics: FixtureKinematics | undefined;
  /** True past the end of an adjuster: then the base is moved. */
  readonly pastEnd: boolean;
  /** What it changes in the target's coordinates. */
  readonly effect: Readonly<Record<Coordinate, number>>;
  readonly halfBarMm: number;
}

/** The parts of the fixture that a move leaves as they were. */
export function keptBy({ kind, kinematics, pastEnd, effect, halfBarMm }: KeptInput): readonly FixturePart[] {
  if (pastEnd) return [];
  switch (kind) {
    case 'turn':
      return kinematics?.turn === undefined ? [] : ['height', 'slide'];
    case 'raise':
      // A leaning mast carries bar and target sideways alike.
      return Math.hypot(effect.ahead, effect.left) <= STAYS_WITHIN_MM ? ['plan', 'slide'] : [];
    case 'lean':
      // The bar itself is the axis: its marks do not move at all.
      return kinematics?.lean?.where === 'head' ? ['plan', 'slide'] : [];
    case 'level': {
      // About the bar's centre the ends come nearer to the middle by half the bar times (1 - cos).
      const nearer = halfBarMm * (1 - Math.cos(Math.hypot(effect.roll, effect.pitch)));
      return kinematics?.level?.where === 'head' && nearer <= STAYS_WITHIN_MM ? ['plan', 'slide'] : [];
    }
    case 'roll':
    case 'shift':
      return [];
    case 'setSlide':
      return ['plan', 'height', 'tilt'];
  }
}
