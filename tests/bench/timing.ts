/** One thing measured for itself against a limit in milliseconds: median, 95th percentile, slowest. */
import { median, rounded } from './compare.ts';

export interface Timing {
  readonly name: string;
  readonly runs: number;
  readonly medianMs: number;
  readonly p95Ms: number;
  readonly slowestMs: number;
  /** What the 95th percentile may be at most; null for what is only told. */
  readonly limitMs: number | null;
}

/** The smallest of the values that 95 of 100 do not exceed. */
export function percentile95(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.ceil(sorted.length * 0.95) - 1] ?? Number.NaN;
}

/** Sums up what was measured. */
export function timingOf(name: string, limitMs: number | null, values: readonly number[]): Timing {
  return {
    name,
    runs: values.length,
    medianMs: rounded(median(values)),
    p95Ms: rounded(percentile95(values)),
    slowestMs: rounded(Math.max(...values)),
    limitMs,
  };
}

/** Whether the 95th percentile keeps its limit. */
export function keepsLimit({ p95Ms, limitMs }: Timing): boolean {
  return limitMs === null || p95Ms <= limitMs;
}

/** How long one run takes, ms. */
export async function timed(run: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await run();
  return performance.now() - start;
}
