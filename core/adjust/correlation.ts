/**
 * Readings that share an error: a group of scalar rows with their full covariance, as a camera, a total station or an
 * earlier adjustment gives it. Any row may be a member: one of a reading (`d1/value`, `drop1/along`), a coordinate known
 * beforehand (`A/x`), a point of a body in its own frame (`tip/y`), a shared unknown (`tape.scale/value`).
 */
import { z } from 'zod';
import { at } from '../linalg/at.ts';
import { choleskyInPlace, packedIndex, packedSize } from '../linalg/cholesky.ts';
import { invariant } from '../result.ts';
import type { AdjustError, CovarianceFault } from './errors.ts';
import type { Observation } from './problem.ts';
import { type DeepReadonly, namedFields } from './schemaParts.ts';
import type { SourceKind } from './solution.ts';

/** Most rows of one group: a covariance is written out in full. */
const MOST_ROWS = 200;

/** Id of a scalar row: `reading/component`, as in the solution's rows. */
const rowIdSchema = z
  .string()
  .max(160)
  .regex(/^[^/\s]+\/[^/\s]+$/, 'a row is named owner/component');

/**
 * A group: `covariance` in the order of `rows`, in the products of their units (mm, rad, plain). Symmetric and positive
 * definite; its diagonal repeats the square of each row's own u, so that neither can be mistaken.
 */
export const correlationSchema = z.strictObject({
  ...namedFields,
  rows: z.array(rowIdSchema).min(2).max(MOST_ROWS),
  covariance: z.array(z.array(z.number()).max(MOST_ROWS)).max(MOST_ROWS),
});

/** A full covariance of a pose, row by row: x, y, z (mm), then small turns about the three axes (rad). */
export const poseCovarianceSchema = z.array(z.array(z.number()).length(6)).length(6);

/** A group of rows with their joint covariance. */
export type Correlation = DeepReadonly<z.infer<typeof correlationSchema>>;

/** A group ready to be whitened: row numbers, and the inverse W of the covariance's factor (C = L L', W = L^-1). */
export interface CorrelatedRows {
  /** The group, or the reading whose rows these are. */
  readonly source: string;
  readonly kind: SourceKind;
  readonly rows: readonly number[];
  /** Lower triangle of W, packed row by row. */
  readonly whitener: Float64Array;
  /** The least dof behind any of its rows. */
  readonly dof: number;
}

/** What is wrong with a group, or the group. */
export type GroupOrFault = { readonly group: CorrelatedRows } | { readonly error: AdjustError };

/** Two entries that should be one differ by no more than this share of the product of their u. */
const SAME = 1e-9;
/** The diagonal repeats the square of the stated u to this share. */
const SAME_U = 1e-6;
/** A row of which less than this share of the variance is its own is a combination of the others. */
const DEPENDENT = 1e-12;

/** Checks a covariance against its rows and factors it. `source` and `kind` tell whose it is. */
export function correlate(
  source: string,
  kind: SourceKind,
  rows: readonly number[],
  covariance: readonly (readonly number[])[],
  observations: readonly Observation[],
): GroupOrFault {
  const heads = rows.map((row) => {
    const head = observations[row];
    invariant(head !== undefined, 'a row of a group is there');
    return head;
  });
  const names = heads.map((head) => `${head.source}/${head.component}`);
  const fault = (why: CovarianceFault, ids: readonly string[]): GroupOrFault => ({
    error: { code: 'adjust/badCovariance', ids: [source, ...ids], cure: 'correctCovariance', why },
  });
  if (covariance.length !== rows.length || covariance.some((line) => line.length !== rows.length)) {
    return fault('wrongSize', names);
  }
  const exact = heads.findIndex((head) => head.exact === true);
  if (exact >= 0) return fault('exactRow', names.slice(exact, exact + 1));
  const packed = new Float64Array(packedSize(rows.length));
  for (const [i, line] of covariance.entries()) {
    for (const [j, value] of line.entries()) {
      const scale = (heads[i]?.u ?? 0) * (heads[j]?.u ?? 0);
      const pair = i === j ? [names[i] ?? ''] : [names[i] ?? '', names[j] ?? ''];
      if (!Number.isFinite(value)) return fault('notFinite', pair);
      const mirrored = covariance[j]?.[i] ?? Number.NaN;
      if (!(Math.abs(value - mirrored) <= SAME * scale)) return fault('notSymmetric', pair);
      if (i === j && !(Math.abs(value - scale) <= SAME_U * scale)) return fault('otherDiagonal', pair);
      // Scaled to correlations: pivots of millimetres and radians are then of one size.
      if (j <= i) packed[packedIndex(i, j)] = value / scale;
    }
  }
  const dependent = choleskyInPlace(packed, rows.length, DEPENDENT);
  if (dependent >= 0) return fault('notPositive', names.slice(0, dependent + 1).reverse());
  const u = heads.map((head) => head.u);
  const dof = heads.reduce((least, head) => Math.min(least, head.dof), Number.POSITIVE_INFINITY);
  return { group: { source, kind, rows, whitener: inverseFactor(packed, u), dof } };
}

/** L^-1 of the covariance from the factor of its correlations: a unit change of each column. */
function inverseFactor(factor: Float64Array, u: readonly number[]): Float64Array {
  const n = u.length;
  const inverse = new Float64Array(packedSize(n));
  for (let j = 0; j < n; j++) {
    inverse[packedIndex(j, j)] = 1 / at(factor, packedIndex(j, j));
    for (let i = j + 1; i < n; i++) {
      let sum = 0;
      for (let k = j; k < i; k++) sum += at(factor, packedIndex(i, k)) * at(inverse, packedIndex(k, j));
      inverse[packedIndex(i, j)] = -sum / at(factor, packedIndex(i, i));
    }
  }
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const index = packedIndex(i, j);
      inverse[index] = at(inverse, index) / (u[j] ?? Number.NaN);
    }
  }
  return inverse;
}

/** Groups of a document: its rows looked up, none in two groups. `taken` are the rows that readings group themselves. */
export function bindCorrelations(
  correlations: readonly Correlation[],
  observations: readonly Observation[],
  taken: ReadonlySet<number>,
): { readonly groups: readonly CorrelatedRows[] } | { readonly error: AdjustError } {
  if (correlations.length === 0) return { groups: [] };
  const numbers = new Map(observations.map((one, i) => [`${one.source}/${one.component}`, i]));
  const used = new Set(taken);
  const groups: CorrelatedRows[] = [];
  for (const { id, rows, covariance } of correlations) {
    const members: number[] = [];
    for (const row of rows) {
      const number = numbers.get(row);
      if (number === undefined)
        return { error: { code: 'adjust/unknownRow', ids: [row, id], cure: 'defineMissing' } };
      if (used.has(number)) {
        return {
          error: { code: 'adjust/badCovariance', ids: [id, row], cure: 'correctCovariance', why: 'rowTwice' },
        };
      }
      used.add(number);
      members.push(number);
    }
    const bound = correlate(id, 'correlated', members, covariance, observations);
    if ('error' in bound) return bound;
    groups.push(bound.group);
  }
  return { groups };
}
