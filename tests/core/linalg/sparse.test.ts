import { describe, expect, test } from 'vitest';
import { addAt, at, indexAt } from '../../../core/linalg/at.ts';
import { choleskyInPlace, choleskySolve, packedIndex, packedSize } from '../../../core/linalg/cholesky.ts';
import { multiplySquare } from '../../../core/linalg/dot.ts';
import { type Elimination, eliminate, placeOf, SymmetricPattern } from '../../../core/linalg/elimination.ts';
import { inverseNormBound } from '../../../core/linalg/inverseNorm.ts';
import { SmallestFirst } from '../../../core/linalg/smallestFirst.ts';
import { SparseCholesky, valueCount } from '../../../core/linalg/sparseCholesky.ts';
import { inverseOnPattern, wholeInverse } from '../../../core/linalg/sparseInverse.ts';

/** Reproducible numbers between -1 and 1. */
const wave = (k: number): number => Math.sin(12.9898 * k + 78.233 * Math.cos(k));

type Keep = (i: number, j: number) => boolean;

const grid: Keep = (i, j) => i - j === 7 || (i - j === 1 && i % 7 > 0);

/** Which element below the diagonal is not empty. */
const patterns: Readonly<Record<string, Keep>> = {
  diagonal: () => false,
  band: (i, j) => i - j <= 2,
  arrow: (_, j) => j === 0,
  scattered: (i, j) => wave(i * 31 + j) > 0.7,
  thin: (i, j) => wave(i * 17 + j) > 0.97,
  grid,
  blocks: (i, j) => Math.floor(i / 11) === Math.floor(j / 11) || j < 3,
  full: () => true,
};

function positiveDefinite(n: number, keep: Keep): Float64Array {
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

function eliminationOf(n: number, keep: Keep): Elimination {
  const pattern = new SymmetricPattern(n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) if (keep(i, j)) pattern.couple(Int32Array.of(i, j), 0, 2);
  }
  return eliminate(pattern);
}

function write(into: Float64Array, elimination: Elimination, a: Float64Array, keep: Keep): void {
  const { n } = elimination;
  for (let i = 0; i < n; i++) {
    into[placeOf(elimination, i, i)] = at(a, i * n + i);
    for (let j = 0; j < i; j++) {
      if (keep(i, j)) into[placeOf(elimination, i, j)] = at(a, i * n + j);
    }
  }
}

function factored(n: number, keep: Keep): { readonly a: Float64Array; readonly cholesky: SparseCholesky } {
  const a = positiveDefinite(n, keep);
  const cholesky = new SparseCholesky(eliminationOf(n, keep));
  write(cholesky.values, cholesky.elimination, a, keep);
  expect(cholesky.factorise(1e-12)).toBe(-1);
  return { a, cholesky };
}

/** Minimum degree by the book: everybody's neighbours in sets, recounted at every step. */
function plainOrder(n: number, keep: Keep): { readonly order: number[]; readonly entries: number } {
  const joined = Array.from({ length: n }, () => new Set<number>());
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) {
      if (!keep(i, j)) continue;
      joined[i]?.add(j);
      joined[j]?.add(i);
    }
  }
  const left = new Set(joined.keys());
  const order: number[] = [];
  let entries = 0;
  while (left.size > 0) {
    const degree = (i: number): number => joined[i]?.size ?? 0;
    const next = [...left].reduce((best, i) => (degree(i) < degree(best) ? i : best));
    const around = [...(joined[next] ?? [])];
    for (const i of around) {
      joined[i]?.delete(next);
      for (const j of around) if (i !== j) joined[i]?.add(j);
    }
    left.delete(next);
    order.push(next);
    entries += around.length;
  }
  return { order, entries };
}

describe('the smallest first', () => {
  test('numbers come out in order, however they went in', () => {
    const queue = new SmallestFirst();
    const numbers = Array.from({ length: 200 }, (_, i) => Math.floor(50 * wave(i)));
    for (const number of numbers) queue.push(number);
    const out = numbers.map(() => queue.pop());
    expect(out).toEqual([...numbers].sort((a, b) => a - b));
    expect(queue.pop()).toBeUndefined();
  });

  test('also when some go in between', () => {
    const queue = new SmallestFirst();
    for (const number of [5, 3, 9]) queue.push(number);
    expect(queue.pop()).toBe(3);
    queue.push(1);
    queue.push(7);
    expect([queue.pop(), queue.pop(), queue.pop(), queue.pop()]).toEqual([1, 5, 7, 9]);
  });
});

