/**
 * Whether the law of propagation is good enough here: its interval is held against the simulated one (JCGM 101:2008,
 * clause 8). Where the two disagree the simulated interval is the one to state.
 */

import { numericalTolerance } from './adaptive.ts';
import type { Budget } from './budget.ts';
import type { Simulated } from './monteCarlo.ts';

/** How far the ends of the two intervals lie apart, and whether that is below half a unit of the last digit of u. */
export interface Agreement {
  readonly lowGap: number;
  readonly highGap: number;
  readonly tolerance: number;
  readonly agrees: boolean;
}

/** Compares a linear result with a simulated one of the same level, to `digits` significant digits of u (8.1.3, 8.2). */
export function linearAgrees(
  linear: Pick<Budget, 'value' | 'u' | 'U'>,
  simulated: Pick<Simulated, 'symmetric'>,
  digits = 2,
): Agreement {
  const lowGap = Math.abs(linear.value - linear.U - simulated.symmetric.low);
  const highGap = Math.abs(linear.value + linear.U - simulated.symmetric.high);
  // A linear u of nothing (a formula flat at its middle) agrees with nothing but an exact result.
  const tolerance = linear.u === 0 ? 0 : numericalTolerance(linear.u, digits);
  return { lowGap, highGap, tolerance, agrees: lowGap <= tolerance && highGap <= tolerance };
}
