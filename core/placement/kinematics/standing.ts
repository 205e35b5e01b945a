/**
 * How much of each error may be left standing. A hand sets nothing better than a few per cent and a couple of millimetres, so
 * a move that need not be made can only make worse what is proven already. What lies within one standard uncertainty (half
 * of U) cannot be told from nothing; and what lies within half of the room that its tolerance leaves beside the guard band
 * will be proven where it stands, with the other half for what the moves of the others do to it.
 */

import type { Coordinate } from '../../frames.ts';
import { decide } from '../../uncertainty/decision.ts';
import type { CoordinateFinding } from '../finding.ts';
import type { DecisionRuleName } from '../requirement.ts';
import type { OwnUncertainties } from './steps.ts';

/** Half of the room beside the guard band on either side of no deviation; 0 where there is none, or no tolerance. */
function halfRoom({ u, U, permitted }: CoordinateFinding, rule: DecisionRuleName): number {
  if (permitted === undefined) return 0;
  const { lower, upper } = permitted;
  const limits = { ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) };
  // A rule without a guard band proves nothing by itself: what may stand is never more than under the default one.
  const guard = Math.max(...([rule, 'guarded'] as const).map((each) => decide(0, u, limits, each, U).guard));
  const nearer = Math.min(upper ?? Number.POSITIVE_INFINITY, -(lower ?? Number.NEGATIVE_INFINITY));
  return Math.max(0, (nearer - guard) / 2);
}

/** The thresholds of a station's steps: u, or half of the room where that is more. In the plan the nearer limit counts. */
export function mayStand(
  u: OwnUncertainties,
  coordinates: readonly CoordinateFinding[],
  rule: DecisionRuleName,
): OwnUncertainties {
  const room = (coordinate: Coordinate): number => {
    const finding = coordinates.find((each) => each.coordinate === coordinate);
    return finding === undefined ? 0 : halfRoom(finding, rule);
  };
  const plan = Math.min(room('ahead'), room('left'));
  return {
    out: Math.max(u.out, plan),
    across: Math.max(u.across, plan),
    up: Math.max(u.up, room('up')),
    yaw: Math.max(u.yaw, room('yaw')),
    pitch: Math.max(u.pitch, room('pitch')),
    roll: Math.max(u.roll, room('roll')),
  };
}
