/**
 * Bounds for the search of the fewest readings. The variance of a target is a convex function of the rows' weights (it is a
 * matrix fraction g M^-1 g' with M linear in them), so that it lies above its tangent at any plan; and a weight grows ever
 * more slowly with the count. The most that further readings can take off the tangent is then found by taking the largest
 * gain per reading first. (Convexity of the matrix fraction: Boyd and Vandenberghe, Convex Optimization, 2004, example 3.4,
 * from memory.)
 */
import { addAt, at, indexAt, item } from '../linalg/at.ts';
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

/** Squared influence of each row on a weighed sum of variances: what a unit of its weight takes off the sum. */
export function forcesOf(evaluation: Evaluation, pull: readonly number[]): Float64Array {
  const rows = evaluation.weight.length;
  const force = new Float64Array(rows);
  pull.forEach((p, k) => {
    if (p === 0) return;
    for (let r = 0; r < rows; r++) {
      const t = at(evaluation.influence, k * rows + r);
      force[r] = at(force, r) + p * t * t;
    }
  });
  return force;
}

/** One more of a slot: what it takes off the tangent as its `count`-th reading. */
interface Step {
  readonly slot: number;
  readonly count: number;
  readonly gain: number;
  readonly cost: number;
}

/** The tangent of a weighed sum of variances at a plan. */
export interface Tangent {
  readonly value: number;
  readonly counts: Counts;
  /** What each slot takes off the sum by its count, from none on. */
  readonly taken: readonly Float64Array[];
  /** Every reading that could be added, the largest gain for its cost first; those of one slot in their order. */
  readonly steps: readonly Step[];
  /** True when all goals pull, false when it is for one alone. */
  readonly mixed: boolean;
}

/** The tangent of the sum of `pull[k]` times the k-th variance of an evaluation at `counts`; no slot exceeds `most`. */
export function tangentAt(
  design: Design,
  rows: readonly (readonly number[])[],
  most: Counts,
  counts: Counts,
  evaluation: Evaluation,
  pull: readonly number[],
  mixed: boolean,
): Tangent {
  const force = forcesOf(evaluation, pull);
  const taken = most.map((top, slot) => {
    const sums = new Float64Array(top + 1);
    for (let count = 1; count <= top; count++) {
      const { weight } = design.weights(count);
      for (const row of rows[slot] ?? []) addAt(sums, count, at(force, row) * at(weight, row));
    }
    return sums;
  });
  const steps = taken.flatMap((sums, slot): readonly Step[] => {
    const cost = design.laid.slots[slot]?.cost ?? 1;
    return Array.from(sums.subarray(1), (sum, i) => ({ slot, count: i + 1, gain: sum - at(sums, i), cost }));
  });
  // Gains of one slot fall with its count, so that the order of its own steps survives the (stable) sort.
  steps.sort((a, b) => b.gain / b.cost - a.gain / a.cost);
  const value = pull.reduce((sum, p, k) => sum + p * at(evaluation.variance, k), 0);
  return { value, counts, taken, steps, mixed };
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
  { value, counts: at0, taken, steps }: Tangent,
  box: Box,
  budget: number,
): Lowest {
  const counts = [...box.least];
  let bound = value;
  taken.forEach((sums, slot) => {
    bound += at(sums, item(at0, slot)) - at(sums, item(counts, slot));
  });
  let left = budget;
  for (const { slot, count, gain, cost } of steps) {
    if (left <= 0) break;
    if (count <= item(box.least, slot) || count > item(box.most, slot)) continue;
    bound -= gain * Math.min(1, left / cost);
    if (cost <= left) counts[slot] = item(counts, slot) + 1;
    left -= cost;
  }
  return { counts, bound };
}
