/**
 * Gauss-Newton steps to the least-squares solution, damped as Levenberg and Marquardt proposed when a step fails to
 * lower the sum of squares or the normal matrix cannot be factored. Damping changes the way, never the answer: the
 * last step is always an undamped one.
 */
import { at } from '../linalg/at.ts';
import { err, ok, type Result } from '../result.ts';
import { findGauge, type Gauge, HELD } from './gauge.ts';
import type { Linearisation } from './linearise.ts';
import { NormalSystem } from './normal.ts';
import type { StopReason } from './solution.ts';

/** A step that changes all readings together by less than 1e-8 of their u has arrived. */
const ARRIVED_SQUARED = 1e-16;
/**
 * Steps shrink by at least the same factor each time near the solution. A step below 1e-5 of u whose successor would
 * by that factor be below the limit above is the last one: the matrix factored before it is that of the solution. Where
 * residuals are large the factor is at worst about a thousandth, so that no more than 1e-8 of u is left.
 */
const NEARLY_SQUARED = 1e-10;
/** Sums of squares are compared to this share of themselves: rounding alone must not look like a failed step. */
const SLACK = 1e-9;
/** A step of more than 1e15 of the readings' u (squared) is no step: it is damped away before anything overflows. */
const WILD_SQUARED = 1e30;
const FIRST_DAMPING = 1e-3;
const MOST_DAMPING = 1e12;
/** A matrix of which every pivot keeps this share of its diagonal leaves no motion of the layout free. */
const WELL_HELD = 1e-8;
/** Steps before giving up; a network with sound readings needs three to five. */
export const DEFAULT_ITERATIONS = 50;

/** Where the iteration ended; `normal` is factored there, undamped. */
export interface Arrival {
  readonly normal: NormalSystem;
  readonly gauge: Gauge;
  readonly iterations: number;
  readonly stopReason: StopReason;
}

/** Why it did not arrive. */
export type NoArrival =
  | { readonly why: 'undetermined'; readonly gauge: Gauge; readonly normal: NormalSystem }
  | { readonly why: 'coincident'; readonly pair: readonly [number, number] }
  | {
      readonly why: 'notConverged';
      readonly iterations: number;
      readonly gauge: Gauge;
      readonly normal: NormalSystem;
    };

/** Iterates from `state.values` as they stand. */
export function iterate(lin: Linearisation, mostIterations: number): Result<Arrival, NoArrival> {
  let squares = lin.evaluate();
  const { normal, gauge, factored } = firstSystem(lin);
  let ready = factored;
  const before = lin.block.floats(lin.state.values.length);
  let damping = 0;
  let damped = false;
  let lengthBefore = 0;
  for (let iterations = 1; iterations <= mostIterations; iterations++) {
    const pair = lin.rows.coincident[0];
    if (pair !== undefined) return err({ why: 'coincident', pair });
    if (!ready) {
      normal.assemble();
      while (normal.factorise(damping) >= 0) {
        damped = true;
        damping = raised(damping);
        if (damping > MOST_DAMPING) return err({ why: 'undetermined', gauge, normal });
      }
    }
    ready = false;
    normal.solve();
    const length = lin.stepSquared(normal.step);
    if (!(length < WILD_SQUARED)) {
      damped = true;
      damping = raised(damping);
      if (damping > MOST_DAMPING) break;
      continue;
    }
    const gap = misclosure(lin);
    before.set(lin.state.values);
    lin.apply(normal.step);
    const next = lin.evaluate();
    const successor = lengthBefore > 0 ? (length * length) / lengthBefore : length;
    const last = length <= ARRIVED_SQUARED || (length <= NEARLY_SQUARED && successor <= ARRIVED_SQUARED);
    const arrived = last && misclosure(lin) <= gap + SLACK;
    lengthBefore = damping === 0 ? length : 0;
    if (arrived && damping === 0) {
      const stopReason = damped ? 'converged after damping' : 'converged';
      return ok({ normal, gauge, iterations, stopReason });
    }
    if (arrived) {
      // Arrived while damped: the next step decides whether the undamped matrix can be factored here.
      squares = next;
      damping = 0;
      if (undampedFails(normal)) return err({ why: 'undetermined', gauge, normal });
    } else if (next <= squares * (1 + SLACK) + SLACK || gap > SLACK) {
      squares = next;
      damping = damping < 1e-6 ? 0 : damping / 10;
    } else {
      lin.state.values.set(before);
      squares = lin.evaluate();
      damped = true;
      damping = raised(damping);
      if (damping > MOST_DAMPING) break;
    }
  }
  return err({ why: 'notConverged', iterations: mostIterations, gauge, normal });
}

interface FirstSystem {
  readonly normal: NormalSystem;
  readonly gauge: Gauge;
  readonly factored: boolean;
}

/**
 * The normal equations at the start, with the layout's freedoms. Where enough is given to hold the layout they are tried
 * without any: a matrix that factors well leaves no motion free, and the search for one is spared. `factored` then, it is
 * ready for the first step.
 */
function firstSystem(lin: Linearisation): FirstSystem {
  if (lin.mayBeHeld) {
    const normal = new NormalSystem(lin, HELD);
    normal.assemble();
    if (normal.factorise(0, WELL_HELD) < 0) return { normal, gauge: HELD, factored: true };
  }
  const gauge = findGauge(lin);
  return { normal: new NormalSystem(lin, gauge), gauge, factored: false };
}

function raised(damping: number): number {
  return damping === 0 ? FIRST_DAMPING : damping * 10;
}

/** Largest amount by which a hard constraint is not met, in its unit; steps that close it may raise the squares. */
function misclosure(lin: Linearisation): number {
  let largest = 0;
  for (const r of lin.exact) largest = Math.max(largest, Math.abs(at(lin.residuals, r)));
  return largest;
}

function undampedFails(normal: NormalSystem): boolean {
  normal.assemble();
  return normal.factorise(0) >= 0;
}
