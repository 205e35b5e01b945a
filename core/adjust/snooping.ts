/**
 * Which readings are probably wrong (data snooping, Baarda 1968). The largest standardised residual names the suspect;
 * readings whose tests go along with it are named with it, and the one whose repetition would tell them apart.
 * Nothing is ever taken out: that is for the person who can read again.
 */
import { indexAt } from '../linalg/at.ts';
import { invariant } from '../result.ts';
import type { Covariance } from './covariance.ts';
import type { Linearisation } from './linearise.ts';
import type { GlobalTest, RowResult, Suspicion } from './solution.ts';
import { CRITICAL, DETECTABLE, TOO_ALIKE } from './testLevels.ts';
import { rowAgainst, type TestVector, testProduct, testVectors } from './testVectors.ts';

/** Suspicions, the strongest first; empty when the global test passes and no residual is beyond the critical value. */
export function suspect(
  lin: Linearisation,
  covariance: Covariance,
  rows: readonly RowResult[],
  test: GlobalTest,
): Suspicion[] {
  const size = (i: number): number => Math.abs(rows[i]?.standardised ?? 0);
  if (test.passed && !rows.some((_, i) => size(i) > CRITICAL)) return [];
  const open = rows
    .map((_, i) => i)
    .filter((i) => size(i) > 0)
    .sort((i, j) => size(j) - size(i));
  const vectors = testVectors(lin);
  const tests: Tests = { lin, covariance: covariance.full(), rows, of: (i) => vectorOf(vectors, i) };
  const found: Suspicion[] = [];
  for (let first = open[0]; first !== undefined; first = open[0]) {
    if (size(first) <= CRITICAL && (test.passed || found.length > 0)) break;
    const group = open.filter((i) => i === first || alike(tests, first ?? i, i));
    found.push(suspicion(tests, group));
    for (const i of group) open.splice(open.indexOf(i), 1);
  }
  return found;
}

/** What the tests of rows are computed from. */
interface Tests {
  readonly lin: Linearisation;
  readonly covariance: Float64Array;
  readonly rows: readonly RowResult[];
  readonly of: (row: number) => TestVector;
}

function vectorOf(vectors: readonly TestVector[], i: number): TestVector {
  const vector = vectors[i];
  invariant(vector !== undefined, 'every row has a test vector');
  return vector;
}

/** Do the tests of two rows answer the same question? Correlation of the two above the limit. */
function alike({ lin, covariance, of }: Tests, i: number, j: number): boolean {
  const own = (k: number): number => testProduct(lin, covariance, of(k), of(k));
  return Math.abs(testProduct(lin, covariance, of(i), of(j))) > TOO_ALIKE * Math.sqrt(own(i) * own(j));
}

function suspicion(tests: Tests, group: readonly number[]): Suspicion {
  const members = group.map((i) => tests.rows[i]).filter((row) => row !== undefined);
  const [first] = members;
  const sources = [...new Set(members.map((row) => row.source))];
  // The detectable error is a fixed number of standard deviations of the error itself; the test counts in the same.
  const deviation = (first?.minimalDetectable ?? 0) / DETECTABLE;
  return {
    sources,
    rows: members.map((row) => row.id),
    standardised: first?.standardised ?? 0,
    likelyError: (first?.standardised ?? 0) * deviation,
    repeatToSeparate: sources.length > 1 ? bestRepeat(tests, group) : undefined,
  };
}

/**
 * The reading of a group whose independent repetition leaves its test least like the others'. A repetition of row k
 * changes the covariance by the rank-one update of one more observation with the same partials and u.
 */
function bestRepeat({ lin, covariance, rows, of }: Tests, group: readonly number[]): string | undefined {
  let best: { readonly source: string | undefined; readonly likeness: number } | undefined;
  for (const k of group) {
    const source = rows[k]?.source;
    const u = rows[k]?.u ?? 0;
    const { start, columns, partials } = lin.rows;
    const [first, end] = [indexAt(start, k), indexAt(start, k + 1)];
    const own = { ...of(k), columns: columns.subarray(first, end), g: partials.subarray(first, end) };
    const spread = u * u + rowAgainst(lin, covariance, k, own);
    const along = new Map(group.map((i) => [i, rowAgainst(lin, covariance, k, of(i))]));
    const after = (i: number, j: number): number =>
      testProduct(lin, covariance, of(i), of(j)) + ((along.get(i) ?? 0) * (along.get(j) ?? 0)) / spread;
    let likeness = 0;
    for (const i of group) {
      if (rows[i]?.source === source) continue;
      likeness = Math.max(likeness, Math.abs(after(i, k)) / Math.sqrt(after(i, i) * after(k, k)));
    }
    if (best === undefined || likeness < best.likeness - 1e-9) best = { source, likeness };
  }
  return best?.source;
}
