/**
 * Type A evaluation: what repeated readings say of themselves (JCGM 100:2008 4.2). Sums are compensated and deviations
 * are taken from a first mean, so that readings that agree in their first seven digits keep the rest.
 */
import { item } from '../linalg/at.ts';
import { invariant } from '../result.ts';
import { type Quantity, quantity } from './quantity.ts';

/** Sum with Neumaier's compensation: the error of each addition is carried along. */
export function compensatedSum(values: readonly number[]): number {
  let sum = 0;
  let lost = 0;
  for (const value of values) {
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}

/** Arithmetic mean; of no readings a bug. */
export function mean(values: readonly number[]): number {
  invariant(values.length > 0, 'the mean of no readings');
  const rough = compensatedSum(values) / values.length;
  return rough + compensatedSum(values.map((value) => value - rough)) / values.length;
}

/** Sum of squared deviations from the mean. */
export function squaresAboutMean(values: readonly number[]): number {
  const middle = mean(values);
  const deviations = values.map((value) => value - middle);
  // The second term takes back what rounding of the mean put into the first.
  const drift = compensatedSum(deviations);
  return compensatedSum(deviations.map((d) => d * d)) - (drift * drift) / values.length;
}

/** Experimental standard deviation of one reading, n - 1 in the divisor (4.2.2); needs two readings. */
export function standardDeviation(values: readonly number[]): number {
  invariant(values.length > 1, 'a standard deviation needs two readings');
  return Math.sqrt(squaresAboutMean(values) / (values.length - 1));
}

/** Mean of repeated readings with s / sqrt n and n - 1 degrees of freedom (4.2.3). */
export function typeA(id: string, values: readonly number[]): Quantity {
  return quantity(
    id,
    mean(values),
    standardDeviation(values) / Math.sqrt(values.length),
    values.length - 1,
    id,
  );
}

/** Correlation coefficient of readings taken in pairs, and so of their means (5.2.3). Constant readings are a bug. */
export function correlationOfReadings(a: readonly number[], b: readonly number[]): number {
  invariant(a.length === b.length && a.length > 1, `readings in pairs, got ${a.length} and ${b.length}`);
  const [ma, mb] = [mean(a), mean(b)];
  const products = compensatedSum(a.map((value, i) => (value - ma) * (item(b, i) - mb)));
  const spread = Math.sqrt(squaresAboutMean(a) * squaresAboutMean(b));
  invariant(spread > 0, 'readings that never change have no correlation');
  return Math.max(-1, Math.min(1, products / spread));
}

/** Correlation of each reading with the one before it: near 0 for readings that do not remember each other. */
export function lagOneCorrelation(values: readonly number[]): number {
  const middle = mean(values);
  const products = values.slice(1).map((value, i) => (value - middle) * (item(values, i) - middle));
  return compensatedSum(products) / squaresAboutMean(values);
}

/** Standard deviation of several groups of readings pooled, each about its own mean; dof is the sum of n - 1. */
export function pooledDeviation(groups: readonly (readonly number[])[]): {
  readonly s: number;
  readonly dof: number;
} {
  const dof = groups.reduce((sum, group) => sum + group.length - 1, 0);
  invariant(dof > 0, 'pooling needs a group of at least two readings');
  return { s: Math.sqrt(compensatedSum(groups.map(squaresAboutMean)) / dof), dof };
}

/**
 * How uncertain the standard deviation of n normal readings itself is, relative to it: 0.7555 for 2, 0.2388 for 10
 * (JCGM 100:2008 Table E.1). sqrt(1 / c4^2 - 1), c4 = sqrt(2 / (n-1)) gamma(n/2) / gamma((n-1)/2).
 */
export function doubtOfDeviation(readings: number): number {
  invariant(Number.isInteger(readings) && readings >= 2, `whole readings, at least 2, got ${readings}`);
  // gamma(n/2) / gamma((n-1)/2) rises by x/y with every two readings: no gamma function is needed.
  const even = readings % 2 === 0;
  let ratio = even ? 1 / Math.sqrt(Math.PI) : Math.sqrt(Math.PI) / 2;
  for (let n = even ? 2 : 3; n < readings; n += 2) ratio *= n / (n - 1);
  const c4 = Math.sqrt(2 / (readings - 1)) * ratio;
  return Math.sqrt(1 / (c4 * c4) - 1);
}
