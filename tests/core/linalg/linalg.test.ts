import { describe, expect, test } from 'vitest';
import { addAt, at, indexAt, item } from '../../../core/linalg/at.ts';
import {
  choleskyInPlace,
  choleskyInverse,
  choleskySolve,
  packedIndex,
  packedSize,
} from '../../../core/linalg/cholesky.ts';
import { dot } from '../../../core/linalg/dot.ts';
import { symmetricEigen } from '../../../core/linalg/eigen.ts';
import { entry, identityMatrix, matrixFromRows, multiply, transpose } from '../../../core/linalg/matrix.ts';
import { nullSpace } from '../../../core/linalg/nullSpace.ts';
import { singularValues } from '../../../core/linalg/svd.ts';

/** Reproducible numbers between -1 and 1. */
const wave = (k: number): number => Math.sin(12.9898 * k + 78.233 * Math.cos(k));

function positiveDefinite(n: number, keep: (i: number, j: number) => boolean = () => true): Float64Array {
  const a = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) {
      const value = keep(i, j) ? wave(i * n + j) : 0;
      a[i * n + j] = value;
      a[j * n + i] = value;
    }
    a[i * n + i] = n + 1 + wave(i);
  }
  return a;
}

function packedOf(a: Float64Array, n: number): Float64Array {
  const packed = new Float64Array(packedSize(n));
  for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) packed[packedIndex(i, j)] = at(a, i * n + j);
  return packed;
}

function expectInverse(a: Float64Array, inverse: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let sum = 0;
      for (let k = 0; k < n; k++) sum += at(a, i * n + k) * at(inverse, k * n + j);
      expect(sum).toBeCloseTo(i === j ? 1 : 0, 12);
    }
  }
}

describe('at', () => {
  test('an index outside throws instead of giving NaN', () => {
    expect(() => at(new Float64Array(3), 3)).toThrow('index 3 outside an array of 3');
    expect(() => indexAt(new Int32Array(1), -1)).toThrow(/outside/);
    expect(() => item([1], 2)).toThrow(/outside/);
    expect(() => addAt(new Float64Array(0), 0, 1)).toThrow(/outside/);
    expect(at(Float64Array.of(Number.NaN), 0)).toBeNaN();
  });
});

describe('dot', () => {
  test('every length around the four-fold step', () => {
    const a = Float64Array.from({ length: 12 }, (_, i) => i + 1);
    for (let count = 0; count <= 10; count++) {
      let sum = 0;
      for (let i = 0; i < count; i++) sum += at(a, i + 1) * at(a, i + 2);
      expect(dot(a, 1, a, 2, count)).toBe(sum);
    }
  });
});

describe('dense Cholesky', () => {
  for (const n of [1, 2, 3, 8, 21]) {
    test(`order ${n}: factor, solution and inverse`, () => {
      const a = positiveDefinite(n);
      const l = packedOf(a, n);
      expect(choleskyInPlace(l, n, 1e-12)).toBe(-1);
      const x = Float64Array.from({ length: n }, (_, i) => wave(i + 100));
      const b = new Float64Array(n);
      for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) addAt(b, i, at(a, i * n + j) * at(x, j));
      choleskySolve(l, n, b);
      for (let i = 0; i < n; i++) expect(b[i]).toBeCloseTo(at(x, i), 12);
      const inverse = new Float64Array(n * n);
      choleskyInverse(l, n, inverse, new Float64Array(n * n));
      expectInverse(a, inverse, n);
    });
  }

  test('the first row that depends on those before it is named', () => {
    // Row 2 is row 0 plus row 1 of a Gram matrix.
    const rows = [
      [1, 0, 2],
      [0, 1, 1],
      [1, 1, 3],
    ];
    const packed = new Float64Array(packedSize(3));
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j <= i; j++) {
        packed[packedIndex(i, j)] = (rows[i] ?? []).reduce((sum, v, k) => sum + v * (rows[j]?.[k] ?? 0), 0);
      }
    }
    expect(choleskyInPlace(packed, 3, 1e-12)).toBe(2);
  });

  test('NaN and negative diagonals are not positive definite', () => {
    expect(choleskyInPlace(Float64Array.of(Number.NaN), 1, 0)).toBe(0);
    expect(choleskyInPlace(Float64Array.of(-1), 1, 0)).toBe(0);
    expect(choleskyInPlace(Float64Array.of(0), 1, 0)).toBe(0);
  });
});

