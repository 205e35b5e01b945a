/**
 * The normal equations of one linearised step: minimise |A dx - v|^2 weighted, subject to hard constraints C dx = d,
 * and of smallest norm where a free network leaves it open.
 *
 * Hard constraints are added to the normal matrix with a moderate weight, which makes it invertible where only they
 * fix something, and then enforced exactly through their Schur complement; the weight cancels. Freedoms are pinned the
 * same way at one unknown each, which changes nothing but the norm, and the inner constraints then put that right.
 */
import { addAt, at, indexAt, item } from '../linalg/at.ts';
import { choleskyInPlace, choleskySolve, packedIndex, packedSize } from '../linalg/cholesky.ts';
import { dot } from '../linalg/dot.ts';
import { inverseNormBound } from '../linalg/inverseNorm.ts';
import { eliminate, SparseCholesky, SymmetricPattern } from '../linalg/sparseCholesky.ts';
import { type Covariance, nearCovariance, wholeCovariance } from './covariance.ts';
import { freeMotions, type Gauge } from './gauge.ts';
import { InnerConstraints } from './innerConstraints.ts';
import type { Linearisation } from './linearise.ts';

/** An unknown whose own information, once the others are taken away, falls below this share of it is undetermined. */
export const UNDETERMINED = 1e-12;

/** A condition that adds less than this share of its own strength to those before it repeats them. */
const DEPENDENT = 1e-10;

/** Up to so many unknowns the whole covariance costs less than looking elements up. */
const WHOLE_UP_TO = 300;

/** Assembles, factors and solves; arrays are made once for a network. */
export class NormalSystem {
  readonly n: number;
  readonly step: Float64Array;
  private readonly lin: Linearisation;
  private readonly gauge: Gauge;
  private readonly cholesky: SparseCholesky;
  /** Packed, in elimination order. */
  private readonly matrix: Float64Array;
  /** Where each product of two partials of a row goes in `matrix`, in the order in which `assemble` meets them. */
  private readonly target: Int32Array;
  private readonly right: Float64Array;
  private inner: InnerConstraints;
  private readonly pins: readonly number[];
  /** Hard constraints, dense, one row each; their solutions; and the factor of their Schur complement. */
  private readonly hard: Float64Array;
  private readonly spread: Float64Array;
  private schur = new Float64Array(0);
  private held: number[] = [];

  /** Reads the pattern of `lin`'s rows as they stand. */
  constructor(lin: Linearisation, gauge: Gauge) {
    const n = lin.problem.layout.slotOfColumn.length;
    this.n = n;
    this.lin = lin;
    this.gauge = gauge;
    this.cholesky = new SparseCholesky(eliminate(patternOf(lin, n)));
    this.matrix = new Float64Array(packedSize(n));
    this.target = productTargets(lin, this.cholesky.elimination.position);
    this.right = new Float64Array(n);
    this.step = new Float64Array(n);
    this.hard = new Float64Array(lin.exact.length * n);
    this.spread = new Float64Array(lin.exact.length * n);
    this.inner = this.innerConstraints();
    this.pins = this.inner.pins();
  }

  private innerConstraints(): InnerConstraints {
    const { slots, slotOfColumn } = this.lin.problem.layout;
    const { reach } = this.gauge;
    return new InnerConstraints(freeMotions(this.lin.state, this.gauge), this.n, (unknown) =>
      slots[indexAt(slotOfColumn, unknown)]?.unit === 'mm' ? 1 : reach * reach,
    );
  }

  /** Builds matrix and right side from the rows, weights and residuals as they stand. */
  assemble(): void {
    const { matrix, right, lin, target } = this;
    const { weights, residuals } = lin.white;
    const { columns, partials, start } = lin.white.rows;
    this.cholesky.clear(matrix);
    right.fill(0);
    let product = 0;
    for (let r = 0; r < weights.length; r++) {
      const w = at(weights, r);
      const first = indexAt(start, r);
      const end = indexAt(start, r + 1);
      const residual = at(residuals, r);
      for (let e = first; e < end; e++) {
        const weighted = w * at(partials, e);
        addAt(right, indexAt(columns, e), weighted * residual);
        for (let f = first; f <= e; f++)
          addAt(matrix, indexAt(target, product++), weighted * at(partials, f));
      }
    }
    lin.exact.forEach((r, k) => {
      this.addConstraint(r, k);
    });
    const { position } = this.cholesky.elimination;
    for (const pin of this.pins) {
      const i = packedIndex(indexAt(position, pin), indexAt(position, pin));
      addAt(matrix, i, at(matrix, i) || 1);
    }
    if (this.pins.length > 0) this.inner = this.innerConstraints();
  }

