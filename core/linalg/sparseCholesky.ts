/**
 * Cholesky factor of a sparse symmetric positive definite matrix. Readings join few unknowns each, so most of a
 * network's normal matrix is empty; eliminating the least connected unknown first keeps most of the factor empty too
 * (minimum degree; George & Liu, Computer Solution of Large Sparse Positive Definite Systems, chapter 5).
 * Values are held packed (see cholesky.ts) in elimination order; only the places of the pattern are ever touched.
 */
import { at, indexAt, item } from './at.ts';
import { packedSize } from './cholesky.ts';

/** Which pairs of unknowns meet in some reading. One bit per pair. */
export class SymmetricPattern {
  readonly n: number;
  readonly words: number;
  readonly bits: Int32Array;
  private readonly together: Int32Array;

  constructor(n: number) {
    this.n = n;
    this.words = (n + 31) >> 5;
    this.bits = new Int32Array(n * this.words);
    this.together = new Int32Array(this.words);
  }

  /** Notes that the unknowns listed from `first` up to before `end` all meet each other. */
  couple(unknowns: Int32Array, first: number, end: number): void {
    const { bits, words, together } = this;
    together.fill(0);
    for (let e = first; e < end; e++) {
      const unknown = indexAt(unknowns, e);
      together[unknown >> 5] = indexAt(together, unknown >> 5) | (1 << (unknown & 31));
    }
    for (let e = first; e < end; e++) {
      const row = indexAt(unknowns, e) * words;
      for (let w = 0; w < words; w++) bits[row + w] = indexAt(bits, row + w) | indexAt(together, w);
    }
  }
}

/** An elimination order and the filled pattern it leads to. */
export interface Elimination {
  readonly n: number;
  /** Unknown eliminated at each position, and the position of each unknown. */
  readonly order: Int32Array;
  readonly position: Int32Array;
  /** For each position, the later positions its column of the factor reaches: below[start[k]] .. below[start[k+1]-1]. */
  readonly start: Int32Array;
  readonly below: Int32Array;
}

