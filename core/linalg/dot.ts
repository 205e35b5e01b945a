/** Inner product of two runs of numbers inside larger arrays: the loop the factorisations here spend their time in. */
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
