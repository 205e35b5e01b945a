/**
 * Which rows and unknowns of a network check each other, and which merely follow. Where as many rows as unknowns stand
 * apart from the redundant rest, least squares meets those rows exactly: they can be solved afterwards (the coarse
 * decomposition of Dulmage and Mendelsohn, Canadian Journal of Mathematics 10 (1958) 517-534).
 */
import { indexAt } from '../../linalg/at.ts';
import type { Linearised } from '../solution.ts';

/** True for the rows and unknowns of the redundant part; the others follow from it one to one. */
export interface RedundantPart {
  readonly rows: readonly boolean[];
  readonly unknowns: readonly boolean[];
}

type Pattern = Pick<Linearised, 'rowStart' | 'column'>;

/** Splits a pattern of `rows` rows and `n` unknowns. A row that no unknown touches belongs to neither and counts as redundant. */
export function redundantPart(pattern: Pattern, rows: number, n: number): RedundantPart {
  const { rowOf, unknownOf } = matching(pattern, rows, n);
  const inRows = Array.from({ length: rows }, () => false);
  const inUnknowns = Array.from({ length: n }, () => false);
  // From every row that has no unknown of its own: all it touches is checked, and so are the rows those belong to.
  const open = [...unknownOf.keys()].filter((row) => indexAt(unknownOf, row) < 0);
  for (const row of open) inRows[row] = true;
  for (let row = open.pop(); row !== undefined; row = open.pop()) {
    for (let e = indexAt(pattern.rowStart, row); e < indexAt(pattern.rowStart, row + 1); e++) {
      const unknown = indexAt(pattern.column, e);
      if (inUnknowns[unknown] === true) continue;
      inUnknowns[unknown] = true;
      const next = indexAt(rowOf, unknown);
      if (next < 0 || inRows[next] === true) continue;
      inRows[next] = true;
      open.push(next);
    }
  }
  return { rows: inRows, unknowns: inUnknowns };
}

/** A largest pairing of rows with unknowns they touch, by augmenting paths; -1 where there is none. */
function matching(
  { rowStart, column }: Pattern,
  rows: number,
  n: number,
): { readonly rowOf: Int32Array; readonly unknownOf: Int32Array } {
  const rowOf = new Int32Array(n).fill(-1);
  const unknownOf = new Int32Array(rows).fill(-1);
  const tried = new Int32Array(n).fill(-1);
  const pair = (row: number, attempt: number): boolean => {
    for (let e = indexAt(rowStart, row); e < indexAt(rowStart, row + 1); e++) {
      const unknown = indexAt(column, e);
      if (indexAt(tried, unknown) === attempt) continue;
      tried[unknown] = attempt;
      const other = indexAt(rowOf, unknown);
      if (other >= 0 && !pair(other, attempt)) continue;
      rowOf[unknown] = row;
      unknownOf[row] = unknown;
      return true;
    }
    return false;
  };
  for (let row = 0; row < rows; row++) pair(row, row);
  return { rowOf, unknownOf };
}
