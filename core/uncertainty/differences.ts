/**
 * Derivatives of a formula by differences that watch their own error. A formula is moved by a step either way, the
 * step is halved again and again, and the answers are extrapolated to no step at all (Richardson; the stopping rule is
 * Ridders', Advances in Engineering Software 4 (1982) 75-76). Linear and quadratic formulas come out exact to rounding.
 */
import { item } from '../linalg/at.ts';

/** More halvings than this meet rounding before they meet the limit. */
const MOST_HALVINGS = 12;
/** A first step that leaves the formula's domain (a logarithm, a root) is halved at most this often. */
const MOST_RETREATS = 60;
/** Once an answer is this much worse than the best, rounding has taken over. */
const WORSE = 4;

/** A limit with the difference of the last two extrapolations, an honest size of its error. */
export interface Limit {
  readonly value: number;
  readonly error: number;
}

/**
 * The limit of `difference(step)` for step -> 0, for a central difference: one whose error is a series in even powers
 * of the step. Starts at `first`, which should span the range that matters. NaN when no step gives a number.
 */
export function limitOfDifference(difference: (step: number) => number, first = 1): Limit {
  let step = first;
  let plain = difference(step);
  for (let i = 0; i < MOST_RETREATS && !Number.isFinite(plain); i++) {
    step /= 2;
    plain = difference(step);
  }
  let best: Limit = { value: plain, error: Number.POSITIVE_INFINITY };
  let before = [plain];
  for (let i = 1; i < MOST_HALVINGS; i++) {
    step /= 2;
    const row = [difference(step)];
    for (let j = 1, power = 4; j <= i; j++, power *= 4) {
      const [finer, coarser] = [item(row, j - 1), item(before, j - 1)];
      const value = (finer * power - coarser) / (power - 1);
      const error = Math.max(Math.abs(value - finer), Math.abs(value - coarser));
      if (error < best.error) best = { value, error };
      row.push(value);
    }
    if (Math.abs(item(row, i) - item(before, i - 1)) >= WORSE * best.error) break;
    before = row;
  }
  return best;
}

/** A function of several numbers. */
export type Scalar = (values: readonly number[]) => number;

/** `f` at `centre` moved by the given amounts. */
function moved(f: Scalar, centre: readonly number[], by: readonly (readonly [number, number])[]): number {
  const values = [...centre];
  for (const [i, amount] of by) values[i] = item(values, i) + amount;
  return f(values);
}

/** df/dx_i at `centre`, with a first step of `h` in x_i. */
export function firstDerivative(f: Scalar, centre: readonly number[], i: number, h: number): number {
  const slope = (s: number): number =>
    (moved(f, centre, [[i, s * h]]) - moved(f, centre, [[i, -s * h]])) / (2 * s * h);
  return limitOfDifference(slope).value;
}

/** Second derivative by x_i and x_j, with first steps `hi`, `hj`; i and j may be one. */
export function secondDerivative(
  f: Scalar,
  centre: readonly number[],
  [i, hi]: readonly [number, number],
  [j, hj]: readonly [number, number],
): number {
  const at = (a: number, b: number): number =>
    moved(f, centre, [
      [i, a * hi],
      [j, b * hj],
    ]);
  // With i = j this is the usual second difference over a doubled step.
  return limitOfDifference((s) => (at(s, s) - at(s, -s) - at(-s, s) + at(-s, -s)) / (4 * s * s * hi * hj))
    .value;
}

/** Third derivative, once by x_i and twice by x_j; i and j may be one. */
export function thirdDerivative(
  f: Scalar,
  centre: readonly number[],
  [i, hi]: readonly [number, number],
  [j, hj]: readonly [number, number],
): number {
  const bend = (a: number, s: number): number =>
    moved(f, centre, [
      [i, a * hi],
      [j, s * hj],
    ]) -
    2 * moved(f, centre, [[i, a * hi]]) +
    moved(f, centre, [
      [i, a * hi],
      [j, -s * hj],
    ]);
  return limitOfDifference((s) => (bend(s, s) - bend(-s, s)) / (2 * s * s * s * hi * hj * hj)).value;
}
