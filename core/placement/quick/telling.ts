/**
 * Which two readings tell most next. Every pair is tried on the belief: the one is taken that leaves least uncertainty, each
 * coordinate's variance counted against the room its tolerance leaves, so that what is wide open comes first.
 */
import { COORDINATES } from '../../frames.ts';
import type { PoseCovariance } from '../found.ts';
import type { ReadingSlot } from '../placementReading.ts';
import { type LinearReading, readAll } from './belief.ts';
import { quickDefaults } from './defaults.ts';
import { linearReading, QUICK_READINGS, type QuickReading } from './expected.ts';
import type { QuickGround } from './ground.ts';
import type { QuickKnowledge } from './types.ts';

/** A pair, and what it would leave of the uncertainty there is: 0 all gone, 1 nothing learnt. */
export interface Telling {
  readonly pair: readonly [QuickReading, QuickReading];
  readonly left: number;
}

/** Variance of the judged coordinates, each in units of what matters for it, squared. */
function open(ground: QuickGround, covariance: PoseCovariance): number {
  return ground.rooms.reduce((sum, { coordinate, lower, upper }) => {
    const i = COORDINATES.indexOf(coordinate);
    const least = i < 3 ? quickDefaults.leastMoveMm : quickDefaults.leastMoveMm / LEVER_MM;
    const width = Math.max(least, Math.min(Math.abs(lower), Math.abs(upper)));
    return sum + (covariance[i]?.[i] ?? 0) / (width * width);
  }, 0);
}

/** A millimetre at this distance is an angle worth a move, mm: about half a bar. */
const LEVER_MM = 1000;

/** The most telling pair for what is believed now. */
export function mostTelling(ground: QuickGround, known: QuickKnowledge): Telling {
  const linear = new Map<QuickReading, LinearReading>(
    QUICK_READINGS.map((id) => [id, linearReading(ground, known.pose, id)]),
  );
  const before = open(ground, known.covariance);
  let best: Telling = { pair: ['bar.sameL', 'bar.sameR'], left: Number.POSITIVE_INFINITY };
  QUICK_READINGS.forEach((first, i) => {
    for (const second of QUICK_READINGS.slice(i + 1)) {
      const readings = [first, second].flatMap((id) => linear.get(id) ?? []);
      const left = open(ground, readAll(known.covariance, readings)) / before;
      if (left < best.left) best = { pair: [first, second], left };
    }
  });
  return best;
}

/** The pair as readings to take, for guiding only. */
export const guideSlots = (pair: readonly QuickReading[]): readonly ReadingSlot[] =>
  pair.map((id) => ({ id, purpose: 'guide' }));
