/**
 * The inverse of a matrix from its sparse Cholesky factor: the elements where the factor is not empty, at about the effort
 * of the factor itself, or all of it (Takahashi, Fagan & Chin 1973; Erisman & Tinney 1975). Column i of the factor says
 * how row i of the inverse is combined from rows further down, so both go from the last eliminated up.
 */
import { addAt, at, indexAt } from './at.ts';
import { dot, multiplySquare } from './dot.ts';
import type { Elimination } from './elimination.ts';
import { type SparseCholesky, valueCount } from './sparseCholesky.ts';

/** Columns that share one layout; what lies among them is less regular. */
const MOST_TOGETHER = 8;

/**
 * The inverse where the factor is not empty, as the values of a matrix of the same pattern: the elements of all unknowns
 * that meet in a row are among them. Run by run: what all columns of a run need of the inverse is laid out once, full.
 */
export function inverseOnPattern(factor: SparseCholesky): Float64Array {
  const { elimination } = factor;
  const { n, start, runEnd } = elimination;
  const inverse = new Float64Array(valueCount(elimination));
  let widest = 0;
  for (let k = 0; k < n; k++) widest = Math.max(widest, indexAt(start, k + 1) - indexAt(start, k));
  const around = { full: new Float64Array(widest * widest), place: new Int32Array(n).fill(-1) };
  for (let last = n - 1; last >= 0; ) {
    layOut(elimination, inverse, last, around);
    let column = last;
    for (; column > last - MOST_TOGETHER && runEnd[column] === runEnd[last]; column--) {
      inverseColumn(factor, inverse, column, last, around.full);
    }
    last = column;
  }
  return inverse;
}

/** The elements of the inverse between the rows that column `last` reaches, full. `place` is -1 outside and afterwards. */
interface Around {
  readonly full: Float64Array;
  readonly place: Int32Array;
}

function layOut({ n, start, below }: Elimination, inverse: Float64Array, last: number, around: Around): void {
  const { full, place } = around;
  const first = indexAt(start, last);
  const end = indexAt(start, last + 1);
  const count = end - first;
  for (let a = first; a < end; a++) place[indexAt(below, a)] = a - first;
  for (let p = 0; p < count; p++) {
    const column = indexAt(below, first + p);
    full[p * count + p] = at(inverse, column);
    for (let b = indexAt(start, column), stop = indexAt(start, column + 1); b < stop; b++) {
      const q = indexAt(place, indexAt(below, b));
      if (q < 0) continue;
      const element = at(inverse, n + b);
      full[p * count + q] = element;
      full[q * count + p] = element;
    }
  }
  for (let a = first; a < end; a++) place[indexAt(below, a)] = -1;
}

/** One column of a run that ends at `last`; its entries are first those of the run's later columns, then those below the run. */
function inverseColumn(
  { elimination: { n, start }, diagonal, lower }: SparseCholesky,
  inverse: Float64Array,
  column: number,
  last: number,
  full: Float64Array,
): void {
  const first = indexAt(start, column);
  const later = last - column;
  const rest = first + later;
  const count = indexAt(start, column + 1) - rest;
  const root = at(diagonal, column);
  const ofRun = (k: number): number => n + indexAt(start, k) + last - k;
  multiplySquare(full, count, lower, rest, inverse, n + rest);
  for (let k = column + 1; k <= last; k++) {
    const factor = at(lower, first + k - column - 1);
    const from = ofRun(k);
    for (let p = 0; p < count; p++) addAt(inverse, n + rest + p, factor * at(inverse, from + p));
    // An element between two columns of the run stands in the earlier one.
    let sum = dot(inverse, from, lower, rest, count) + at(inverse, k) * factor;
    for (let j = column + 1; j <= last; j++) {
      if (j === k) continue;
      const element = n + (j < k ? indexAt(start, j) + k - j - 1 : indexAt(start, k) + j - k - 1);
      sum += at(inverse, element) * at(lower, first + j - column - 1);
    }
    inverse[n + first + k - column - 1] = -sum / root;
  }
  for (let p = 0; p < count; p++) inverse[n + rest + p] = -at(inverse, n + rest + p) / root;
  inverse[column] = (1 / root - dot(lower, first, inverse, n + first, later + count)) / root;
}

/** The whole inverse, full and in the order of the unknowns. */
export function wholeInverse({ elimination, diagonal, lower }: SparseCholesky): Float64Array {
  const { n, start, below, order } = elimination;
  const z = scratchOf(n * n);
  for (let i = n - 1; i >= 0; i--) {
    const root = at(diagonal, i);
    const row = i * n;
    const first = indexAt(start, i);
    const end = indexAt(start, i + 1);
    z.fill(0, row + i + 1, row + n);
    combine(z, row, i + 1, n, below, first, end, lower, -1 / root);
    let own = 1 / root;
    for (let a = first; a < end; a++) own -= at(lower, a) * at(z, row + indexAt(below, a));
    z[row + i] = own / root;
    for (let j = i + 1; j < n; j++) z[j * n + i] = at(z, row + j);
  }
  const inverse = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    const to = indexAt(order, i) * n;
    for (let j = 0; j < n; j++) inverse[to + indexAt(order, j)] = at(z, i * n + j);
  }
  return inverse;
}

/** Working space of the last inverse, kept: making it anew for every network costs more than filling it. */
let scratch = new Float64Array(0);

function scratchOf(length: number): Float64Array {
  if (scratch.length < length) scratch = new Float64Array(length);
  return scratch;
}

/** Adds rows of z, each times its factor, to the row at `row`, from column `from` on; several at a time spares stores. */
function combine(
  z: Float64Array,
  row: number,
  from: number,
  n: number,
  below: Int32Array,
  first: number,
  end: number,
  lower: Float64Array,
  scale: number,
): void {
  let a = first;
  for (; a + 3 < end; a += 4) {
    const f = at(lower, a) * scale;
    const g = at(lower, a + 1) * scale;
    const h = at(lower, a + 2) * scale;
    const m = at(lower, a + 3) * scale;
    const p = indexAt(below, a) * n;
    const q = indexAt(below, a + 1) * n;
    const r = indexAt(below, a + 2) * n;
    const s = indexAt(below, a + 3) * n;
    for (let j = from; j < n; j++) {
      z[row + j] = at(z, row + j) + f * at(z, p + j) + g * at(z, q + j) + h * at(z, r + j) + m * at(z, s + j);
    }
  }
  for (; a + 1 < end; a += 2) {
    const one = at(lower, a) * scale;
    const other = at(lower, a + 1) * scale;
    const p = indexAt(below, a) * n;
    const q = indexAt(below, a + 1) * n;
    for (let j = from; j < n; j++) z[row + j] = at(z, row + j) + one * at(z, p + j) + other * at(z, q + j);
  }
  if (a === end) return;
  const last = at(lower, a) * scale;
  const p = indexAt(below, a) * n;
  for (let j = from; j < n; j++) z[row + j] = at(z, row + j) + last * at(z, p + j);
}
