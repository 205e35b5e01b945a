/** Inner products of runs of numbers inside larger arrays: the loops the factorisations here spend their time in. */
import { at } from './at.ts';

/**
 * Sum of a[startA + i] * b[startB + i] for i < count. Four sums run side by side so that the processor need not wait
 * for each addition; their order is fixed, so the answer is the same on every machine.
 */
export function dot(a: Float64Array, startA: number, b: Float64Array, startB: number, count: number): number {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let i = 0;
  for (const whole = count - 3; i < whole; i += 4) {
    s0 += at(a, startA + i) * at(b, startB + i);
    s1 += at(a, startA + i + 1) * at(b, startB + i + 1);
    s2 += at(a, startA + i + 2) * at(b, startB + i + 2);
    s3 += at(a, startA + i + 3) * at(b, startB + i + 3);
  }
  for (; i < count; i++) s0 += at(a, startA + i) * at(b, startB + i);
  return s0 + s1 + (s2 + s3);
}

/**
 * The square matrix `a` of order `n`, row by row, times x from `startX` on, into `out` from `startOut` on. Four rows at a
 * time: each number of x is then fetched once for four products.
 */
export function multiplySquare(
  a: Float64Array,
  n: number,
  x: Float64Array,
  startX: number,
  out: Float64Array,
  startOut: number,
): void {
  let i = 0;
  for (; i + 3 < n; i += 4) {
    const p = i * n;
    const q = p + n;
    const r = q + n;
    const s = r + n;
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    for (let j = 0; j < n; j++) {
      const value = at(x, startX + j);
      s0 += at(a, p + j) * value;
      s1 += at(a, q + j) * value;
      s2 += at(a, r + j) * value;
      s3 += at(a, s + j) * value;
    }
    out[startOut + i] = s0;
    out[startOut + i + 1] = s1;
    out[startOut + i + 2] = s2;
    out[startOut + i + 3] = s3;
  }
  for (; i < n; i++) out[startOut + i] = dot(a, i * n, x, startX, n);
}
