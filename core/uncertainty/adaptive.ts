/**
 * The adaptive procedure of JCGM 101:2008, 7.9, for one or several results of the same trials (7.9.4 for one; for several
 * as JCGM 102:2011, 7.8, has it: all must be stable): sequences of trials are run until value, u and both ends of the
 * symmetric interval no longer change in the digits asked for.
 */
import { invariant } from '../result.ts';
import { meanAndDeviation, type Summary, summarise } from './coverageInterval.ts';

/** Fills the next trials of every result: one array per result, all of one length. False when a trial has no result. */
export type TrialSource = (into: readonly Float64Array[]) => boolean;

/** How far an adaptive run goes. */
export interface AdaptiveOptions {
  readonly level: number;
  /** Significant digits of u that must be stable. */
  readonly digits: number;
  readonly mostTrials: number;
}

/** What an adaptive run came to. */
export interface AdaptiveRun {
  /** One per result, of all trials together. */
  readonly summaries: readonly Summary[];
  /** All trials of each result, sorted. */
  readonly sorted: readonly Float64Array[];
  /** Half a unit in the last digit asked for, per result; 0 for a result that never varies. */
  readonly tolerances: readonly number[];
  readonly trials: number;
  readonly sequences: number;
  /** False when the trials ran out first. */
  readonly stable: boolean;
}

/** Half a unit in the last of `digits` significant digits of u (7.9.2): 0.005 for u = 0.35 and two digits. */
export function numericalTolerance(u: number, digits: number): number {
  invariant(u > 0 && digits >= 1, `needs a u and at least one digit, got ${u} and ${digits}`);
  const written = u.toExponential(digits - 1);
  const exponent = Number(written.slice(written.indexOf('e') + 1));
  return 0.5 * Number(`1e${exponent - digits + 1}`);
}

/** What is kept of the sequences of one result. */
interface Progress {
  readonly sequences: Float64Array[];
  readonly figures: (readonly number[])[];
}

/** Runs sequences until every result is stable, or until another would pass `mostTrials`; undefined when a trial was lost. */
export function runAdaptively(
  results: number,
  source: TrialSource,
  options: AdaptiveOptions,
): AdaptiveRun | undefined {
  const { level, digits, mostTrials } = options;
  const length = Math.max(Math.ceil(100 / (1 - level)), 1e4);
  const progress: readonly Progress[] = Array.from({ length: results }, () => ({
    sequences: [],
    figures: [],
  }));
  for (let sequences = 1; ; sequences++) {
    const into = progress.map(() => new Float64Array(length));
    if (!source(into)) return undefined;
    const states = progress.map((one, k) => stateAfter(one, into[k] ?? new Float64Array(0), level, digits));
    const stable = states.every((state) => state.stable);
    if (!stable && (sequences + 1) * length <= mostTrials) continue;
    const sorted = progress.map((one) => joined(one.sequences));
    return {
      summaries: sorted.map((all) => summarise(all, level)),
      sorted,
      tolerances: states.map((state) => state.tolerance),
      trials: sequences * length,
      sequences,
      stable,
    };
  }
}

/** Takes one more sequence in, and tells whether the figures have settled. */
function stateAfter(
  { sequences, figures }: Progress,
  sequence: Float64Array,
  level: number,
  digits: number,
): { readonly stable: boolean; readonly tolerance: number } {
  const { value, u, symmetric } = summarise(sequence, level);
  sequences.push(sequence);
  figures.push([value, u, symmetric.low, symmetric.high]);
  const all = combinedDeviation(sequences);
  // A result that never varies is stable at once: there is no u to have digits of.
  if (all === 0) return { stable: true, tolerance: 0 };
  const tolerance = numericalTolerance(all, digits);
  return { stable: figures.length > 1 && worstDoubt(figures) < tolerance, tolerance };
}

/** Twice the standard deviation of the mean over the sequences, of the figure for which it is largest (7.9.4 e-h). */
function worstDoubt(figures: readonly (readonly number[])[]): number {
  const each = (figures[0] ?? []).map(
    (_, k) => meanAndDeviation(Float64Array.from(figures, (f) => f[k] ?? 0)).u,
  );
  return (2 * Math.max(...each)) / Math.sqrt(figures.length);
}

/** Standard deviation of all results of all sequences, from those of the sequences and of their means. */
function combinedDeviation(sequences: readonly Float64Array[]): number {
  const moments = sequences.map((results) => meanAndDeviation(results));
  const grand = moments.reduce((sum, { value }) => sum + value, 0) / moments.length;
  const m = sequences[0]?.length ?? 0;
  const squares = moments.reduce(
    (sum, { value, u }) => sum + (m - 1) * u * u + m * (value - grand) * (value - grand),
    0,
  );
  return Math.sqrt(squares / (m * sequences.length - 1));
}

function joined(parts: readonly Float64Array[]): Float64Array {
  const whole = new Float64Array(parts.reduce((sum, { length }) => sum + length, 0));
  let start = 0;
  for (const part of parts) {
    whole.set(part, start);
    start += part.length;
  }
  return whole;
}
