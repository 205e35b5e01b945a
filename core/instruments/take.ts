/**
 * A take: what is recorded of an instrument that sends many values. Mean and sample standard deviation of the values of
 * the last moment (JCGM 100:2008, 4.2.1 and 4.2.2), with the last line as it came. The standard deviation of a take is
 * the instrument's jitter over that moment; it says nothing about setting the instrument up again.
 */

/** How far a take reaches into the past, milliseconds. */
export const TAKE_MS = 1_000;
/** Values kept for a take; of more in that time the newest are taken. */
export const MOST_TAKEN = 2_000;

/** A take in the kept unit. `s` is null for one value: there is nothing to spread. */
export type Take = { readonly n: number; readonly mean: number; readonly s: number | null };

/** Mean and standard deviation of values, or undefined for none. Two passes: exact where the values agree. */
export function takeOf(values: readonly number[]): Take | undefined {
  const n = values.length;
  if (n === 0) return undefined;
  const first = values[0] ?? 0;
  const mean = first + values.reduce((sum, value) => sum + (value - first), 0) / n;
  if (n === 1) return { n, mean, s: null };
  const squares = values.reduce((sum, value) => sum + (value - mean) * (value - mean), 0);
  return { n, mean, s: Math.sqrt(squares / (n - 1)) };
}

/** The values of the last moment. */
export interface RecentValues {
  /** Adds a value that came at `atMs` of a clock that only runs on. */
  add(value: number, atMs: number): void;
  /** The take of what came in the last `TAKE_MS` before `atMs`. */
  take(atMs: number): Take | undefined;
  clear(): void;
}

/** Values with their moments, the old ones forgotten. */
export function recentValues(): RecentValues {
  let kept: { readonly value: number; readonly atMs: number }[] = [];
  return {
    add(value, atMs) {
      kept.push({ value, atMs });
      // Forgotten in blocks: moving the rest up for each value would cost more than keeping it.
      if (kept.length > 2 * MOST_TAKEN) kept = kept.slice(-MOST_TAKEN);
    },
    take(atMs) {
      const from = kept.findIndex((each) => each.atMs > atMs - TAKE_MS);
      kept = from < 0 ? [] : kept.slice(Math.max(from, kept.length - MOST_TAKEN));
      return takeOf(kept.map((each) => each.value));
    },
    clear() {
      kept = [];
    },
  };
}
