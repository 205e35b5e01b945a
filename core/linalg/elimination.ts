/**
 * In which order to eliminate the unknowns of a sparse symmetric matrix, and which places of its factor that fills.
 * Readings join few unknowns each, so most of a network's normal matrix is empty; eliminating the least connected unknown
 * first keeps most of the factor empty too (minimum degree; George & Liu, Computer Solution of Large Sparse Positive
 * Definite Systems, chapter 5). The graph is held as cliques: a reading joins its unknowns, and an eliminated unknown
 * leaves one clique of all it was joined with in place of those it was in, so that no fill is ever written down twice.
 */
import { invariant } from '../result.ts';
import { indexAt, item } from './at.ts';
import { SmallestFirst } from './smallestFirst.ts';

/** Which unknowns meet in some reading. */
export class SymmetricPattern {
  readonly n: number;
  /** One list of unknowns per reading. */
  readonly cliques: number[][] = [];

  constructor(n: number) {
    this.n = n;
  }

  /** Notes that the unknowns listed from `first` up to before `end` all meet each other. */
  couple(unknowns: Int32Array, first: number, end: number): void {
    this.cliques.push(Array.from(unknowns.subarray(first, end)));
  }
}

/**
 * An elimination order and the filled pattern it leads to. The entries of the factor below its diagonal are numbered column
 * by column, each column downward; entry a stands in row below[a].
 */
export interface Elimination {
  readonly n: number;
  /** Unknown eliminated at each position, and the position of each unknown. */
  readonly order: Int32Array;
  readonly position: Int32Array;
  /** Entries of column k: start[k] up to before start[k + 1]. */
  readonly start: Int32Array;
  readonly below: Int32Array;
  /** The same by rows: row i has the entries rowEntry[rowStart[i]] .. rowEntry[rowStart[i + 1] - 1], in these columns. */
  readonly rowStart: Int32Array;
  readonly rowEntry: Int32Array;
  readonly rowColumn: Int32Array;
  /**
   * Last column of the run each column belongs to: from one column of a run to the next only the entry of that next column
   * itself is lost, so that below the run all of it reaches the same rows (a supernode).
   */
  readonly runEnd: Int32Array;
}

/** Minimum-degree elimination of a pattern; ties go to the lower number, so the order is the same every time. */
export function eliminate(pattern: SymmetricPattern): Elimination {
  const { n } = pattern;
  const graph = new CliqueGraph(pattern);
  const order = new Int32Array(n);
  const position = new Int32Array(n).fill(-1);
  const start = new Int32Array(n + 1);
  const reached: number[] = [];
  const queue = new SmallestFirst();
  // An unknown's degree as last counted, or a bound below it: it falls by no more than one when a neighbour goes.
  const least = new Int32Array(n);
  const counted = new Uint8Array(n).fill(1);
  const wait = (unknown: number, degree: number): void => {
    least[unknown] = degree;
    queue.push(degree * n + unknown);
  };
  for (let i = 0; i < n; i++) wait(i, graph.neighbours(i).length);
  for (let k = 0; k < n; ) {
    const key = queue.pop() ?? 0;
    const next = key % n;
    if (indexAt(position, next) >= 0 || key !== indexAt(least, next) * n + next) continue;
    const neighbours = graph.neighbours(next);
    if (counted[next] === 0) {
      counted[next] = 1;
      if (neighbours.length > indexAt(least, next)) {
        wait(next, neighbours.length);
        continue;
      }
    }
    order[k] = next;
    position[next] = k;
    graph.remove(next, neighbours);
    for (const other of neighbours) {
      reached.push(other);
      counted[other] = 0;
      wait(other, Math.max(indexAt(least, other) - 1, neighbours.length - 1));
    }
    start[++k] = reached.length;
  }
  const entries = sorted(reached, start, position);
  return { n, order, position, start, ...entries, runEnd: runs(start, entries.below) };
}

function runs(start: Int32Array, below: Int32Array): Int32Array {
  const n = start.length - 1;
  const runEnd = new Int32Array(n);
  for (let k = n - 1; k >= 0; k--) {
    const first = indexAt(start, k);
    const count = indexAt(start, k + 1) - first;
    const goesOn =
      count > 0 && below[first] === k + 1 && indexAt(start, k + 2) - indexAt(start, k + 1) === count - 1;
    runEnd[k] = goesOn ? indexAt(runEnd, k + 1) : k;
  }
  return runEnd;
}

