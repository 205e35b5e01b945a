/**
 * From any one solution of a free network to the one of smallest norm: S = I - G (B G)^-1 B, with G the free motions
 * and B the same weighted: a length counts one, an angle the reach of the layout squared, so that both count as lengths.
 * Baarda 1973, S-transformations and criterion matrices; Koch, Parameter Estimation, section 3.3 (from memory).
 */
import { addAt, at } from '../linalg/at.ts';
import { choleskyInPlace, choleskySolve, packedIndex, packedSize } from '../linalg/cholesky.ts';
import { dot } from '../linalg/dot.ts';
import { invariant } from '../result.ts';

/** The S-transformation for one set of free motions. */
export class InnerConstraints {
  private readonly n: number;
  private readonly count: number;
  private readonly motions: Float64Array;
  private readonly weighted: Float64Array;
  /** G (B G)^-1, one row of n per freedom. */
  private readonly lift: Float64Array;

  /** `motions`: one row of n per freedom; `weightOf` tells what an unknown counts in the norm. */
  constructor(motions: Float64Array, n: number, weightOf: (unknown: number) => number) {
    this.n = n;
    this.count = n === 0 ? 0 : motions.length / n;
    this.motions = motions;
    this.weighted = motions.slice();
    for (let i = 0; i < n; i++) {
      const weight = weightOf(i);
      for (let f = 0; f < this.count; f++) this.weighted[f * n + i] = weight * at(motions, f * n + i);
    }
    this.lift = this.lifted();
  }

  /** B G is the Gram matrix of the weighted motions: symmetric and positive definite. */
  private lifted(): Float64Array {
    const { n, count, motions, weighted } = this;
    const gram = new Float64Array(packedSize(count));
    for (let f = 0; f < count; f++) {
      for (let g = 0; g <= f; g++) gram[packedIndex(f, g)] = dot(weighted, f * n, motions, g * n, n);
    }
    invariant(choleskyInPlace(gram, count, 0) < 0, 'free motions are independent');
    const lift = new Float64Array(count * n);
    const column = new Float64Array(count);
    for (let i = 0; i < n; i++) {
      for (let f = 0; f < count; f++) column[f] = at(motions, f * n + i);
      choleskySolve(gram, count, column);
      for (let f = 0; f < count; f++) lift[f * n + i] = at(column, f);
    }
    return lift;
  }

  /** Unknowns to hold so that the normal matrix can be factored: the ones each freedom moves most, one per freedom. */
  pins(): number[] {
    const { n, count } = this;
    const left = this.motions.slice();
    const pins: number[] = [];
    for (let f = 0; f < count; f++) {
      let pin = 0;
      for (let i = 1; i < n; i++) {
        if (Math.abs(at(left, f * n + i)) > Math.abs(at(left, f * n + pin))) pin = i;
      }
      pins.push(pin);
      for (let g = f + 1; g < count; g++) {
        const factor = at(left, g * n + pin) / at(left, f * n + pin);
        for (let i = 0; i < n; i++) addAt(left, g * n + i, -factor * at(left, f * n + i));
      }
    }
    return pins;
  }

  /** S x, in place. */
  transform(x: Float64Array): void {
    const { n, count, weighted, lift } = this;
    const parts = new Float64Array(count);
    for (let f = 0; f < count; f++) parts[f] = dot(weighted, f * n, x, 0, n);
    for (let f = 0; f < count; f++) {
      for (let i = 0; i < n; i++) addAt(x, i, -at(parts, f) * at(lift, f * n + i));
    }
  }

  /** S Q S', in place. With P = Q B', R = B P and H the lift: Q - P H' - H P' + H R H'. */
  transformCovariance(q: Float64Array): void {
    const { n, count, weighted, lift } = this;
    if (count === 0) return;
    const p = new Float64Array(count * n);
    for (let f = 0; f < count; f++) {
      for (let i = 0; i < n; i++) p[f * n + i] = dot(q, i * n, weighted, f * n, n);
    }
    // P - H R / 2 takes half of the last term into each of the two in the middle.
    const half = p.slice();
    for (let f = 0; f < count; f++) {
      for (let g = 0; g < count; g++) {
        const r = dot(weighted, g * n, p, f * n, n) / 2;
        for (let i = 0; i < n; i++) addAt(half, f * n + i, -r * at(lift, g * n + i));
      }
    }
    for (let i = 0; i < n; i++) {
      for (let f = 0; f < count; f++) {
        const hi = at(half, f * n + i);
        const li = at(lift, f * n + i);
        for (let j = 0; j <= i; j++) {
          addAt(q, i * n + j, -(hi * at(lift, f * n + j) + li * at(half, f * n + j)));
        }
      }
    }
    for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) q[j * n + i] = at(q, i * n + j);
  }
}
