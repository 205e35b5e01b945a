/**
 * Propagates the covariance of a solution into any quantities computed from its points and poses, and tells which
 * reading puts how much into the variance. Derivatives are central differences over the unknowns the function
 * actually reads; a pure function cannot depend on the others.
 */
import { at, indexAt, item } from '../linalg/at.ts';
import { invariant } from '../result.ts';
import { coverageFactor } from '../uncertainty/coverage.ts';
import { effectiveDof } from '../uncertainty/welchSatterthwaite.ts';
import type { CorrelatedRows } from './correlation.ts';
import type { Derived, DerivedSet, Estimates, Solution, SourceKind } from './solution.ts';

/**
 * Difference steps: a share of the layout's reach for lengths (0.04 mm at 4 m), radians and plain numbers for the
 * others. Truncation (step / lever)^2 and rounding 1e-16 value / step then both stay below about 1e-9 of a derivative.
 */
const STEP = { mm: 1e-5, rad: 3e-5, ratio: 1e-6 };

/** Value, u, dof, U and contributions of one function of the estimates. `fn` must be pure. */
export function derive(solution: Solution, fn: (estimates: Estimates) => number): Derived {
  const [only] = deriveAll(solution, (estimates) => [fn(estimates)]).quantities;
  invariant(only !== undefined, 'one quantity was asked for');
  return only;
}

/** The same for several quantities at once, with their joint covariance. `fn` must be pure and of constant length. */
export function deriveAll(solution: Solution, fn: (estimates: Estimates) => readonly number[]): DerivedSet {
  const { values, jacobian, read } = differentiate(solution, fn);
  const n = solution.unknowns.length;
  const m = values.length;
  // J Q, one row of n per quantity.
  const spread = new Float64Array(m * n);
  for (let k = 0; k < m; k++) {
    read.forEach((unknown, c) => {
      const slope = at(jacobian, c * m + k);
      if (slope === 0) return;
      for (let i = 0; i < n; i++) {
        spread[k * n + i] = at(spread, k * n + i) + slope * at(solution.covariance, unknown * n + i);
      }
    });
  }
  const covariance = new Float64Array(m * m);
  for (let k = 0; k < m; k++) {
    for (let l = 0; l < m; l++) {
      let sum = 0;
      for (const [c, unknown] of read.entries()) sum += at(spread, k * n + unknown) * at(jacobian, c * m + l);
      covariance[k * m + l] = sum;
    }
  }
  const quantities = values.map((value, k) => ({
    ...quantity(solution, value, at(covariance, k * m + k), spread.subarray(k * n, k * n + n)),
    needsDatum: movesWithLayout(solution, read, (c) => at(jacobian, c * m + k)),
  }));
  return { values, covariance, quantities };
}

function differentiate(solution: Solution, fn: (estimates: Estimates) => readonly number[]) {
  const { x, estimatesAt, reach } = solution.linearised;
  const touched = new Set<number>();
  const values = fn(estimatesAt(x, (unknown) => touched.add(unknown)));
  const read = [...touched].sort((a, b) => a - b);
  const m = values.length;
  const jacobian = new Float64Array(read.length * m);
  const moved = Float64Array.from(x);
  const estimates = estimatesAt(moved);
  read.forEach((unknown, c) => {
    const unit = solution.unknowns[unknown]?.unit ?? 'mm';
    const step = unit === 'mm' ? STEP.mm * reach : STEP[unit];
    const middle = at(x, unknown);
    const above = middle + step;
    const below = middle - step;
    moved[unknown] = above;
    const high = fn(estimates);
    moved[unknown] = below;
    const low = fn(estimates);
    moved[unknown] = middle;
    for (let k = 0; k < m; k++) jacobian[c * m + k] = (item(high, k) - item(low, k)) / (above - below);
  });
  return { values: [...values], jacobian, read };
}

/** A change under a free motion of less than this share of its parts is rounding of the differences. */
const STILL = 1e-5;

/** Does a quantity with these slopes change when the layout moves as a whole along a freedom nothing holds? */
function movesWithLayout(
  solution: Solution,
  read: readonly number[],
  slope: (index: number) => number,
): boolean {
  const { freeMotions } = solution.linearised;
  const n = solution.unknowns.length;
  return solution.gauge.some((_, f) => {
    let change = 0;
    let parts = 0;
    for (const [c, unknown] of read.entries()) {
      const part = slope(c) * at(freeMotions, f * n + unknown);
      change += part;
      parts += Math.abs(part);
    }
    return Math.abs(change) > STILL * parts;
  });
}

function quantity(
  solution: Solution,
  value: number,
  variance: number,
  spread: Float64Array,
): Omit<Derived, 'needsDatum'> {
  const { rowStart, column, coefficient, weight, dof, groups } = solution.linearised;
  const grouped = new Map(groups.flatMap((group) => group.rows.map((row) => [row, group] as const)));
  const parts = new Map<string, Part>();
  const joint = new Map<CorrelatedRows, number>();
  const weighed: { u: number; dof: number }[] = [];
  solution.rows.forEach((row, r) => {
    let t = 0;
    for (let e = indexAt(rowStart, r); e < indexAt(rowStart, r + 1); e++)
      t += at(coefficient, e) * at(spread, indexAt(column, e));
    const part = t * t * at(weight, r);
    if (part === 0) return;
    const group = grouped.get(r);
    const from = group ?? row;
    if (group === undefined) weighed.push({ u: Math.sqrt(part), dof: at(dof, r) });
    else joint.set(group, (joint.get(group) ?? 0) + part);
    const known = parts.get(from.source);
    if (known !== undefined) known.variance += part;
    else {
      const instrument = from.kind === 'correlated' ? undefined : row.instrument;
      parts.set(from.source, { kind: from.kind, instrument, variance: part });
    }
  });
  // JCGM 100 G.4 wants independent inputs: correlated rows are one input, as well known as the worst known of them.
  for (const [group, part] of joint) weighed.push({ u: Math.sqrt(part), dof: group.dof });
  const total = [...parts.values()].reduce((sum, part) => sum + part.variance, 0);
  const contributions = [...parts]
    .map(([source, { kind, instrument, variance: part }]) => {
      return { source, kind, instrument, share: part / total, u: Math.sqrt(part) };
    })
    .sort((a, b) => b.share - a.share);
  const shareByKind: Partial<Record<SourceKind, number>> = {};
  for (const { kind, share } of contributions) shareByKind[kind] = (shareByKind[kind] ?? 0) + share;
  const u = Math.sqrt(Math.max(0, variance));
  const effective = effectiveDof(weighed);
  const k = coverageFactor(effective);
  return { value, u, dof: effective, k, U: k * u, contributions, shareByKind };
}

/** What one source puts into a variance while it is added up. */
interface Part {
  readonly kind: SourceKind;
  readonly instrument: string | undefined;
  variance: number;
}