describe.each(Object.entries(patterns))('%s', (_, keep) => {
  test.each([1, 5, 33, 70])('order %i is eliminated as the plain rule has it', (n) => {
    const elimination = eliminationOf(n, keep);
    const plain = plainOrder(n, keep);
    expect([...elimination.order]).toEqual(plain.order);
    expect(elimination.below).toHaveLength(plain.entries);
    for (let i = 0; i < n; i++) expect(elimination.position[indexAt(elimination.order, i)]).toBe(i);
  });

  test.each([5, 33, 70])(
    'order %i: columns go downward, rows tell the same entries, runs reach alike',
    (n) => {
      const { start, below, rowStart, rowEntry, rowColumn, runEnd } = eliminationOf(n, keep);
      const column = (k: number): number[] => [...below.subarray(start[k], start[k + 1])];
      const byRows: string[] = [];
      for (let i = 0; i < n; i++) {
        expect(column(i)).toEqual([...new Set(column(i))].sort((a, b) => a - b));
        expect(column(i).every((row) => row > i)).toBe(true);
        for (let r = indexAt(rowStart, i); r < indexAt(rowStart, i + 1); r++) {
          const [k, entry] = [indexAt(rowColumn, r), indexAt(rowEntry, r)];
          expect(entry >= indexAt(start, k) && entry < indexAt(start, k + 1)).toBe(true);
          byRows.push(`${below[entry]}/${k}`);
          expect(below[entry]).toBe(i);
        }
        const end = indexAt(runEnd, i);
        for (let k = i; k < end; k++) expect(column(k)).toEqual([k + 1, ...column(k + 1)]);
        const after = column(end);
        const further = after[0] === end + 1 && column(end + 1).length === after.length - 1;
        expect(further, `the run of ${i} ends where it must`).toBe(false);
      }
      expect(new Set(byRows).size).toBe(below.length);
    },
  );

  test.each([1, 5, 33, 70])('order %i: same solution and inverse as the dense one', (n) => {
    const { a, cholesky } = factored(n, keep);
    const inverse = wholeInverse(cholesky);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        let sum = 0;
        for (let k = 0; k < n; k++) sum += at(a, i * n + k) * at(inverse, k * n + j);
        expect(sum).toBeCloseTo(i === j ? 1 : 0, 12);
      }
    }
    const b = Float64Array.from({ length: n + 1 }, (_, i) => wave(i));
    const dense = b.slice(1);
    const l = new Float64Array(packedSize(n));
    for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) l[packedIndex(i, j)] = at(a, i * n + j);
    choleskyInPlace(l, n, 1e-12);
    choleskySolve(l, n, dense);
    cholesky.solve(b, 1);
    for (let i = 0; i < n; i++) expect(at(b, i + 1)).toBeCloseTo(at(dense, i), 12);
    expect(at(b, 0)).toBe(wave(0));
  });

  test.each([1, 5, 33, 70])('order %i: the inverse on the pattern is that of the whole', (n) => {
    const { cholesky } = factored(n, keep);
    const { elimination } = cholesky;
    const { order, start, below } = elimination;
    const inverse = wholeInverse(cholesky);
    const near = inverseOnPattern(cholesky);
    expect(near).toHaveLength(valueCount(elimination));
    for (let k = 0; k < n; k++) {
      const own = indexAt(order, k);
      expect(at(near, k)).toBeCloseTo(at(inverse, own * n + own), 13);
      for (let e = indexAt(start, k); e < indexAt(start, k + 1); e++) {
        const other = indexAt(order, indexAt(below, e));
        expect(at(near, n + e)).toBeCloseTo(at(inverse, own * n + other), 13);
      }
    }
  });

  test.each([5, 33, 70])('order %i: the norm of the inverse from a few solutions', (n) => {
    const { cholesky } = factored(n, keep);
    const inverse = wholeInverse(cholesky);
    const sums = Array.from({ length: n }, (_, j) => {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += Math.abs(at(inverse, i * n + j));
      return sum;
    });
    const bound = inverseNormBound(n, (b) => cholesky.solve(b));
    expect(bound).toBeLessThanOrEqual(Math.max(...sums) * (1 + 1e-12));
    expect(bound).toBeGreaterThan(0.9 * Math.max(...sums));
  });
});

describe('the factor', () => {
  test('an arrow is eliminated from its tips, so nothing fills in', () => {
    expect(eliminationOf(40, (_, j) => j === 0).below).toHaveLength(39);
  });

  test('the dependent unknown is named in its own number', () => {
    const pattern = new SymmetricPattern(3);
    pattern.couple(Int32Array.of(0, 1, 2), 0, 3);
    const cholesky = new SparseCholesky(eliminate(pattern));
    cholesky.values.fill(1);
    expect(cholesky.factorise(1e-12)).toBe(indexAt(cholesky.elimination.order, 1));
  });

  test('what is not a number is no pivot', () => {
    const cholesky = new SparseCholesky(eliminationOf(2, () => true));
    cholesky.values.fill(Number.NaN);
    expect(cholesky.factorise(1e-12)).toBe(indexAt(cholesky.elimination.order, 0));
  });

  test('it may be written and factored again', () => {
    const { a, cholesky } = factored(33, grid);
    const first = cholesky.values.slice();
    write(cholesky.values.fill(0), cholesky.elimination, a, grid);
    expect(cholesky.factorise(1e-12)).toBe(-1);
    expect(cholesky.values).toEqual(first);
  });

  test('an element that the pattern has no room for is a bug, not a number', () => {
    const elimination = eliminationOf(5, (_, j) => j === 0);
    expect(() => placeOf(elimination, 1, 2)).toThrow('these unknowns meet');
    expect(placeOf(elimination, 0, 3)).toBe(placeOf(elimination, 3, 0));
  });
});

test('a square matrix times a run of numbers, whatever its order', () => {
  for (const n of [0, 1, 3, 4, 9]) {
    const a = Float64Array.from({ length: n * n }, (_, i) => wave(i));
    const x = Float64Array.from({ length: n + 2 }, (_, i) => wave(100 + i));
    const out = new Float64Array(n + 1).fill(7);
    multiplySquare(a, n, x, 2, out, 1);
    const expected = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) addAt(expected, i, at(a, i * n + j) * at(x, 2 + j));
    }
    for (let i = 0; i < n; i++) expect(at(out, i + 1)).toBeCloseTo(at(expected, i), 13);
    expect(out[0]).toBe(7);
  }
});
