/**
 * Which readings are probably wrong (data snooping, Baarda 1968). The largest standardised residual names the suspect;
 * readings whose tests go along with it are named with it, and the one whose repetition would tell them apart.
 * Nothing is ever taken out: that is for the person who can read again.
 */
import { item } from '../linalg/at.ts';
import { rowProduct } from './diagnostics.ts';
import type { Linearisation } from './linearise.ts';
import type { GlobalTest, RowResult, Suspicion } from './solution.ts';
import { CRITICAL, TOO_ALIKE } from './testLevels.ts';

/** Suspicions, the strongest first; empty when the global test passes and no residual is beyond the critical value. */
export function suspect(
  lin: Linearisation,
  covariance: Float64Array,
  rows: readonly RowResult[],
  test: GlobalTest,
): Suspicion[] {
  const size = (i: number): number => Math.abs(rows[i]?.standardised ?? 0);
  const open = rows
    .map((_, i) => i)
    .filter((i) => size(i) > 0)
    .sort((i, j) => size(j) - size(i));
  const found: Suspicion[] = [];
  for (let first = open[0]; first !== undefined; first = open[0]) {
    if (size(first) <= CRITICAL && (test.passed || found.length > 0)) break;
    const group = open.filter((i) => i === first || alike(lin, covariance, rows, first ?? i, i));
    found.push(suspicion(lin, covariance, rows, group));
    for (const i of group) open.splice(open.indexOf(i), 1);
  }
  return found;
}

/** Do the tests of two rows answer the same question? Correlation of their standardised residuals above the limit. */
function alike(
  lin: Linearisation,
  covariance: Float64Array,
  rows: readonly RowResult[],
  i: number,
  j: number,
): boolean {
  const own = (k: number): number => {
    const row = rows[k];
    return row === undefined ? 0 : row.u * Math.sqrt(row.redundancy);
  };
  return Math.abs(rowProduct(lin, covariance, i, j)) > TOO_ALIKE * own(i) * own(j);
}

function suspicion(
  lin: Linearisation,
  covariance: Float64Array,
  rows: readonly RowResult[],
  group: readonly number[],
): Suspicion {
  const members = group.map((i) => rows[i]).filter((row) => row !== undefined);
  const [first] = members;
  const sources = [...new Set(members.map((row) => row.source))];
  return {
    sources,
    rows: members.map((row) => row.id),
    standardised: first?.standardised ?? 0,
    likelyError: first === undefined ? 0 : first.residual / first.redundancy,
    repeatToSeparate: sources.length > 1 ? bestRepeat(lin, covariance, rows, group) : undefined,
  };
}

/**
 * The reading of a group whose independent repetition leaves its test least like the others'. A repetition of row k
 * changes the covariance by the rank-one update of one more observation with the same partials and u.
 */
function bestRepeat(
  lin: Linearisation,
  covariance: Float64Array,
  rows: readonly RowResult[],
  group: readonly number[],
): string | undefined {
  const product = group.map((i) => group.map((j) => rowProduct(lin, covariance, i, j)));
  const get = (i: number, j: number): number => item(product[i] ?? [], j);
  const square = (i: number): number => {
    const u = rows[group[i] ?? -1]?.u ?? 0;
    return u * u;
  };
  let best: { readonly k: number; readonly likeness: number } | undefined;
  for (const k of group.keys()) {
    const after = (i: number, j: number): number =>
      get(i, j) - (get(i, k) * get(k, j)) / (square(k) + get(k, k));
    const spread = (i: number): number => Math.sqrt(Math.max(square(i) - after(i, i), 1e-30));
    let likeness = 0;
    for (const i of group.keys()) {
      if (rows[group[i] ?? -1]?.source === rows[group[k] ?? -1]?.source) continue;
      likeness = Math.max(likeness, Math.abs(after(i, k)) / (spread(i) * spread(k)));
    }
    if (best === undefined || likeness < best.likeness - 1e-9) best = { k, likeness };
  }
  return best === undefined ? undefined : rows[group[best.k] ?? -1]?.source;
}
