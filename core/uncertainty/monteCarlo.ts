/**
 * Propagation of whole distributions by Monte Carlo (JCGM 101:2008, clause 7): draw the inputs, work out the result,
 * very often. A fixed number of trials, or the adaptive procedure of 7.9, which goes on until what it reports no longer
 * changes in the digits asked for. Seed, generator and trials are part of the result: it can be had again to the bit.
 */
import { at } from '../linalg/at.ts';
import { invariant } from '../result.ts';
import { runAdaptively } from './adaptive.ts';
import { COVERAGE } from './coverage.ts';
import { type Summary, summarise } from './coverageInterval.ts';
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
  const source = ([results]: readonly Float64Array[]): boolean =>
    results !== undefined && fillWith(results, next).length > 0;
  const run = runAdaptively(1, source, { level, digits, mostTrials });
  const [summary] = run?.summaries ?? [];
  invariant(run !== undefined && summary !== undefined, 'one result was asked for');
  const { trials, stable, sequences } = run;
  const tolerance = run.tolerances[0] ?? 0;
  return { ...summary, level, trials, seed, generator: GENERATOR, tolerance, stable, sequences };
}
