/**
 * Bounds for the search of the fewest readings. The variance of a target is a convex function of the rows' weights (it is a
 * matrix fraction g M^-1 g' with M linear in them), so that it lies above its tangent at any plan; and a weight grows ever
 * more slowly with the count. The most that further readings can take off the tangent is then found by taking the largest
 * gain per reading first. (Convexity of the matrix fraction: Boyd and Vandenberghe, Convex Optimization, 2004, example 3.4,
 * from memory.)
 */
import { at, indexAt, item } from '../linalg/at.ts';
import type { Design } from './design.ts';
import type { Counts, Evaluation } from './evaluate.ts';

/** Counts of each slot that are still open: from, to (inclusive). */
export interface Box {
  readonly least: Counts;
  readonly most: Counts;
}

/** Rows of each slot: found once for a design. */
export function rowsOfSlots(design: Design): readonly (readonly number[])[] {
  const rows: number[][] = design.laid.slots.map(() => []);
  design.source.forEach((_, r) => {
    rows[indexAt(design.slotOfRow, r)]?.push(r);
  });
  return rows;
}

/** The tangent of a weighed sum of variances at a plan. */
export interface Tangent {
  readonly value: number;
  readonly counts: Counts;
  /** Squared influence of each row on the sum: what a unit of weight takes off it. */
  readonly force: Float64Array;
  /** True when all goals pull, false when it is for one alone. */
  readonly mixed: boolean;
}

/** The tangent of the sum of `pull[k]` times the k-th variance of an evaluation at `counts`. */
export function tangentAt(
  counts: Counts,
  evaluation: Evaluation,
  pull: readonly number[],
  mixed: boolean,
): Tangent {
  const rows = evaluation.weight.length;
  const force = new Float64Array(rows);
  let value = 0;
  pull.forEach((p, k) => {
    if (p === 0) return;
    value += p * at(evaluation.variance, k);
    for (let r = 0; r < rows; r++) {
      const t = at(evaluation.influence, k * rows + r);
      force[r] = at(force, r) + p * t * t;
    }
  });
  return { value, counts, force, mixed };
}

/** Where a tangent is lowest within a box for a number of readings, and how low that is. */
export interface Lowest {
  readonly counts: Counts;
  /** No plan in the box within the budget has a lower weighed variance. */
  readonly bound: number;
}

/**
 * The lowest point of a tangent. `budget` is what may be spent above the box's least counts. A reading that costs more than
 * what is left counts with the part that fits, which keeps the bound below every whole plan.
 */
export function lowestWithin(
  design: Design,
  rows: readonly (readonly number[])[],
  tangent: Tangent,
  box: Box,
  budget: number,
): Lowest {
  const taken = (slot: number, count: number): number => {
    if (count <= 0) return 0;
    const { weight } = design.weights(count);
    let sum = 0;
    for (const row of rows[slot] ?? []) sum += at(tangent.force, row) * at(weight, row);
    return sum;
  };
  const counts = [...box.least];
  const steps: { readonly slot: number; readonly gain: number; readonly cost: number }[] = [];
  let bound = tangent.value;
  design.laid.slots.forEach(({ cost }, slot) => {
    let before = taken(slot, item(counts, slot));
    bound += taken(slot, item(tangent.counts, slot)) - before;
    const top = Math.min(item(box.most, slot), item(counts, slot) + Math.ceil(budget / cost));
    for (let count = item(counts, slot) + 1; count <= top; count++) {
      const after = taken(slot, count);
      steps.push({ slot, gain: after - before, cost });
      before = after;
    }
  });
  // The gains of one slot fall with its count, so that the order of its own steps survives the (stable) sort.
  steps.sort((a, b) => b.gain / b.cost - a.gain / a.cost);
  let left = budget;
  for (const { slot, gain, cost } of steps) {
    if (left <= 0) break;
    bound -= gain * Math.min(1, left / cost);
    if (cost <= left) counts[slot] = item(counts, slot) + 1;
    left -= cost;
  }
  return { counts, bound };
}
