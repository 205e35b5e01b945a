/**
 * One plan on a design: the variance of every target and what each row puts into it. A tenth of a millisecond, so that a
 * search may ask for thousands.
 */
import { at, indexAt } from '../linalg/at.ts';
import { choleskyInPlace, choleskySolve, packedSize } from '../linalg/cholesky.ts';
import { dot } from '../linalg/dot.ts';
import { effectiveDof } from '../uncertainty/welchSatterthwaite.ts';
import { addRow, type Design, rowTimes } from './design.ts';
import { ONE_MAY_BE_ABSENT } from './recipes.ts';
import type { Plan } from './types.ts';

/** How often each slot of the design is taken, in the order of `laid.slots`. */
export type Counts = readonly number[];

/** What a plan comes to, for the targets asked for, in their order. */
export interface Evaluation {
  /** Per target, mm^2 or rad^2. */
  readonly variance: Float64Array;
  /** Influence t of each row on each target, one row of `rows` per target: t^2 w is its part of the variance. */
  readonly influence: Float64Array;
  readonly weight: Float64Array;
  readonly dof: Float64Array;
}

/** Information an unknown must keep, once the others are taken away, to count as determined (as in core/adjust). */
const UNDETERMINED = 1e-12;

/** A plan as counts in the design's order; readings the recipe does not have are left out. */
export function countsOf(design: Design, plan: Plan): Counts {
  return design.laid.slots.map(({ key }) => plan.get(key) ?? 0);
}

/** Counts as a plan. */
export function planOf(design: Design, counts: Counts): Plan {
  return new Map(
    design.laid.slots.flatMap(({ key }, i) => ((counts[i] ?? 0) > 0 ? [[key, counts[i] ?? 0]] : [])),
  );
}

/** The readings without which counts do not hold everything; empty when they do. */
export function missingOf(design: Design, counts: Counts): readonly string[] {
  const { slots } = design.laid;
  const absent = slots.filter((_, i) => !((counts[i] ?? 0) > 0));
  const needed = absent.filter(({ least }) => least > 0).map(({ key }) => key);
  const open = ONE_MAY_BE_ABSENT.flatMap((set) => {
    const names: readonly string[] = set;
    const here = slots.filter(({ key }) => names.includes(key));
    const gone = here.filter((slot) => absent.includes(slot));
    const taken = here.length - gone.length;
    return here.length > 0 && taken < names.length - 1 ? gone.map(({ key }) => key) : [];
  });
  return [...needed, ...open];
}

/** Weight and dof of every row at these counts; a reading that is not taken weighs nothing. */
function rowWeights(design: Design, counts: Counts): { weight: Float64Array; dof: Float64Array } {
  const once = design.weights(1);
  const weight = Float64Array.from(once.weight);
  const dof = Float64Array.from(once.dof);
  for (let r = 0; r < weight.length; r++) {
    const slot = indexAt(design.slotOfRow, r);
    const count = slot < 0 ? 1 : (counts[slot] ?? 0);
    if (count === 1) continue;
    const there = count > 0 ? design.weights(count) : undefined;
    weight[r] = there === undefined ? 0 : at(there.weight, r);
    if (there !== undefined) dof[r] = at(there.dof, r);
  }
  return { weight, dof };
}

/** Evaluates counts for some targets (indices in `design.targets`) or all; undefined when something is left open. */
export function evaluate(
  design: Design,
  counts: Counts,
  which: readonly number[] = [...design.targets.keys()],
): Evaluation | undefined {
  if (missingOf(design, counts).length > 0) return undefined;
  const { n, source } = design;
  const { weight, dof } = rowWeights(design, counts);
  const normal = new Float64Array(packedSize(n));
  for (let r = 0; r < weight.length; r++) {
    if (at(weight, r) > 0) addRow(design, r, at(weight, r), normal);
  }
  if (choleskyInPlace(normal, n, UNDETERMINED) >= 0) return undefined;
  const rows = source.length;
  const variance = new Float64Array(which.length);
  const influence = new Float64Array(which.length * rows);
  which.forEach((target, k) => {
    const gradient = design.gradients.subarray(target * n, target * n + n);
    const spread = Float64Array.from(gradient);
    choleskySolve(normal, n, spread);
    variance[k] = dot(spread, 0, gradient, 0, n);
    for (let r = 0; r < rows; r++) influence[k * rows + r] = rowTimes(design, r, spread);
  });
  return { variance, influence, weight, dof };
}

/** Effective degrees of freedom of a target (JCGM 100 G.4). */
export function dofOf({ influence, weight, dof }: Evaluation, target: number): number {
  const rows = weight.length;
  const parts: { u: number; dof: number }[] = [];
  for (let r = 0; r < rows; r++) {
    const t = at(influence, target * rows + r);
    const part = t * t * at(weight, r);
    if (part > 0) parts.push({ u: Math.sqrt(part), dof: at(dof, r) });
  }
  return effectiveDof(parts);
}
