/** A small dense matrix, row by row, and the few products the geometry needs. */
import { invariant } from '../result.ts';
import { at } from './at.ts';

/** `rows` by `columns` numbers, row by row. */
export interface Matrix {
  readonly rows: number;
  readonly columns: number;
  readonly data: Float64Array;
}

/** A matrix from its rows: `matrixFromRows([[1, 2], [3, 4]])`. Rows of unequal length are a bug and throw. */
export function matrixFromRows(rows: readonly (readonly number[])[]): Matrix {
  const columns = rows[0]?.length ?? 0;
  invariant(
    rows.every((row) => row.length === columns),
    'the rows of a matrix have one length',
  );
  return { rows: rows.length, columns, data: Float64Array.from(rows.flat()) };
}

/** A matrix of zeros. */
export function zeroMatrix(rows: number, columns: number): Matrix {
  return { rows, columns, data: new Float64Array(rows * columns) };
}

/** The unit matrix. */
export function identityMatrix(n: number): Matrix {
  const matrix = zeroMatrix(n, n);
  for (let i = 0; i < n; i++) matrix.data[i * n + i] = 1;
  return matrix;
}

/** Element in row i, column j. */
export function entry(matrix: Matrix, i: number, j: number): number {
  return at(matrix.data, i * matrix.columns + j);
}

/** a b. */
export function multiply(a: Matrix, b: Matrix): Matrix {
  invariant(a.columns === b.rows, `cannot multiply ${a.columns} columns by ${b.rows} rows`);
  const product = zeroMatrix(a.rows, b.columns);
  for (let i = 0; i < a.rows; i++) {
    for (let j = 0; j < b.columns; j++) {
      let sum = 0;
      for (let k = 0; k < a.columns; k++) sum += entry(a, i, k) * entry(b, k, j);
      product.data[i * b.columns + j] = sum;
    }
  }
  return product;
}

/** The transpose. */
export function transpose(a: Matrix): Matrix {
  const turned = zeroMatrix(a.columns, a.rows);
  for (let i = 0; i < a.rows; i++) {
    for (let j = 0; j < a.columns; j++) turned.data[j * a.rows + i] = entry(a, i, j);
  }
  return turned;
}

/** Determinant of a 3 by 3 matrix. */
export function determinant3(a: Matrix): number {
  invariant(a.rows === 3 && a.columns === 3, 'a 3 by 3 matrix');
  const e = (i: number, j: number) => entry(a, i, j);
  return (
    e(0, 0) * (e(1, 1) * e(2, 2) - e(1, 2) * e(2, 1)) -
    e(0, 1) * (e(1, 0) * e(2, 2) - e(1, 2) * e(2, 0)) +
    e(0, 2) * (e(1, 0) * e(2, 1) - e(1, 1) * e(2, 0))
  );
}
