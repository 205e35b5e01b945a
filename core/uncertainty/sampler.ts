/**
 * Draws from distributions. Normal by Box and Muller, in pairs (JCGM 101:2008 C.4); the bounded ones as in 6.4.2 to
 * 6.4.6; Student's t by Bailey's polar method (Mathematics of Computation 62 (1994) 779-781), which takes any degrees
 * of freedom.
 */
import { at } from '../linalg/at.ts';
import { choleskyInPlace, packedIndex, packedSize } from '../linalg/cholesky.ts';
import { symmetricEigen } from '../linalg/eigen.ts';
import { assertNever, invariant } from '../result.ts';
import { checkDistribution, type Distribution } from './distribution.ts';
import type { Random } from './random.ts';

/** A source of standard normal numbers. */
export function standardNormal({ uniform }: Random): () => number {
  let waiting = 0;
  let waits = false;
  return () => {
    if (waits) {
      waits = false;
      return waiting;
    }
    const radius = Math.sqrt(-2 * Math.log(uniform()));
    const angle = 2 * Math.PI * uniform();
    waiting = radius * Math.sin(angle);
    waits = true;
    return radius * Math.cos(angle);
  };
}

/** A source of numbers of one distribution. `normal` may be shared so that no half of a pair is lost. */
export function sampler(
  distribution: Distribution,
  random: Random,
  normal: () => number = standardNormal(random),
): () => number {
  checkDistribution(distribution);
  const { uniform } = random;
  switch (distribution.kind) {
    case 'normal': {
      const { mean, u } = distribution;
      return () => mean + u * normal();
    }
    case 'rectangular': {
      const { lower, upper } = distribution;
      return () => lower + (upper - lower) * uniform();
    }
    case 'triangular':
      return trapezoid(distribution.lower, distribution.upper, 0, uniform);
    case 'trapezoidal':
      return trapezoid(distribution.lower, distribution.upper, distribution.top, uniform);
    case 'arcsine': {
      const { lower, upper } = distribution;
      const [middle, half] = [(lower + upper) / 2, (upper - lower) / 2];
      return () => middle + half * Math.sin(2 * Math.PI * uniform());
    }
    case 'curvilinearTrapezoid': {
      const { lower, upper, doubt } = distribution;
      return () => {
        const left = lower - doubt + 2 * doubt * uniform();
        return left + (lower + upper - 2 * left) * uniform();
      };
    }
    case 't':
      return studentT(distribution.mean, distribution.scale, distribution.dof, uniform);
    default:
      return assertNever(distribution);
  }
}

/** Sum of two rectangular numbers whose widths are as 1 + top to 1 - top (6.4.4.4). */
function trapezoid(lower: number, upper: number, top: number, uniform: () => number): () => number {
  const half = (upper - lower) / 2;
  return () => lower + half * ((1 + top) * uniform() + (1 - top) * uniform());
}

function studentT(mean: number, scale: number, dof: number, uniform: () => number): () => number {
  return () => {
    for (;;) {
      const a = 2 * uniform() - 1;
      const b = 2 * uniform() - 1;
      const w = a * a + b * b;
      // w^(-2 / dof) - 1, without a power and without losing digits for many degrees of freedom.
      if (w <= 1) return mean + scale * a * Math.sqrt((dof * Math.expm1((-2 * Math.log(w)) / dof)) / w);
    }
  };
}

/**
 * Fills `into` with numbers that are jointly normal with these means and covariance (JCGM 101:2008 6.4.8.4), by the
 * Cholesky factor, or by eigenvectors where the covariance is singular. A covariance that cannot be one throws.
 */
export function jointNormalSampler(
  means: readonly number[],
  covariance: readonly (readonly number[])[],
  normal: () => number,
): (into: Float64Array) => void {
  const n = means.length;
  const factor = squareRoot(covariance, n);
  const z = new Float64Array(n);
  return (into) => {
    for (let i = 0; i < n; i++) z[i] = normal();
    for (let i = 0; i < n; i++) {
      let sum = means[i] ?? 0;
      for (let j = 0; j < n; j++) sum += at(factor, i * n + j) * at(z, j);
      into[i] = sum;
    }
  };
}

/** A matrix whose product with its own transpose is the covariance; row by row. */
function squareRoot(covariance: readonly (readonly number[])[], n: number): Float64Array {
  const full = Float64Array.from(covariance.flat());
  invariant(
    full.length === n * n,
    `a covariance of ${n} quantities has ${n * n} elements, got ${full.length}`,
  );
  const packed = new Float64Array(packedSize(n));
  const root = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const [below, above] = [at(full, i * n + j), at(full, j * n + i)];
      const size = Math.sqrt(Math.abs(at(full, i * n + i) * at(full, j * n + j)));
      invariant(
        Math.abs(below - above) <= 1e-9 * size,
        `a covariance is symmetric, row ${i} column ${j} is not`,
      );
      packed[packedIndex(i, j)] = below;
    }
  }
  if (choleskyInPlace(packed, n, SINGULAR) === -1) {
    for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) root[i * n + j] = at(packed, packedIndex(i, j));
    return root;
  }
  const { values, vectors } = symmetricEigen(full, n);
  const largest = at(values, n - 1);
  for (let k = 0; k < n; k++) {
    const value = at(values, k);
    invariant(value >= -SINGULAR * largest, `a covariance has no negative eigenvalue, got ${value}`);
    for (let i = 0; i < n; i++) root[i * n + k] = at(vectors, k * n + i) * Math.sqrt(Math.max(0, value));
  }
  return root;
}

/** A pivot or eigenvalue of this share of the largest is rounding of a singular covariance. */
const SINGULAR = 1e-12;
