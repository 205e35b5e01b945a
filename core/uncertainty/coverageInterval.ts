/** What a sorted set of simulated results says: mean, standard deviation and coverage intervals (JCGM 101:2008 7.5-7.7). */
import { at } from '../linalg/at.ts';
import { invariant } from '../result.ts';

/** Ends of an interval that covers the result with a stated probability. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** Estimate, u and both intervals, in the unit of the results. */
export interface Summary {
  readonly value: number;
  readonly u: number;
  /** As much probability below the interval as above it. */
  readonly symmetric: Interval;
  /** The narrowest interval; not the same for a skew result. */
  readonly shortest: Interval;
}

/** Mean and standard deviation of many results, the first result taken off to keep digits. */
export function meanAndDeviation(results: Float64Array): { readonly value: number; readonly u: number } {
  const n = results.length;
  invariant(n > 1, 'a standard deviation needs two results');
  const origin = at(results, 0);
  let sum = 0;
  for (const result of results) sum += result - origin;
  const value = sum / n;
  let squares = 0;
  let drift = 0;
  for (const result of results) {
    const d = result - origin - value;
    squares += d * d;
    drift += d;
  }
  return { value: origin + value, u: Math.sqrt(Math.max(0, squares - (drift * drift) / n) / (n - 1)) };
}

/** Number of steps an interval of level p spans among n sorted results (7.7.2). */
function span(n: number, level: number): number {
  invariant(level > 0 && level < 1, `a level lies between 0 and 1, got ${level}`);
  const q = Math.floor(level * n + 0.5);
  invariant(q >= 1 && q < n, `${n} results are too few for a level of ${level}`);
  return q;
}

/** The probabilistically symmetric interval of sorted results (7.7.3). */
export function symmetricInterval(sorted: Float64Array, level: number): Interval {
  const n = sorted.length;
  const q = span(n, level);
  const r = Math.floor((n - q) / 2 + 0.5);
  return { low: at(sorted, Math.max(1, r) - 1), high: at(sorted, Math.max(1, r) + q - 1) };
}

/** The shortest interval of sorted results (7.7.4); the lowest of several alike. */
export function shortestInterval(sorted: Float64Array, level: number): Interval {
  const n = sorted.length;
  const q = span(n, level);
  let first = 0;
  let width = Number.POSITIVE_INFINITY;
  for (let r = 0; r + q < n; r++) {
    const candidate = (sorted[r + q] ?? Number.NaN) - (sorted[r] ?? Number.NaN);
    if (candidate < width) {
      width = candidate;
      first = r;
    }
  }
  return { low: at(sorted, first), high: at(sorted, first + q) };
}

/** Everything above at once. `results` is sorted in place. */
export function summarise(results: Float64Array, level: number): Summary {
  const moments = meanAndDeviation(results);
  results.sort();
  return {
    ...moments,
    symmetric: symmetricInterval(results, level),
    shortest: shortestInterval(results, level),
  };
}
