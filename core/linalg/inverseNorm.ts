/**
 * 1-norm of the inverse of a symmetric matrix of which only solutions are to be had: a climb over a few of them, which
 * gives a lower bound that is nearly always the norm itself (Hager 1984, with the second start of Higham 1988).
 */
import { at } from './at.ts';

/** Solutions climbed over before the bound found is taken; two or three are the rule. */
const MOST_CLIMBS = 5;

/** `solve` replaces a right side by its solution in place. `n` is 1 or more. */
export function inverseNormBound(n: number, solve: (b: Float64Array) => void): number {
  const y = new Float64Array(n);
  let from = new Float64Array(n).fill(1 / n);
  let bound = 0;
  for (let climb = 0; climb < MOST_CLIMBS; climb++) {
    y.set(from);
    solve(y);
    const size = sumOfSizes(y);
    if (climb > 0 && size <= bound) break;
    bound = size;
    const slope = y.map((value) => (value < 0 ? -1 : 1));
    solve(slope);
    const steepest = largest(slope);
    let along = 0;
    for (let i = 0; i < n; i++) along += at(slope, i) * at(from, i);
    if (Math.abs(at(slope, steepest)) <= along) break;
    from = new Float64Array(n);
    from[steepest] = 1;
  }
  for (let i = 0; i < n; i++) y[i] = (i % 2 === 0 ? 1 : -1) * (1 + i / Math.max(1, n - 1));
  solve(y);
  return Math.max(bound, (2 * sumOfSizes(y)) / (3 * n));
}

function sumOfSizes(y: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < y.length; i++) sum += Math.abs(at(y, i));
  return sum;
}

function largest(y: Float64Array): number {
  let best = 0;
  for (let i = 1; i < y.length; i++) if (Math.abs(at(y, i)) > Math.abs(at(y, best))) best = i;
  return best;
}
