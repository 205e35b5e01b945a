/**
 * The test for an error in one row alone when rows may be correlated: with P the inverse of the readings' covariance, Q
 * that of the unknowns and A the rows, (P v)_i is tested against its variance (P Qvv P)_ii = P_ii - g_i' Q g_i, where
 * g_i = A' P e_i. Without correlation this is the residual over its standard deviation. Baarda 1968; Teunissen, Testing
 * Theory (from memory).
 */
import { at, indexAt, item } from '../linalg/at.ts';
import { packedIndex } from '../linalg/cholesky.ts';
import { invariant } from '../result.ts';
import type { CorrelatedRows } from './correlation.ts';
import type { Linearisation } from './linearise.ts';

/** One row's test: g = A' P e over `columns`, its force (P v), and which entries of P belong to it. */
export interface TestVector {
  readonly row: number;
  readonly columns: Int32Array;
  readonly g: Float64Array;
  readonly force: number;
  readonly group: CorrelatedRows | undefined;
}

/** One per row. An exact row has no weight: its vector is nought. */
export function testVectors(lin: Linearisation): readonly TestVector[] {
  const { start, columns, partials } = lin.rows;
  const vectors: TestVector[] = [];
  for (let row = 0; row < lin.weights.length; row++) {
    const [first, end] = [indexAt(start, row), indexAt(start, row + 1)];
    const weight = at(lin.weights, row);
    vectors.push({
      row,
      columns: columns.subarray(first, end),
      g: partials.slice(first, end).map((value) => value * weight),
      force: weight * at(lin.residuals, row),
      group: undefined,
    });
  }
  for (const group of lin.problem.groups) {
    for (const row of group.rows) vectors[row] = groupedVector(lin, group, row);
  }
  return vectors;
}

/** With W = L^-1 of the group: P = W' W, so that P e_i is column i of W turned back through the whitened rows. */
function groupedVector(lin: Linearisation, group: CorrelatedRows, row: number): TestVector {
  const { rows, residuals } = lin.white;
  const { start, columns, partials } = rows;
  const own = group.rows.indexOf(row);
  const first = indexAt(start, row);
  const width = indexAt(start, row + 1) - first;
  const g = new Float64Array(width);
  let force = 0;
  for (let k = own; k < group.rows.length; k++) {
    const factor = at(group.whitener, packedIndex(k, own));
    const white = item(group.rows, k);
    const from = indexAt(start, white);
    force += factor * at(residuals, white);
    for (let c = 0; c < width; c++) g[c] = at(g, c) + factor * at(partials, from + c);
  }
  return { row, columns: columns.subarray(first, first + width), g, force, group };
}

/** (P Qvv P)_ij of two rows' tests. */
export function testProduct(
  lin: Linearisation,
  covariance: Float64Array,
  a: TestVector,
  b: TestVector,
): number {
  return weightOf(lin, a, b) - product(lin, covariance, a.columns, a.g, b);
}

/** a_i Q g_j: what the computed value of row i follows the test of row j. */
export function rowAgainst(
  lin: Linearisation,
  covariance: Float64Array,
  row: number,
  vector: TestVector,
): number {
  const { start, columns, partials } = lin.rows;
  const [first, end] = [indexAt(start, row), indexAt(start, row + 1)];
  return product(lin, covariance, columns.subarray(first, end), partials.subarray(first, end), vector);
}

function product(
  lin: Linearisation,
  covariance: Float64Array,
  columns: Int32Array,
  values: Float64Array,
  { columns: others, g }: TestVector,
): number {
  const n = lin.problem.layout.slotOfColumn.length;
  let sum = 0;
  for (let e = 0; e < columns.length; e++) {
    const row = indexAt(columns, e) * n;
    let inner = 0;
    for (let f = 0; f < others.length; f++) {
      inner += at(covariance, row + indexAt(others, f)) * at(g, f);
    }
    sum += at(values, e) * inner;
  }
  return sum;
}

/** Entry (i, j) of P. */
function weightOf(lin: Linearisation, a: TestVector, b: TestVector): number {
  if (a.group === undefined) return a.row === b.row ? at(lin.weights, a.row) : 0;
  if (a.group !== b.group) return 0;
  const { rows, whitener } = a.group;
  const [i, j] = [rows.indexOf(a.row), rows.indexOf(b.row)];
  invariant(i >= 0 && j >= 0, 'a row is in its group');
  let sum = 0;
  for (let k = Math.max(i, j); k < rows.length; k++) {
    sum += at(whitener, packedIndex(k, i)) * at(whitener, packedIndex(k, j));
  }
  return sum;
}
