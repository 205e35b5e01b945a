/**
 * Propagation of whole distributions by Monte Carlo (JCGM 101:2008, clause 7): draw the inputs, work out the result,
 * very often. A fixed number of trials, or the adaptive procedure of 7.9, which goes on until what it reports no longer
 * changes in the digits asked for. Seed, generator and trials are part of the result: it can be had again to the bit.
 */
import { at } from '../linalg/at.ts';
import { invariant } from '../result.ts';
import { COVERAGE } from './coverage.ts';
import { meanAndDeviation, type Summary, summarise } from './coverageInterval.ts';
import type { Distribution } from './distribution.ts';
import { namesOf, recordOf } from './named.ts';
import type { Values } from './propagate.ts';
import { GENERATOR, type Random, randomFrom } from './random.ts';
import { jointNormalSampler, sampler, standardNormal } from './sampler.ts';

/** Inputs that are drawn together. */
export interface JointNormal<Name extends string> {
  readonly names: readonly Name[];
  readonly means: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

/** A measurement model whose inputs are whole distributions. Every name stands in `inputs` or in one joint set. */
export interface SimulationModel<Name extends string> {
  readonly inputs: Readonly<Partial<Record<Name, Distribution>>>;
  readonly joint?: readonly JointNormal<Name>[];
  readonly formula: (x: Values<Name>) => number;
}

/** A simulated result: what it is, and all that is needed to have it again. */
export interface Simulated extends Summary {
  readonly level: number;
  readonly trials: number;
  readonly seed: number;
  readonly generator: string;
}

/** One result after the other, each from freshly drawn inputs. */
export function resultSource<Name extends string>(
  model: SimulationModel<Name>,
  random: Random,
): () => number {
  const normal = standardNormal(random);
  const alone = namesOf<Name>(model.inputs as Readonly<Record<Name, Distribution>>);
  const drawn: { -readonly [N in Name]: number } = { ...recordOf(alone, () => 0) };
  const draws: (() => void)[] = [];
  for (const name of alone) {
    const distribution = model.inputs[name];
    if (distribution === undefined) continue;
    const draw = sampler(distribution, random, normal);
    draws.push(() => {
      drawn[name] = draw();
    });
  }
  for (const { names, means, covariance } of model.joint ?? []) {
    invariant(names.length === means.length, `${names.length} names and ${means.length} means`);
    const buffer = new Float64Array(names.length);
    const fill = jointNormalSampler(means, covariance, normal);
    draws.push(() => {
      fill(buffer);
      names.forEach((name, i) => {
        drawn[name] = at(buffer, i);
      });
    });
  }
  return () => {
    for (const draw of draws) draw();
    return model.formula(drawn);
  };
}

function fillWith(results: Float64Array, next: () => number): Float64Array {
  for (let i = 0; i < results.length; i++) {
    const result = next();
    // The message is put together only when it is needed: this loop runs a million times.
    if (!Number.isFinite(result))
      invariant(false, `the formula gave ${result} for inputs its distributions allow`);
    results[i] = result;
  }
  return results;
}

/** A fixed number of trials (7.2 to 7.7). */
export function simulate<Name extends string>(
  model: SimulationModel<Name>,
  options: { readonly seed: number; readonly trials: number; readonly level?: number },
): Simulated {
  const { seed, trials, level = COVERAGE } = options;
  const results = fillWith(new Float64Array(trials), resultSource(model, randomFrom(seed)));
  return { ...summarise(results, level), level, trials, seed, generator: GENERATOR };
}

/** Half a unit in the last of `digits` significant digits of u (7.9.2): 0.005 for u = 0.35 and two digits. */
export function numericalTolerance(u: number, digits: number): number {
  invariant(u > 0 && digits >= 1, `needs a u and at least one digit, got ${u} and ${digits}`);
  const written = u.toExponential(digits - 1);
  const exponent = Number(written.slice(written.indexOf('e') + 1));
  return 0.5 * Number(`1e${exponent - digits + 1}`);
}

/** An adaptive result. */
export interface AdaptivelySimulated extends Simulated {
  /** Twice the standard deviation of the mean of every reported figure came below this. */
  readonly tolerance: number;
  /** False when the trials ran out first: the figures then have fewer digits than asked for. */
  readonly stable: boolean;
  /** Sequences of trials that were run. */
  readonly sequences: number;
}

/**
 * Trials in sequences until value, u and both ends of the symmetric interval are stable to `digits` digits of u (7.9.4).
 * Stops unstable at `mostTrials`.
 */
export function simulateAdaptively<Name extends string>(
  model: SimulationModel<Name>,
  options: {
    readonly seed: number;
    readonly digits?: number;
    readonly level?: number;
    readonly mostTrials?: number;
  },
): AdaptivelySimulated {
  const { seed, digits = 2, level = COVERAGE, mostTrials = 2e6 } = options;
  const next = resultSource(model, randomFrom(seed));
  const length = Math.max(Math.ceil(100 / (1 - level)), 1e4);
  const sequences: Float64Array[] = [];
  const figures: (readonly number[])[] = [];
  const say = (stable: boolean, tolerance: number): AdaptivelySimulated => {
    const trials = sequences.length * length;
    const summary = summarise(joined(sequences), level);
    const told = { level, trials, seed, generator: GENERATOR, tolerance, stable };
    return { ...summary, ...told, sequences: sequences.length };
  };
  for (;;) {
    const results = fillWith(new Float64Array(length), next);
    const { value, u, symmetric } = summarise(results, level);
    sequences.push(results);
    figures.push([value, u, symmetric.low, symmetric.high]);
    const all = combinedDeviation(sequences);
    // A result that never varies is stable at once: there is no u to have digits of.
    if (all === 0) return say(true, 0);
    const tolerance = numericalTolerance(all, digits);
    if (figures.length > 1 && worstDoubt(figures) < tolerance) return say(true, tolerance);
    if ((sequences.length + 1) * length > mostTrials) return say(false, tolerance);
  }
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
