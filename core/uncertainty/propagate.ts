/**
 * The law of propagation of uncertainty (JCGM 100:2008 5.1.2, 5.2.2) for a measurement model written as a pure function
 * of named quantities, which may be correlated. Several results of the same inputs come with their covariance
 * (5.2.2, H.2). Effective degrees of freedom are Welch-Satterthwaite over independent groups (G.4.1); the inputs of
 * one correlated group count as one contribution with the fewest degrees of freedom in it, which is exact for means of
 * readings taken together, as in H.2.
 */
import { invariant } from '../result.ts';
import type { Budget, BudgetLine } from './budget.ts';
import { COVERAGE, coverageFactor } from './coverage.ts';
import { firstDerivative } from './differences.ts';
import { namesOf, recordOf } from './named.ts';
import type { Quantity } from './quantity.ts';
import { effectiveDof } from './welchSatterthwaite.ts';

/** Values of the named inputs. */
export type Values<Name extends string> = Readonly<Record<Name, number>>;

/** Correlation coefficient of two inputs, -1 to 1. */
export interface Correlation<Name extends string> {
  readonly between: readonly [Name, Name];
  readonly r: number;
}

/** What is known of the inputs. Pairs not named are uncorrelated. */
export interface Inputs<Name extends string> {
  readonly inputs: Readonly<Record<Name, Quantity>>;
  readonly correlations?: readonly Correlation<NoInfer<Name>>[];
}

/** A measurement model with one result. Sensitivities given here are used as they stand; others come by differences. */
export interface MeasurementModel<Name extends string> extends Inputs<Name> {
  readonly formula: (x: Values<Name>) => number;
  readonly sensitivities?: Readonly<Partial<Record<Name, number | undefined>>>;
}

/** How the result is expanded. */
export interface ExpandOptions {
  /** Level of confidence, default 95.45 %. */
  readonly level?: number;
  /** Cut the effective dof to the next lower whole number before k is looked up (G.4.1, note 1). Default false. */
  readonly wholeDof?: boolean;
}

/** Steps of a difference: u, but never so small beside the value that rounding would swallow it. */
export function differenceStep({ value, u }: Quantity): number {
  return Math.max(u, 1e-6 * Math.abs(value));
}

/** The formula as a function of numbers in the order of `names`. */
export function byOrder<Name extends string>(
  names: readonly Name[],
  formula: (x: Values<Name>) => number,
): (values: readonly number[]) => number {
  return (values) => formula(recordOf(names, (_, i) => values[i] ?? Number.NaN));
}

/** Symmetric matrix of correlation coefficients in the order of `names`; contradictory or impossible ones throw. */
export function correlationMatrix<Name extends string>(
  names: readonly Name[],
  correlations: readonly Correlation<Name>[] = [],
): readonly (readonly number[])[] {
  const rows: number[][] = names.map((_, i) => names.map((__, j) => (i === j ? 1 : 0)));
  for (const { between, r } of correlations) {
    const [i, j] = [names.indexOf(between[0]), names.indexOf(between[1])];
    invariant(i >= 0 && j >= 0 && i !== j, `a correlation joins two inputs, got ${between.join(' and ')}`);
    invariant(Math.abs(r) <= 1, `a correlation lies between -1 and 1, got ${r} for ${between.join(' and ')}`);
    for (const [row, column] of [
      [i, j],
      [j, i],
    ] as const) {
      const target = rows[row];
      if (target !== undefined) target[column] = r;
    }
  }
  return rows;
}

/** Sensitivity coefficients in the order of `names`. An exact input keeps its slope: it shows what an error would do. */
function sensitivitiesOf<Name extends string>(
  names: readonly Name[],
  model: MeasurementModel<Name>,
): readonly number[] {
  const f = byOrder(names, model.formula);
  const centre = names.map((name) => model.inputs[name].value);
  return names.map((name, i) => {
    const given = model.sensitivities?.[name];
    if (given !== undefined) return given;
    const input = model.inputs[name];
    const slope = input.u === 0 ? 0 : firstDerivative(f, centre, i, differenceStep(input));
    invariant(Number.isFinite(slope), `the formula has no slope at ${name} = ${input.value}`);
    return slope;
  });
}

