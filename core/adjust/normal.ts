/**
 * The normal equations of one linearised step: minimise |A dx - v|^2 weighted, subject to hard constraints C dx = d
 * (hardConstraints.ts), and of smallest norm where a free network leaves it open: its freedoms are pinned at one unknown
 * each, which changes nothing but the norm, and the inner constraints then put that right (innerConstraints.ts).
 */
import { addAt, at, indexAt } from '../linalg/at.ts';
import { SparseCholesky, valueCount } from '../linalg/sparseCholesky.ts';
import { inverseOnPattern, wholeInverse } from '../linalg/sparseInverse.ts';
import { inverseNorm, scaledNorm, scaleOf, wholeInverseNorm } from './condition.ts';
import { type Covariance, nearCovariance, wholeCovariance } from './covariance.ts';
import { freeMotions, type Gauge } from './gauge.ts';
import { HardConstraints } from './hardConstraints.ts';
import { InnerConstraints } from './innerConstraints.ts';
import type { Linearisation } from './linearise.ts';
import { type NormalPattern, normalPattern } from './normalPattern.ts';

/** An unknown whose own information, once the others are taken away, falls below this share of it is undetermined. */
export const UNDETERMINED = 1e-12;

/** Up to so many unknowns the whole covariance costs less than looking elements up. */
const WHOLE_UP_TO = 300;

/** Assembles, factors and solves; arrays are made once for a network. */
export class NormalSystem {
  readonly n: number;
  readonly step: Float64Array;
  private readonly lin: Linearisation;
  private readonly gauge: Gauge;
  private readonly pattern: NormalPattern;
  private readonly cholesky: SparseCholesky;
  /** Values of the pattern (see sparseCholesky.ts). */
  private readonly matrix: Float64Array;
  private readonly right: Float64Array;
  private readonly hard: HardConstraints;
  private inner: InnerConstraints | undefined;
  private readonly pins: readonly number[];

  /** Reads the pattern of `lin`'s rows as they stand. */
  constructor(lin: Linearisation, gauge: Gauge) {
    const n = lin.problem.layout.slotOfColumn.length;
    this.n = n;
    this.lin = lin;
    this.gauge = gauge;
    this.pattern = normalPattern(lin.white.rows, n);
    this.cholesky = new SparseCholesky(this.pattern.elimination, lin.block);
    const count = valueCount(this.pattern.elimination);
    this.matrix = lin.block.floats(count);
    this.right = lin.block.floats(n);
    this.step = lin.block.floats(n);
    this.hard = new HardConstraints(lin.exact.length, n);
    this.inner = this.innerConstraints();
    this.pins = this.inner?.pins() ?? [];
  }

  private innerConstraints(): InnerConstraints | undefined {
    if (this.gauge.freedoms.length === 0) return undefined;
    const { slots, slotOfColumn } = this.lin.problem.layout;
    const { reach } = this.gauge;
    return new InnerConstraints(freeMotions(this.lin.state, this.gauge), this.n, (unknown) =>
      slots[indexAt(slotOfColumn, unknown)]?.unit === 'mm' ? 1 : reach * reach,
    );
  }

  /** Builds matrix and right side from the rows, weights and residuals as they stand. */
  assemble(): void {
    const { matrix, right, lin } = this;
    const { target, firstProduct, elimination } = this.pattern;
    const { weights, residuals } = lin.white;
    const { columns, partials, start } = lin.white.rows;
    matrix.fill(0);
    right.fill(0);
    for (let r = 0; r < weights.length; r++) {
      const w = at(weights, r);
      if (w === 0) continue;
      const first = indexAt(start, r);
      const end = indexAt(start, r + 1);
      const residual = at(residuals, r);
      let product = indexAt(firstProduct, r);
      for (let e = first; e < end; e++) {
        const weighted = w * at(partials, e);
        addAt(right, indexAt(columns, e), weighted * residual);
        for (let f = first; f <= e; f++) {
          addAt(matrix, indexAt(target, product++), weighted * at(partials, f));
        }
      }
    }
    lin.exact.forEach((r, k) => {
      this.addConstraint(r, k);
    });
    for (const pin of this.pins) {
      const i = indexAt(elimination.position, pin);
      addAt(matrix, i, at(matrix, i) || 1);
    }
    if (this.pins.length > 0) this.inner = this.innerConstraints();
  }