/** Who is joined with whom, while unknowns go. */
class CliqueGraph {
  /** Emptied when all of it has gone into another. */
  private readonly cliques: (readonly number[])[];
  /** Cliques each unknown is in. */
  private readonly of: number[][];
  private readonly seen: Int32Array;
  private round = 0;

  constructor({ n, cliques }: SymmetricPattern) {
    this.cliques = [...cliques];
    this.of = Array.from({ length: n }, () => []);
    this.seen = new Int32Array(n).fill(-1);
    cliques.forEach((clique, c) => {
      for (const unknown of clique) this.of[unknown]?.push(c);
    });
  }

  /** Everything joined with an unknown that has not gone. */
  neighbours(unknown: number): number[] {
    const { seen, cliques } = this;
    const round = this.round++;
    seen[unknown] = round;
    const found: number[] = [];
    const own = (this.of[unknown] ?? []).filter((c) => cliques[c]?.length);
    this.of[unknown] = own;
    for (const c of own) {
      for (const other of cliques[c] ?? []) {
        if (seen[other] === round) continue;
        seen[other] = round;
        found.push(other);
      }
    }
    return found;
  }

  /** Takes an unknown out, which joins all its neighbours. */
  remove(unknown: number, neighbours: readonly number[]): void {
    for (const c of this.of[unknown] ?? []) this.cliques[c] = [];
    this.of[unknown] = [];
    for (const other of neighbours) this.of[other]?.push(this.cliques.length);
    this.cliques.push(neighbours);
  }
}

/** Entries by rows and, each column downward, by columns: sorting by rows and then by columns takes no comparison. */
function sorted(
  reached: readonly number[],
  start: Int32Array,
  position: Int32Array,
): Pick<Elimination, 'below' | 'rowStart' | 'rowEntry' | 'rowColumn'> {
  const n = position.length;
  const rowStart = new Int32Array(n + 1);
  for (const unknown of reached) {
    const row = indexAt(position, unknown);
    rowStart[row + 1] = indexAt(rowStart, row + 1) + 1;
  }
  for (let i = 0; i < n; i++) rowStart[i + 1] = indexAt(rowStart, i + 1) + indexAt(rowStart, i);
  const rowColumn = new Int32Array(reached.length);
  const inRow = rowStart.slice();
  for (let k = 0; k < n; k++) {
    for (let a = indexAt(start, k); a < indexAt(start, k + 1); a++) {
      const row = indexAt(position, item(reached, a));
      const to = indexAt(inRow, row);
      rowColumn[to] = k;
      inRow[row] = to + 1;
    }
  }
  const below = new Int32Array(reached.length);
  const rowEntry = new Int32Array(reached.length);
  const inColumn = start.slice();
  for (let i = 0; i < n; i++) {
    for (let r = indexAt(rowStart, i); r < indexAt(rowStart, i + 1); r++) {
      const column = indexAt(rowColumn, r);
      const entry = indexAt(inColumn, column);
      below[entry] = i;
      rowEntry[r] = entry;
      inColumn[column] = entry + 1;
    }
  }
  return { below, rowStart, rowEntry, rowColumn };
}

/**
 * Where the element of two unknowns stands in the values of a matrix of this pattern (see sparseCholesky.ts). To ask for two
 * that never meet is a bug.
 */
export function placeOf({ n, position, start, below }: Elimination, unknown: number, other: number): number {
  const [p, q] = [indexAt(position, unknown), indexAt(position, other)];
  if (p === q) return p;
  const [column, row] = p < q ? [p, q] : [q, p];
  let low = indexAt(start, column);
  let high = indexAt(start, column + 1);
  while (low < high) {
    const middle = (low + high) >> 1;
    if (indexAt(below, middle) < row) low = middle + 1;
    else high = middle;
  }
  invariant(low < indexAt(start, column + 1) && below[low] === row, 'these unknowns meet');
  return n + low;
}