function bitCount(word: number): number {
  const pairs = word - ((word >>> 1) & 0x55555555);
  const nibbles = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333);
  return (((nibbles + (nibbles >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}

/** The last pattern and its elimination: while numbers are typed the same network is solved again and again. */
let last: { readonly pattern: SymmetricPattern; readonly elimination: Elimination } | undefined;

/** Minimum-degree elimination of a pattern; ties go to the lower number, so the order is the same every time. */
export function eliminate(pattern: SymmetricPattern): Elimination {
  if (last === undefined || !samePattern(last.pattern, pattern)) {
    last = { pattern, elimination: eliminateAnew(pattern) };
  }
  return last.elimination;
}

function samePattern(a: SymmetricPattern, b: SymmetricPattern): boolean {
  if (a.n !== b.n) return false;
  for (let i = 0; i < a.bits.length; i++) if (indexAt(a.bits, i) !== indexAt(b.bits, i)) return false;
  return true;
}

function eliminateAnew(pattern: SymmetricPattern): Elimination {
  const { n, words } = pattern;
  const bits = pattern.bits.slice();
  const order = new Int32Array(n);
  const position = new Int32Array(n).fill(-1);
  const start = new Int32Array(n + 1);
  const degree = new Int32Array(n);
  const reached: number[] = [];
  for (let i = 0; i < n; i++) {
    clear(bits, i * words, i);
    degree[i] = countRow(bits, i * words, words);
  }
  for (let k = 0; k < n; k++) {
    const next = leastConnected(degree, position);
    order[k] = next;
    position[next] = k;
    const from = reached.length;
    pushMembers(bits, next * words, words, reached);
    for (let m = from; m < reached.length; m++) {
      const member = item(reached, m);
      const row = member * words;
      for (let w = 0; w < words; w++) {
        bits[row + w] = indexAt(bits, row + w) | indexAt(bits, next * words + w);
      }
      clear(bits, row, member);
      clear(bits, row, next);
      degree[member] = countRow(bits, row, words);
    }
    start[k + 1] = reached.length;
  }
  return { n, order, position, start, below: sortedPositions(reached, start, position) };
}

function leastConnected(degree: Int32Array, position: Int32Array): number {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < degree.length; i++) {
    if (indexAt(degree, i) >= least || indexAt(position, i) >= 0) continue;
    best = i;
    least = indexAt(degree, i);
  }
  return best;
}

function clear(bits: Int32Array, row: number, member: number): void {
  const word = row + (member >> 5);
  bits[word] = indexAt(bits, word) & ~(1 << (member & 31));
}

function countRow(bits: Int32Array, row: number, words: number): number {
  let count = 0;
  for (let w = 0; w < words; w++) count += bitCount(indexAt(bits, row + w));
  return count;
}

function pushMembers(bits: Int32Array, row: number, words: number, into: number[]): void {
  for (let w = 0; w < words; w++) {
    for (let word = indexAt(bits, row + w); word !== 0; word &= word - 1) {
      into.push(w * 32 + 31 - Math.clz32(word & -word));
    }
  }
}

/** Turns unknowns into positions and sorts each column's run (short, nearly sorted: by insertion). */
function sortedPositions(reached: readonly number[], start: Int32Array, position: Int32Array): Int32Array {
  const below = new Int32Array(reached.length);
  for (let i = 0; i < reached.length; i++) below[i] = indexAt(position, item(reached, i));
  for (let k = 0; k + 1 < start.length; k++) {
    for (let i = indexAt(start, k) + 1; i < indexAt(start, k + 1); i++) {
      const value = indexAt(below, i);
      let j = i - 1;
      for (; j >= indexAt(start, k) && indexAt(below, j) > value; j--) below[j + 1] = indexAt(below, j);
      below[j + 1] = value;
    }
  }
  return below;
}

/** Where (i, j) with j <= i stands in packed values. */
function packed(i: number, j: number): number {
  return ((i * (i + 1)) >> 1) + j;
}

/** Factors matrices of one pattern, solves with them and inverts them. */
export class SparseCholesky {
  readonly elimination: Elimination;
  /** Packed factor in elimination order; the matrix is written here before `factorise`. */
  readonly values: Float64Array;
  private readonly diagonal: Float64Array;
  private readonly work: Float64Array;

  constructor(elimination: Elimination) {
    this.elimination = elimination;
    this.values = new Float64Array(packedSize(elimination.n));
    this.diagonal = new Float64Array(elimination.n);
    this.work = new Float64Array(elimination.n);
  }

  /**
   * Replaces the matrix in `values` by its factor. Answers -1, or the first unknown whose pivot falls to `tolerance`
   * times its diagonal or below: it depends on those eliminated before it, and `values` is spoiled.
   */
  factorise(tolerance: number): number {
    const { values, diagonal, work } = this;
    const { n, start, below, order } = this.elimination;
    for (let k = 0; k < n; k++) diagonal[k] = at(values, packed(k, k));
    for (let k = 0; k < n; k++) {
      const pivot = at(values, packed(k, k));
      if (!(pivot > tolerance * at(diagonal, k))) return indexAt(order, k);
      const root = Math.sqrt(pivot);
      values[packed(k, k)] = root;
      const first = indexAt(start, k);
      const end = indexAt(start, k + 1);
      for (let a = first; a < end; a++) {
        const row = packed(indexAt(below, a), 0);
        const factor = at(values, row + k) / root;
        values[row + k] = factor;
        // The column side by side, not strewn over the rows: each of its numbers is read for all that follow.
        work[a - first] = factor;
        for (let b = first; b <= a; b++) {
          const j = indexAt(below, b);
          values[row + j] = at(values, row + j) - factor * at(work, b - first);
        }
      }
    }
    return -1;
  }

  /** Solves in place for a right side in the order of the unknowns, from `offset` on. */
  solve(b: Float64Array, offset = 0): void {
    const { values, work } = this;
    const { n, start, below, order } = this.elimination;
    for (let k = 0; k < n; k++) work[k] = at(b, offset + indexAt(order, k));
    for (let k = 0; k < n; k++) {
      const y = at(work, k) / at(values, packed(k, k));
      work[k] = y;
      for (let a = indexAt(start, k); a < indexAt(start, k + 1); a++) {
        const i = indexAt(below, a);
        work[i] = at(work, i) - at(values, packed(i, k)) * y;
      }
    }
    for (let k = n - 1; k >= 0; k--) {
      let y = at(work, k);
      for (let a = indexAt(start, k); a < indexAt(start, k + 1); a++) {
        const i = indexAt(below, a);
        y -= at(values, packed(i, k)) * at(work, i);
      }
      y /= at(values, packed(k, k));
      work[k] = y;
      b[offset + indexAt(order, k)] = y;
    }
  }

  /** Empties `matrix` (packed, as `values`) where the pattern can hold anything; the rest was never written. */
  clear(matrix: Float64Array): void {
    const { n, start, below } = this.elimination;
    for (let k = 0; k < n; k++) {
      matrix[packed(k, k)] = 0;
      for (let a = indexAt(start, k); a < indexAt(start, k + 1); a++)
        matrix[packed(indexAt(below, a), k)] = 0;
    }
  }

  /** Takes over `matrix` (packed, as `values`) where the pattern can hold anything. */
  take(matrix: Float64Array): void {
    const { values } = this;
    const { n, start, below } = this.elimination;
    for (let k = 0; k < n; k++) {
      values[packed(k, k)] = at(matrix, packed(k, k));
      for (let a = indexAt(start, k); a < indexAt(start, k + 1); a++) {
        const i = packed(indexAt(below, a), k);
        values[i] = at(matrix, i);
      }
    }
  }

  /**
   * The inverse where the factor is not empty, packed in elimination order as `values`: the elements of all unknowns that
   * meet in a row are among them, and the effort is that of the factor (Takahashi, Fagan & Chin 1973; Erisman & Tinney 1975).
   * Elements outside the pattern stay 0 and mean nothing.
   */
  inverseOnPattern(): Float64Array {
    const { values, work } = this;
    const { n, start, below } = this.elimination;
    const z = new Float64Array(values.length);
    for (let i = n - 1; i >= 0; i--) {
      const root = at(values, packed(i, i));
      const first = indexAt(start, i);
      const count = indexAt(start, i + 1) - first;
      for (let a = 0; a < count; a++) work[a] = -at(values, packed(indexAt(below, first + a), i)) / root;
      let own = 1 / root;
      for (let a = 0; a < count; a++) {
        const row = indexAt(below, first + a);
        let sum = 0;
        for (let b = 0; b < count; b++) {
          const column = indexAt(below, first + b);
          sum += at(work, b) * at(z, row > column ? packed(row, column) : packed(column, row));
        }
        z[packed(row, i)] = sum;
        own += root * at(work, a) * sum;
      }
      z[packed(i, i)] = own / root;
    }
    return z;
  }

  /**
   * The whole inverse, full and in the order of the unknowns. Row by row from the last eliminated up: each is a
   * combination of the few rows its column of the factor reaches (Takahashi's recurrence, carried to all elements).
   */
  inverse(): Float64Array {
    const { values, work } = this;
    const { n, start, below, order } = this.elimination;
    const z = scratchOf(n * n);
    for (let i = n - 1; i >= 0; i--) {
      const root = at(values, packed(i, i));
      const row = i * n;
      z.fill(0, row + i + 1, row + n);
      const first = indexAt(start, i);
      const count = indexAt(start, i + 1) - first;
      for (let a = 0; a < count; a++) work[a] = -at(values, packed(indexAt(below, first + a), i)) / root;
      combine(z, row, i + 1, n, below, first, count, work);
      let own = 1 / root;
      for (let a = 0; a < count; a++) own += root * at(work, a) * at(z, row + indexAt(below, first + a));
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
}

/** Working space of the last inverse, kept: making it anew for every network costs more than filling it. */
let scratch = new Float64Array(0);

function scratchOf(length: number): Float64Array {
  if (scratch.length < length) scratch = new Float64Array(length);
  return scratch;
}

/** Adds rows of z, each times its factor, to the row at `row`, from column `from` on; two at a time spares half the stores. */
function combine(
  z: Float64Array,
  row: number,
  from: number,
  n: number,
  below: Int32Array,
  first: number,
  count: number,
  factors: Float64Array,
): void {
  let a = 0;
  for (; a + 1 < count; a += 2) {
    const [one, other] = [at(factors, a), at(factors, a + 1)];
    const [p, q] = [indexAt(below, first + a) * n, indexAt(below, first + a + 1) * n];
    for (let j = from; j < n; j++) z[row + j] = at(z, row + j) + one * at(z, p + j) + other * at(z, q + j);
  }
  if (a === count) return;
  const [last, p] = [at(factors, a), indexAt(below, first + a) * n];
  for (let j = from; j < n; j++) z[row + j] = at(z, row + j) + last * at(z, p + j);
}