/** Propagates the inputs through the formula: value, u, effective dof, k, U and the share of each input. */
export function propagate<Name extends string>(
  model: MeasurementModel<Name>,
  options: ExpandOptions = {},
): Budget {
  const names = namesOf(model.inputs);
  const r = correlationMatrix(names, model.correlations);
  const c = sensitivitiesOf(names, model);
  const signed = names.map((name, i) => (c[i] ?? 0) * model.inputs[name].u);
  const value = byOrder(names, model.formula)(names.map((name) => model.inputs[name].value));
  return expand(
    value,
    names.map((name) => model.inputs[name]),
    c,
    signed,
    r,
    options,
  );
}

function expand(
  value: number,
  inputs: readonly Quantity[],
  c: readonly number[],
  signed: readonly number[],
  r: readonly (readonly number[])[],
  { level = COVERAGE, wholeDof = false }: ExpandOptions,
): Budget {
  // Each input's part of the variance holds half of every covariance it takes part in; it may be negative.
  const part = signed.map((u, i) => u * signed.reduce((sum, v, j) => sum + (r[i]?.[j] ?? 0) * v, 0));
  // Full correlation can cancel to nothing and, by rounding, to less.
  const variance = Math.max(
    0,
    part.reduce((sum, p) => sum + p, 0),
  );
  const u = Math.sqrt(variance);
  const exact = effectiveDof(groupContributions(inputs, part, r));
  const dof = wholeDof ? Math.max(1, Math.floor(exact)) : exact;
  const k = coverageFactor(dof, level);
  const lines = inputs.map(
    (input, i): BudgetLine => ({
      input,
      sensitivity: c[i] ?? 0,
      u: Math.abs(signed[i] ?? 0),
      share: variance === 0 ? 0 : (part[i] ?? 0) / variance,
    }),
  );
  return { value, u, dof, k, U: k * u, lines: lines.sort((a, b) => b.share - a.share) };
}

/** One contribution for each set of inputs that hang together by correlation. */
function groupContributions(
  inputs: readonly Quantity[],
  part: readonly number[],
  r: readonly (readonly number[])[],
): { u: number; dof: number }[] {
  const seen = new Set<number>();
  const groups: { u: number; dof: number }[] = [];
  inputs.forEach((_, start) => {
    if (seen.has(start)) return;
    const group = [start];
    seen.add(start);
    for (const i of group) {
      inputs.forEach((__, j) => {
        if (r[i]?.[j] === 0 || seen.has(j)) return;
        seen.add(j);
        group.push(j);
      });
    }
    const variance = group.reduce((sum, i) => sum + (part[i] ?? 0), 0);
    // An exact input says nothing about how well the group is known.
    const known = group.map((i) => (inputs[i]?.u === 0 ? Number.POSITIVE_INFINITY : (inputs[i]?.dof ?? 1)));
    groups.push({ u: Math.sqrt(Math.max(0, variance)), dof: Math.min(...known) });
  });
  return groups;
}

/** Several results of the same inputs. */
export interface JointBudget<Out extends string> {
  readonly results: Readonly<Record<Out, Budget>>;
  /** Covariance of two results. */
  readonly covariance: (a: Out, b: Out) => number;
  /** Correlation coefficient of two results; NaN when one of them is exact. */
  readonly correlation: (a: Out, b: Out) => number;
}

/** Propagates the inputs through several formulas at once: u of each and the covariance of every pair. */
export function propagateJointly<Name extends string, Out extends string>(
  known: Inputs<Name>,
  formulas: Readonly<Record<Out, (x: Values<Name>) => number>>,
  options: ExpandOptions = {},
): JointBudget<Out> {
  const names = namesOf(known.inputs);
  const r = correlationMatrix(names, known.correlations);
  const outs = namesOf(formulas);
  const slopes = recordOf(outs, (out) => sensitivitiesOf(names, { ...known, formula: formulas[out] }));
  const signed = recordOf(outs, (out) =>
    names.map((name, i) => (slopes[out][i] ?? 0) * known.inputs[name].u),
  );
  const results = recordOf(outs, (out) => {
    // The slopes just found are passed on, so that they are not found twice.
    const sensitivities = recordOf<Name, number | undefined>(names, (_, i) => slopes[out][i]);
    return propagate({ ...known, formula: formulas[out], sensitivities }, options);
  });
  const covariance = (a: Out, b: Out): number => {
    const [left, right] = [signed[a], signed[b]];
    return left.reduce(
      (sum, u, i) => sum + u * right.reduce((inner, v, j) => inner + (r[i]?.[j] ?? 0) * v, 0),
      0,
    );
  };
  return {
    results,
    covariance,
    correlation: (a, b) => covariance(a, b) / Math.sqrt(covariance(a, a) * covariance(b, b)),
  };
}
