/**
 * Hard constraints C dx = d of one linearised step. They were added to the normal matrix with a moderate weight, which
 * makes it invertible where only they fix something; here they are enforced exactly through their Schur complement, and the
 * weight cancels. Golub & Van Loan, section 6.2 (the method of Lagrange's multipliers; from memory).
 */
import { addAt, at, item } from '../linalg/at.ts';
import { choleskyInPlace, choleskySolve, packedIndex, packedSize } from '../linalg/cholesky.ts';
import { dot } from '../linalg/dot.ts';
import type { SparseCholesky } from '../linalg/sparseCholesky.ts';

/** A condition that adds less than this share of its own strength to those before it repeats them. */
const DEPENDENT = 1e-10;

/** The constraints of a network, dense, one row of `n` numbers each. */
export class HardConstraints {
  readonly rows: Float64Array;
  private readonly n: number;
  private readonly count: number;
  /** Their solutions; and the factor of their Schur complement. */
  private readonly spread: Float64Array;
  private schur = new Float64Array(0);
  private kept: number[] = [];

  constructor(count: number, n: number) {
    this.n = n;
    this.count = count;
    this.rows = new Float64Array(count * n);
    this.spread = new Float64Array(count * n);
  }

  /** How many hold something that no other holds. */
  get held(): number {
    return this.kept.length;
  }

  /** Takes over the factor of the matrix they were added to. */
  factorise(cholesky: SparseCholesky): void {
    if (this.count === 0) return;
    const { n, rows, spread } = this;
    spread.set(rows);
    this.kept = Array.from({ length: this.count }, (_, k) => k);
    for (const k of this.kept) cholesky.solve(spread, k * n);
    for (;;) {
      const { kept } = this;
      this.schur = new Float64Array(packedSize(kept.length));
      kept.forEach((k, i) => {
        for (let j = 0; j <= i; j++) {
          this.schur[packedIndex(i, j)] = dot(spread, k * n, rows, item(kept, j) * n, n);
        }
      });
      const repeated = choleskyInPlace(this.schur, kept.length, DEPENDENT);
      if (repeated < 0) return;
      kept.splice(repeated, 1);
    }
  }

  /** Brings a step onto the constraints, in place; `misclosure` of each constraint is what the step has to make up. */
  correct(step: Float64Array, misclosure: (k: number) => number): void {
    const { n, kept, rows, spread } = this;
    if (kept.length === 0) return;
    const force = new Float64Array(kept.length);
    kept.forEach((k, i) => {
      force[i] = dot(rows, k * n, step, 0, n) - misclosure(k);
    });
    choleskySolve(this.schur, kept.length, force);
    kept.forEach((k, i) => {
      for (let c = 0; c < n; c++) addAt(step, c, -at(force, i) * at(spread, k * n + c));
    });
  }

  /** W of what the constraints know, spread' schur^-1 spread = W W', one row of `held` an unknown; by forward substitution. */
  known(): Float64Array {
    const { n, kept, spread, schur } = this;
    const m = kept.length;
    const w = new Float64Array(n * m);
    for (let c = 0; c < n; c++) {
      for (let i = 0; i < m; i++) {
        const row = packedIndex(i, 0);
        const before = dot(schur, row, w, c * m, i);
        w[c * m + i] = (at(spread, item(kept, i) * n + c) - before) / at(schur, row + i);
      }
    }
    return w;
  }

  /** Takes what the constraints know off a full covariance, in place. */
  reduce(covariance: Float64Array): void {
    const { n, kept } = this;
    const m = kept.length;
    if (m === 0) return;
    const w = this.known();
    for (let i = 0; i < n; i++) {
      for (let j = 0; j <= i; j++) {
        const value = at(covariance, i * n + j) - dot(w, i * m, w, j * m, m);
        covariance[i * n + j] = value;
        covariance[j * n + i] = value;
      }
    }
  }
}