describe('eigenvalues and singular values', () => {
  test('a symmetric matrix is put together again from its vectors and values', () => {
    const n = 7;
    const a = positiveDefinite(n);
    const { values, vectors } = symmetricEigen(a, n);
    expect([...values]).toEqual([...values].sort((p, q) => p - q));
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        let sum = 0;
        let ortho = 0;
        for (let k = 0; k < n; k++) {
          sum += at(values, k) * at(vectors, k * n + i) * at(vectors, k * n + j);
          ortho += at(vectors, i * n + k) * at(vectors, j * n + k);
        }
        expect(sum).toBeCloseTo(at(a, i * n + j), 12);
        expect(ortho).toBeCloseTo(i === j ? 1 : 0, 12);
      }
    }
  });

  test('a singular one has its zero, and stops turning', () => {
    const { values } = symmetricEigen(Float64Array.of(1, 1, 1, 1), 2);
    expect(values[0]).toBeCloseTo(0, 15);
    expect(values[1]).toBeCloseTo(2, 15);
  });

  test('u diag(values) v is the matrix, values fall, also when a column is zero', () => {
    for (const rows of [
      [
        [1, 2, 3],
        [4, 5, 6.5],
        [7, 8, -9],
        [0.1, 0, 2],
      ],
      [
        [1, 0],
        [2, 0],
        [3, 0],
      ],
    ]) {
      const a = matrixFromRows(rows);
      const { u, values, v } = singularValues(a);
      expect([...values]).toEqual([...values].sort((p, q) => q - p));
      const diagonal = identityMatrix(values.length);
      values.forEach((value, i) => {
        diagonal.data[i * values.length + i] = value;
      });
      const again = multiply(multiply(u, diagonal), transpose(v));
      for (let i = 0; i < a.rows; i++) {
        for (let j = 0; j < a.columns; j++) expect(entry(again, i, j)).toBeCloseTo(entry(a, i, j), 12);
      }
    }
  });

  test('a matrix of ragged rows, or a product that does not fit, is a bug', () => {
    expect(() => matrixFromRows([[1], [1, 2]])).toThrow(/one length/);
    expect(() => multiply(identityMatrix(2), identityMatrix(3))).toThrow(/cannot multiply/);
  });
});

describe('null space', () => {
  test.each([0, 1, 2, 5])('a matrix of order nine with %i directions taken out', (missing) => {
    const n = 9;
    // Random directions made orthonormal by hand; A = B B' with B their complement times a full matrix.
    const taken: Float64Array[] = [];
    for (let d = 0; d < missing; d++) {
      const x = Float64Array.from({ length: n }, (_, i) => wave(7 * d + i + 0.3));
      for (const other of taken) {
        const share = dot(x, 0, other, 0, n);
        for (let i = 0; i < n; i++) addAt(x, i, -share * at(other, i));
      }
      const size = Math.sqrt(dot(x, 0, x, 0, n));
      taken.push(x.map((value) => value / size));
    }
    const b = Array.from({ length: n }, (_, c) => {
      const x = Float64Array.from({ length: n }, (_unused, i) => wave(31 * c + i) + (c === i ? 2 : 0));
      for (const other of taken) {
        const share = dot(x, 0, other, 0, n);
        for (let i = 0; i < n; i++) addAt(x, i, -share * at(other, i));
      }
      return x;
    });
    const a = new Float64Array(n * n);
    for (const x of b)
      for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) addAt(a, i * n + j, at(x, i) * at(x, j));
    const found = nullSpace(a, n, 1e-10);
    expect(found).toHaveLength(missing);
    found.forEach((x, k) => {
      found.forEach((y, l) => {
        expect(dot(x, 0, y, 0, n)).toBeCloseTo(k === l ? 1 : 0, 12);
      });
      for (let i = 0; i < n; i++) expect(Math.abs(dot(a, i * n, x, 0, n))).toBeLessThan(1e-10);
      // Within the span of what was taken out, entirely.
      const inside = taken.reduce((sum, t) => sum + dot(x, 0, t, 0, n) ** 2, 0);
      expect(inside).toBeCloseTo(1, 10);
    });
  });
});