  private addConstraint(r: number, k: number): void {
    const { matrix, right, hard, n } = this;
    const { target, firstProduct, elimination } = this.pattern;
    const { columns, partials, start } = this.lin.rows;
    const misclosure = at(this.lin.residuals, r);
    const first = indexAt(start, r);
    const end = indexAt(start, r + 1);
    let strength = 0;
    for (let e = first; e < end; e++) {
      const c = at(partials, e);
      const column = indexAt(columns, e);
      hard.rows[k * n + column] = c;
      strength += (c * c) / (at(matrix, indexAt(elimination.position, column)) || 1);
    }
    if (strength === 0) return;
    // Exact rows have no correlation: their products are those of the rows as the models wrote them.
    let product = indexAt(firstProduct, r);
    for (let e = first; e < end; e++) {
      const c = at(partials, e) / strength;
      addAt(right, indexAt(columns, e), c * misclosure);
      for (let f = first; f <= e; f++) addAt(matrix, indexAt(target, product++), c * at(partials, f));
    }
  }

  /** Factors with each diagonal raised by its share `damping`; answers -1 or the first unknown held by less than `tolerance`. */
  factorise(damping: number, tolerance = UNDETERMINED): number {
    const { values } = this.cholesky;
    values.set(this.matrix);
    if (damping > 0) {
      for (let k = 0; k < this.n; k++) {
        const diagonal = at(values, k);
        values[k] = diagonal > 0 ? diagonal * (1 + damping) : damping;
      }
    }
    const failed = this.cholesky.factorise(tolerance);
    if (failed < 0) this.hard.factorise(this.cholesky);
    return failed;
  }

  /** How many hard constraints hold something that no other holds. */
  constraintsHeld(): number {
    return this.hard.held;
  }

  /** Solves for `step`. */
  solve(): void {
    const { step, lin } = this;
    step.set(this.right);
    this.cholesky.solve(step);
    this.hard.correct(step, (k) => at(lin.residuals, lin.exact[k] ?? -1));
    this.inner?.transform(step);
  }

  /** Covariance of the unknowns, and the 1-norm condition of the scaled matrix (a bound for a large network). */
  covariance(): { readonly covariance: Covariance; readonly condition: number } {
    const { n, matrix, cholesky, pattern, hard } = this;
    const { elimination } = pattern;
    const { block } = this.lin;
    const scale = scaleOf(elimination, matrix, block);
    const norm = scaledNorm(elimination, matrix, scale, block);
    // Inner constraints join every unknown with every other.
    if (n <= WHOLE_UP_TO || this.pins.length > 0) {
      const inverse = wholeInverse(cholesky);
      const condition = norm * wholeInverseNorm(inverse, scale, block);
      return { covariance: wholeCovariance(this.constrained(inverse), n), condition };
    }
    const near = inverseOnPattern(cholesky);
    const part = { w: hard.known(), count: hard.held };
    const whole = (): Float64Array => this.constrained(wholeInverse(cholesky));
    return {
      covariance: nearCovariance(near, pattern, part, whole),
      condition: norm * inverseNorm(cholesky, scale),
    };
  }

  /** The inverse as it becomes the covariance, in place: without what is held, of smallest norm where nothing holds. */
  private constrained(inverse: Float64Array): Float64Array {
    this.hard.reduce(inverse);
    this.inner?.transformCovariance(inverse);
    return inverse;
  }

  /** The assembled matrix, full and in the order of the unknowns, for naming what is undetermined. */
  fullMatrix(): Float64Array {
    const { n, matrix } = this;
    const { order, start, below } = this.pattern.elimination;
    const full = new Float64Array(n * n);
    for (let k = 0; k < n; k++) {
      const own = indexAt(order, k);
      full[own * n + own] = at(matrix, k);
      for (let a = indexAt(start, k); a < indexAt(start, k + 1); a++) {
        const other = indexAt(order, indexAt(below, a));
        full[own * n + other] = at(matrix, n + a);
        full[other * n + own] = at(matrix, n + a);
      }
    }
    return full;
  }
}
