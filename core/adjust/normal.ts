/**
 * The normal equations of one linearised step, with conditions that hold exactly (hard constraints, and the inner
 * constraints of a free network): minimise |A dx - v|^2 weighted, subject to C dx = d.
 *
 * Conditions are added to the normal matrix with a moderate weight, which makes it invertible where only they fix
 * something, and then enforced exactly through their Schur complement; the weight cancels.
 */
import { addAt, at } from '../linalg/at.ts';
import {
  choleskyInPlace,
  choleskyInverse,
  choleskySolve,
  packedIndex,
  packedSize,
} from '../linalg/cholesky.ts';
import { dot } from '../linalg/dot.ts';
import type { Rows } from './rows.ts';

/** An unknown whose own information, once the others are taken away, falls below this share of it is undetermined. */
export const UNDETERMINED = 1e-12;

/** A condition that adds less than this share of its own strength to those before it repeats them. */
const DEPENDENT = 1e-10;

/** One condition: coefficients over all unknowns, and what they have to add up to. */
export interface Condition {
  readonly row: Float64Array;
  readonly misclosure: number;
}

/** Assembles, factors and solves; arrays are made once for a network. */
export class NormalSystem {
  readonly n: number;
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  readonly step: Float64Array;
  private readonly factor: Float64Array;
  private conditions: readonly Condition[] = [];
  /** Inverse times each condition, row by row, and the factor of their Schur complement. */
  private spread = new Float64Array(0);
  private schur = new Float64Array(0);
  private held: number[] = [];

  constructor(n: number) {
    this.n = n;
    this.matrix = new Float64Array(packedSize(n));
    this.factor = new Float64Array(packedSize(n));
    this.right = new Float64Array(n);
    this.step = new Float64Array(n);
  }

  /** Builds matrix and right side from rows, weights and residuals (observed minus computed), then adds conditions. */
  assemble(
    rows: Rows,
    weights: Float64Array,
    residuals: Float64Array,
    conditions: readonly Condition[],
  ): void {
    const { matrix, right } = this;
    const { columns, partials, start } = rows;
    matrix.fill(0);
    right.fill(0);
    for (let r = 0; r < weights.length; r++) {
      const w = at(weights, r);
      if (w === 0) continue;
      const end = at(start, r + 1);
      for (let e = at(start, r); e < end; e++) {
        const column = at(columns, e);
        const weighted = w * at(partials, e);
        addAt(right, column, weighted * at(residuals, r));
        for (let f = at(start, r); f <= e; f++) {
          addAt(matrix, packedIndex(column, at(columns, f)), weighted * at(partials, f));
        }
      }
    }
    this.conditions = conditions;
    for (const condition of conditions) this.addCondition(condition);
  }

  private addCondition({ row, misclosure }: Condition): void {
    const { matrix, right, n } = this;
    let strength = 0;
    for (let i = 0; i < n; i++) {
      const c = at(row, i);
      if (c !== 0) strength += (c * c) / (at(matrix, packedIndex(i, i)) || 1);
    }
    if (strength === 0) return;
    for (let i = 0; i < n; i++) {
      const c = at(row, i) / strength;
      if (c === 0) continue;
      addAt(right, i, c * misclosure);
      for (let j = 0; j <= i; j++) addAt(matrix, packedIndex(i, j), c * at(row, j));
    }
  }

  /** Factors with each diagonal raised by its share `damping`; answers -1 or the first undetermined unknown. */
  factorise(damping: number): number {
    this.factor.set(this.matrix);
    if (damping > 0) {
      for (let i = 0; i < this.n; i++) {
        const diagonal = at(this.matrix, packedIndex(i, i));
        this.factor[packedIndex(i, i)] = diagonal > 0 ? diagonal * (1 + damping) : damping;
      }
    }
    const failed = choleskyInPlace(this.factor, this.n, UNDETERMINED);
    if (failed < 0) this.factoriseConditions();
    return failed;
  }

  private factoriseConditions(): void {
    const { n, conditions, factor } = this;
    this.spread = new Float64Array(conditions.length * n);
    this.held = conditions.map((_, k) => k);
    conditions.forEach(({ row }, k) => {
      this.spread.set(row, k * n);
      choleskySolve(factor, n, this.spread, k * n);
    });
    for (;;) {
      const m = this.held.length;
      this.schur = new Float64Array(packedSize(m));
      this.held.forEach((k, i) => {
        for (let j = 0; j <= i; j++) {
          const row = conditions[at(this.held, j)]?.row ?? factor;
          this.schur[packedIndex(i, j)] = dot(this.spread, k * n, row, 0, n);
        }
      });
      const repeated = choleskyInPlace(this.schur, m, DEPENDENT);
      if (repeated < 0) return;
      this.held.splice(repeated, 1);
    }
  }

  /** How many conditions hold something that no other holds. */
  conditionsHeld(): number {
    return this.held.length;
  }

  /** Solves for `step`. */
  solve(): void {
    const { n, step, right, spread, held } = this;
    step.set(right);
    choleskySolve(this.factor, n, step);
    if (held.length === 0) return;
    const force = new Float64Array(held.length);
    held.forEach((k, i) => {
      const condition = this.conditions[k];
      if (condition !== undefined) force[i] = dot(condition.row, 0, step, 0, n) - condition.misclosure;
    });
    choleskySolve(this.schur, held.length, force);
    held.forEach((k, i) => {
      for (let c = 0; c < n; c++) addAt(step, c, -at(force, i) * at(spread, k * n + c));
    });
  }

  /** Covariance of the unknowns (full, row by row) and the 1-norm condition of the scaled matrix. */
  covariance(): { readonly covariance: Float64Array; readonly condition: number } {
    const { n, held, spread } = this;
    const covariance = new Float64Array(n * n);
    choleskyInverse(this.factor, n, covariance, new Float64Array(n * n));
    const condition = this.conditionNumber(covariance);
    if (held.length === 0) return { covariance, condition };
    const m = held.length;
    const half = new Float64Array(m);
    // Rows of W with W W' = spread' schur^-1 spread, unknown by unknown: forward substitution only.
    const w = new Float64Array(n * m);
    for (let c = 0; c < n; c++) {
      for (let i = 0; i < m; i++) {
        const row = (i * (i + 1)) / 2;
        half[i] =
          (at(spread, at(held, i) * n + c) - dot(this.schur, row, half, 0, i)) / at(this.schur, row + i);
        w[c * m + i] = at(half, i);
      }
    }
    for (let i = 0; i < n; i++) {
      for (let j = 0; j <= i; j++) {
        const value = at(covariance, i * n + j) - dot(w, i * m, w, j * m, m);
        covariance[i * n + j] = value;
        covariance[j * n + i] = value;
      }
    }
    return { covariance, condition };
  }

  private conditionNumber(inverse: Float64Array): number {
    const { n, matrix } = this;
    const scale = Float64Array.from({ length: n }, (_, i) => Math.sqrt(at(matrix, packedIndex(i, i))));
    let forward = 0;
    let backward = 0;
    for (let i = 0; i < n; i++) {
      let f = 0;
      let b = 0;
      for (let j = 0; j < n; j++) {
        f += Math.abs(at(matrix, packedIndex(i, j))) / at(scale, j);
        b += Math.abs(at(inverse, i * n + j)) * at(scale, j);
      }
      forward = Math.max(forward, f / at(scale, i));
      backward = Math.max(backward, b * at(scale, i));
    }
    return n === 0 ? 1 : forward * backward;
  }
}