  private addConstraint(r: number, k: number): void {
    const { matrix, right, hard, n } = this;
    const { columns, partials, start } = this.lin.rows;
    const { position } = this.cholesky.elimination;
    const misclosure = at(this.lin.residuals, r);
    let strength = 0;
    for (let e = indexAt(start, r); e < indexAt(start, r + 1); e++) {
      const c = at(partials, e);
      const i = indexAt(position, indexAt(columns, e));
      hard[k * n + indexAt(columns, e)] = c;
      strength += (c * c) / (at(matrix, packedIndex(i, i)) || 1);
    }
    if (strength === 0) return;
    for (let e = indexAt(start, r); e < indexAt(start, r + 1); e++) {
      const column = indexAt(columns, e);
      const c = at(partials, e) / strength;
      addAt(right, column, c * misclosure);
      for (let f = indexAt(start, r); f <= e; f++) {
        const other = indexAt(position, indexAt(columns, f));
        addAt(matrix, packedIndex(indexAt(position, column), other), c * at(partials, f));
      }
    }
  }

  /** Factors with each diagonal raised by its share `damping`; answers -1 or the first unknown held by less than `tolerance`. */
  factorise(damping: number, tolerance = UNDETERMINED): number {
    const { values } = this.cholesky;
    this.cholesky.take(this.matrix);
    if (damping > 0) {
      for (let i = 0; i < this.n; i++) {
        const diagonal = at(this.matrix, packedIndex(i, i));
        values[packedIndex(i, i)] = diagonal > 0 ? diagonal * (1 + damping) : damping;
      }
    }
    const failed = this.cholesky.factorise(tolerance);
    if (failed < 0) this.factoriseConstraints();
    return failed;
  }

  private factoriseConstraints(): void {
    const { n, hard, spread } = this;
    spread.set(hard);
    this.held = this.lin.exact.map((_, k) => k);
    for (const k of this.held) this.cholesky.solve(spread, k * n);
    for (;;) {
      const { held } = this;
      this.schur = new Float64Array(packedSize(held.length));
      held.forEach((k, i) => {
        for (let j = 0; j <= i; j++) {
          this.schur[packedIndex(i, j)] = dot(spread, k * n, hard, item(held, j) * n, n);
        }
      });
      const repeated = choleskyInPlace(this.schur, held.length, DEPENDENT);
      if (repeated < 0) return;
      held.splice(repeated, 1);
    }
  }

  /** How many hard constraints hold something that no other holds. */
  constraintsHeld(): number {
    return this.held.length;
  }

  /** Solves for `step`. */
  solve(): void {
    const { n, step, right, spread, held, hard } = this;
    step.set(right);
    this.cholesky.solve(step);
    if (held.length > 0) {
      const force = new Float64Array(held.length);
      held.forEach((k, i) => {
        const misclosure = at(this.lin.residuals, item(this.lin.exact, k));
        force[i] = dot(hard, k * n, step, 0, n) - misclosure;
      });
      choleskySolve(this.schur, held.length, force);
      held.forEach((k, i) => {
        for (let c = 0; c < n; c++) addAt(step, c, -at(force, i) * at(spread, k * n + c));
      });
    }
    if (this.pins.length > 0) this.inner.transform(step);
  }

  /** Covariance of the unknowns, and the 1-norm condition of the scaled matrix (a bound for a large network). */
  covariance(): { readonly covariance: Covariance; readonly condition: number } {
    const { n } = this;
    // Inner constraints join every unknown with every other.
    if (n <= WHOLE_UP_TO || this.pins.length > 0) {
      const inverse = this.cholesky.inverse();
      const condition = this.matrixNorm() * this.wholeInverseNorm(inverse);
      return { covariance: wholeCovariance(this.constrained(inverse), n), condition };
    }
    const near = this.cholesky.inverseOnPattern();
    const part = { w: this.constraintRows(), count: this.held.length };
    const { position } = this.cholesky.elimination;
    const whole = (): Float64Array => this.constrained(this.cholesky.inverse());
    return {
      covariance: nearCovariance(near, position, part, whole),
      condition: this.matrixNorm() * this.inverseNorm(),
    };
  }

  /** The inverse as it becomes the covariance, in place: without what is held, of smallest norm where nothing holds. */
  private constrained(inverse: Float64Array): Float64Array {
    this.takeConstraints(inverse);
    this.inner.transformCovariance(inverse);
    return inverse;
  }

  /** W of what the hard constraints know, spread' schur^-1 spread = W W', one row an unknown; by forward substitution. */
  private constraintRows(): Float64Array {
    const { n, held, spread, schur } = this;
    const m = held.length;
    const w = new Float64Array(n * m);
    for (let c = 0; c < n; c++) {
      for (let i = 0; i < m; i++) {
        const row = packedIndex(i, 0);
        const known = dot(schur, row, w, c * m, i);
        w[c * m + i] = (at(spread, item(held, i) * n + c) - known) / at(schur, row + i);
      }
    }
    return w;
  }

