/**
 * Singular value decomposition of a small matrix by one-sided Jacobi rotations: accurate also for the smallest
 * singular value, which decides how flat a plane is. Golub & Van Loan, section 8.6.3.
 */
import { invariant } from '../result.ts';
import { entry, identityMatrix, type Matrix, matrixFromRows } from './matrix.ts';

/** a = u diag(values) v', values falling; u has the shape of a, v is square. A zero value has a zero column in u. */
export interface Svd {
  readonly u: Matrix;
  readonly values: readonly number[];
  readonly v: Matrix;
}

const MOST_SWEEPS = 60;

/** Decomposes `a`, which needs at least as many rows as columns. */
export function singularValues(a: Matrix): Svd {
  invariant(a.rows >= a.columns, 'more rows than columns');
  const n = a.columns;
  const u = { ...a, data: Float64Array.from(a.data) };
  const v = identityMatrix(n);
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    let turned = false;
    for (let p = 0; p < n; p++) {
      for (let q = p + 1; q < n; q++) turned = makeOrthogonal(u, v, p, q) || turned;
    }
    if (!turned) break;
  }
  const lengths = Array.from({ length: n }, (_, j) => Math.sqrt(columnDot(u, j, j)));
  const order = lengths.map((_, j) => j).sort((i, j) => (lengths[j] ?? 0) - (lengths[i] ?? 0));
  const pick = (m: Matrix, divisor: (j: number) => number): Matrix =>
    matrixFromRows(Array.from({ length: m.rows }, (_, i) => order.map((j) => entry(m, i, j) / divisor(j))));
  return {
    u: pick(u, (j) => lengths[j] || 1),
    values: order.map((j) => lengths[j] ?? 0),
    v: pick(v, () => 1),
  };
}

function columnDot(m: Matrix, p: number, q: number): number {
  let sum = 0;
  for (let i = 0; i < m.rows; i++) sum += entry(m, i, p) * entry(m, i, q);
  return sum;
}

/** Turns columns p, q of u (and v with them) until they are orthogonal; false when they already are. */
function makeOrthogonal(u: Matrix, v: Matrix, p: number, q: number): boolean {
  const pp = columnDot(u, p, p);
  const qq = columnDot(u, q, q);
  const pq = columnDot(u, p, q);
  if (Math.abs(pq) <= 1e-16 * Math.sqrt(pp * qq) || pq === 0) return false;
  const theta = (qq - pp) / (2 * pq);
  const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
  const c = 1 / Math.sqrt(t * t + 1);
  for (const m of [u, v]) {
    for (let i = 0; i < m.rows; i++) {
      const x = entry(m, i, p);
      const y = entry(m, i, q);
      m.data[i * m.columns + p] = c * (x - t * y);
      m.data[i * m.columns + q] = c * (t * x + y);
    }
  }
  return true;
}
