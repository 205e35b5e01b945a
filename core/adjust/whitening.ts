/**
 * Correlated rows made uncorrelated: with C = L L' the rows L^-1 A and residuals L^-1 v have unit variance and no
 * correlation, so that everything after works as with plain readings. Rows outside every group are handed on as they are.
 */
import { at, indexAt, item } from '../linalg/at.ts';
import { packedIndex } from '../linalg/cholesky.ts';
import type { CorrelatedRows } from './correlation.ts';

/** Rows of partials in compressed form: row r holds entries start[r] up to before start[r + 1]. */
export interface SparseRows {
  readonly start: Int32Array;
  readonly columns: Int32Array;
  readonly partials: Float64Array;
}

/** Rows, weights and residuals after whitening, in arrays of their own; row numbers stay. */
export class Whitening {
  readonly rows: SparseRows;
  readonly weights: Float64Array;
  readonly residuals: Float64Array;
  private readonly groups: readonly CorrelatedRows[];
  /** Group of each row, -1 for none. */
  private readonly groupOfRow: Int32Array;
  /** Where each raw entry of a grouped row goes among its group's columns. */
  private readonly place: Int32Array;

  /** Reads the pattern of `raw` as it stands; it does not change between steps. */
  constructor(groups: readonly CorrelatedRows[], raw: SparseRows, weights: Float64Array) {
    const count = weights.length;
    this.groups = groups;
    this.weights = weights.slice();
    this.residuals = new Float64Array(count);
    this.groupOfRow = new Int32Array(count).fill(-1);
    groups.forEach(({ rows }, g) => {
      for (const r of rows) {
        this.groupOfRow[r] = g;
        this.weights[r] = 1;
      }
    });
    this.place = new Int32Array(indexAt(raw.start, count));
    const united = groups.map(({ rows }) => this.unite(rows, raw));
    const start = new Int32Array(count + 1);
    for (let r = 0; r < count; r++) {
      const group = united[indexAt(this.groupOfRow, r)];
      const length = group?.length ?? indexAt(raw.start, r + 1) - indexAt(raw.start, r);
      start[r + 1] = indexAt(start, r) + length;
    }
    const columns = new Int32Array(indexAt(start, count));
    for (let r = 0; r < count; r++) {
      const group = united[indexAt(this.groupOfRow, r)];
      columns.set(group ?? raw.columns.subarray(indexAt(raw.start, r), indexAt(raw.start, r + 1)), start[r]);
    }
    this.rows = { start, columns, partials: new Float64Array(columns.length) };
  }

  /** All columns that any row of a group touches, and the place of each raw entry among them. */
  private unite(members: readonly number[], raw: SparseRows): number[] {
    const places = new Map<number, number>();
    for (const r of members) {
      for (let e = indexAt(raw.start, r); e < indexAt(raw.start, r + 1); e++) {
        const column = indexAt(raw.columns, e);
        const place = places.get(column) ?? places.size;
        places.set(column, place);
        this.place[e] = place;
      }
    }
    return [...places.keys()];
  }

  /** Computes the whitened rows and residuals from the raw ones as they stand. */
  update(raw: SparseRows, residuals: Float64Array): void {
    const { start, partials } = this.rows;
    for (let r = 0; r < residuals.length; r++) {
      if (indexAt(this.groupOfRow, r) >= 0) continue;
      this.residuals[r] = at(residuals, r);
      partials.set(
        raw.partials.subarray(indexAt(raw.start, r), indexAt(raw.start, r + 1)),
        indexAt(start, r),
      );
    }
    for (const group of this.groups) this.whiten(group, raw, residuals);
  }

  private whiten({ rows, whitener }: CorrelatedRows, raw: SparseRows, residuals: Float64Array): void {
    const { start, partials } = this.rows;
    for (const [k, row] of rows.entries()) {
      const to = indexAt(start, row);
      partials.fill(0, to, indexAt(start, row + 1));
      let misfit = 0;
      for (let i = 0; i <= k; i++) {
        const factor = at(whitener, packedIndex(k, i));
        const from = item(rows, i);
        misfit += factor * at(residuals, from);
        for (let e = indexAt(raw.start, from); e < indexAt(raw.start, from + 1); e++) {
          const entry = to + indexAt(this.place, e);
          partials[entry] = at(partials, entry) + factor * at(raw.partials, e);
        }
      }
      this.residuals[row] = misfit;
    }
  }
}