  private takeConstraints(covariance: Float64Array): void {
    const { n, held } = this;
    const m = held.length;
    if (m === 0) return;
    const w = this.constraintRows();
    for (let i = 0; i < n; i++) {
      for (let j = 0; j <= i; j++) {
        const value = at(covariance, i * n + j) - dot(w, i * m, w, j * m, m);
        covariance[i * n + j] = value;
        covariance[j * n + i] = value;
      }
    }
  }

  /** The assembled matrix, full and in the order of the unknowns, for naming what is undetermined. */
  fullMatrix(): Float64Array {
    const { n, matrix } = this;
    const { position } = this.cholesky.elimination;
    const full = new Float64Array(n * n);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        full[i * n + j] = at(matrix, packedIndex(indexAt(position, i), indexAt(position, j)));
      }
    }
    return full;
  }

  /** Roots of the matrix' diagonal, in the order of the unknowns: scaled by them millimetres and radians weigh alike. */
  private scale(): Float64Array {
    const { n, matrix } = this;
    const { position } = this.cholesky.elimination;
    const scale = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const p = indexAt(position, i);
      scale[i] = Math.sqrt(at(matrix, packedIndex(p, p)));
    }
    return scale;
  }

  /** 1-norm of the matrix scaled to a diagonal of ones. */
  private matrixNorm(): number {
    const { n, matrix } = this;
    const { order, start, below } = this.cholesky.elimination;
    const scale = this.scale();
    const sums = new Float64Array(n).fill(1);
    for (let k = 0; k < n; k++) {
      const own = indexAt(order, k);
      for (let a = indexAt(start, k); a < indexAt(start, k + 1); a++) {
        const i = indexAt(below, a);
        const other = indexAt(order, i);
        const size = Math.abs(at(matrix, packedIndex(i, k))) / (at(scale, own) * at(scale, other));
        addAt(sums, own, size);
        addAt(sums, other, size);
      }
    }
    return n === 0 ? 1 : largestOf(sums);
  }

  /** 1-norm of the scaled matrix' inverse. */
  private wholeInverseNorm(inverse: Float64Array): number {
    const { n } = this;
    const scale = this.scale();
    const sums = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const own = at(scale, i);
      let sum = 0;
      for (let j = 0; j < i; j++) {
        const size = Math.abs(at(inverse, i * n + j));
        sum += size * at(scale, j);
        addAt(sums, j, size * own);
      }
      addAt(sums, i, sum + Math.abs(at(inverse, i * n + i)) * own);
    }
    return n === 0 ? 1 : largestOf(sums.map((sum, i) => sum * at(scale, i)));
  }

  /** The same from a few solutions. */
  private inverseNorm(): number {
    const scale = this.scale();
    const weigh = (b: Float64Array): void => {
      for (let i = 0; i < b.length; i++) b[i] = at(b, i) * at(scale, i);
    };
    return inverseNormBound(this.n, (b) => {
      weigh(b);
      this.cholesky.solve(b);
      weigh(b);
    });
  }
}

function largestOf(values: Float64Array): number {
  let most = 0;
  for (let i = 0; i < values.length; i++) most = Math.max(most, at(values, i));
  return most;
}

function patternOf(lin: Linearisation, n: number): SymmetricPattern {
  const pattern = new SymmetricPattern(n);
  const { columns, start } = lin.white.rows;
  for (let r = 0; r < lin.weights.length; r++) {
    pattern.couple(columns, indexAt(start, r), indexAt(start, r + 1));
  }
  return pattern;
}

/** Where the products of the last network went: while numbers are typed the same rows come again and again. */
let lastTargets:
  | {
      readonly columns: Int32Array;
      readonly start: Int32Array;
      readonly position: Int32Array;
      readonly target: Int32Array;
    }
  | undefined;

function productTargets(lin: Linearisation, position: Int32Array): Int32Array {
  const { start } = lin.white.rows;
  const columns = lin.white.rows.columns.subarray(0, indexAt(start, lin.weights.length));
  const known = lastTargets;
  if (known?.position === position && same(known.columns, columns) && same(known.start, start)) {
    return known.target;
  }
  let products = 0;
  for (let r = 0; r < lin.weights.length; r++) {
    const count = indexAt(start, r + 1) - indexAt(start, r);
    products += (count * (count + 1)) / 2;
  }
  const target = new Int32Array(products);
  let product = 0;
  for (let r = 0; r < lin.weights.length; r++) {
    for (let e = indexAt(start, r); e < indexAt(start, r + 1); e++) {
      const i = indexAt(position, indexAt(columns, e));
      for (let f = indexAt(start, r); f <= e; f++) {
        target[product++] = packedIndex(i, indexAt(position, indexAt(columns, f)));
      }
    }
  }
  lastTargets = { columns: columns.slice(), start: start.slice(), position, target };
  return target;
}

function same(a: Int32Array, b: Int32Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (indexAt(a, i) !== indexAt(b, i)) return false;
  return true;
}
