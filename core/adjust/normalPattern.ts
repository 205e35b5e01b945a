/**
 * Which places of the normal matrix the rows of a network fill, in what order it is eliminated, and where each product
 * of two partials goes: all that can be known before any number.
 */
import { at, indexAt } from '../linalg/at.ts';
import { type Elimination, eliminate, placeOf, SymmetricPattern } from '../linalg/elimination.ts';
import type { SparseRows } from './whitening.ts';

/** The elimination, and the way of the products into the values of a matrix (see sparseCholesky.ts). */
export interface NormalPattern {
  readonly elimination: Elimination;
  /** Products of row r: firstProduct[r] up to before firstProduct[r + 1]; entry e with each entry f <= e in turn. */
  readonly firstProduct: Int32Array;
  readonly target: Int32Array;
}

interface Known {
  readonly columns: Int32Array;
  readonly start: Int32Array;
  readonly pattern: NormalPattern;
}

/** The last few patterns: while numbers are typed the same rows come again and again. */
let known: readonly Known[] = [];
const KEPT = 4;

/** The pattern of `rows` over `n` unknowns. */
export function normalPattern(rows: SparseRows, n: number): NormalPattern {
  const { start } = rows;
  const used = indexAt(start, start.length - 1);
  const same = (one: Known): boolean =>
    one.pattern.elimination.n === n &&
    one.columns.length === used &&
    alike(one.start, start, start.length) &&
    alike(one.columns, rows.columns, used);
  const [last] = known;
  if (last !== undefined && same(last)) return last.pattern;
  const found = known.find(same) ?? {
    columns: rows.columns.slice(0, used),
    start: start.slice(),
    pattern: patternAnew(rows, n),
  };
  known = [found, ...known.filter((one) => one !== found)].slice(0, KEPT);
  return found.pattern;
}

function alike(a: Int32Array, b: Int32Array, count: number): boolean {
  if (a.length < count || b.length < count) return false;
  for (let i = 0; i < count; i++) if (indexAt(a, i) !== indexAt(b, i)) return false;
  return true;
}

function patternAnew({ start, columns }: SparseRows, n: number): NormalPattern {
  const count = start.length - 1;
  const pattern = new SymmetricPattern(n);
  const firstProduct = new Int32Array(count + 1);
  for (let r = 0; r < count; r++) {
    const [first, end] = [indexAt(start, r), indexAt(start, r + 1)];
    pattern.couple(columns, first, end);
    firstProduct[r + 1] = indexAt(firstProduct, r) + ((end - first) * (end - first + 1)) / 2;
  }
  const elimination = eliminate(pattern);
  const target = new Int32Array(indexAt(firstProduct, count));
  let product = 0;
  for (let r = 0; r < count; r++) {
    for (let e = indexAt(start, r); e < indexAt(start, r + 1); e++) {
      for (let f = indexAt(start, r); f <= e; f++) {
        target[product++] = placeOf(elimination, indexAt(columns, e), indexAt(columns, f));
      }
    }
  }
  return { elimination, firstProduct, target };
}

/**
 * The variance of each row's computed value, a Q a', from the elements of Q where the pattern has any. Q is symmetric: each
 * pair of unknowns is met once.
 */
export function rowVariances(
  rows: SparseRows,
  { target }: NormalPattern,
  values: Float64Array,
): Float64Array {
  const { start, partials } = rows;
  const count = start.length - 1;
  const variances = new Float64Array(count);
  let product = 0;
  for (let r = 0; r < count; r++) {
    const first = indexAt(start, r);
    const end = indexAt(start, r + 1);
    let sum = 0;
    for (let e = first; e < end; e++) {
      let inner = 0;
      for (let f = first; f < e; f++) inner += at(values, indexAt(target, product++)) * at(partials, f);
      const own = at(partials, e);
      sum += own * (2 * inner + at(values, indexAt(target, product++)) * own);
    }
    variances[r] = sum;
  }
  return variances;
}
