/**
 * Combines independent quantities into one by a formula: value, u, effective dof, U, and what each input
 * contributes (JCGM 100:2008 5.1, G.4). Sensitivities are central differences.
 */
import { COVERAGE, coverageFactor } from './coverage.ts';
import type { Quantity } from './quantity.ts';
import { effectiveDof } from './welchSatterthwaite.ts';

/** One line of a budget. */
export interface BudgetLine {
  readonly input: Quantity;
  /** Sensitivity coefficient: change of the result per change of the input. */
  readonly sensitivity: number;
  /** |sensitivity| u, in the unit of the result. */
  readonly u: number;
  /** Part of the variance, 0..1. */
  readonly share: number;
}

/** The result with its budget, largest line first. */
export interface Budget {
  readonly value: number;
  readonly u: number;
  readonly dof: number;
  readonly k: number;
  readonly U: number;
  readonly lines: readonly BudgetLine[];
}

/** Budget of `formula` over the inputs, which are taken as independent. `formula` gets their values in order. */
export function budget(
  inputs: readonly Quantity[],
  formula: (values: readonly number[]) => number,
  level: number = COVERAGE,
): Budget {
  const middle = inputs.map(({ value }) => value);
  const raw = inputs.map((input, i) => {
    // A step of u follows the formula over the range that matters; an exact input contributes nothing.
    const moved = (by: number): number => formula(middle.map((value, j) => (i === j ? value + by : value)));
    const sensitivity = input.u === 0 ? 0 : (moved(input.u / 10) - moved(-input.u / 10)) / (input.u / 5);
    return { input, sensitivity, u: Math.abs(sensitivity) * input.u };
  });
  const variance = raw.reduce((sum, line) => sum + line.u * line.u, 0);
  const lines = raw
    .map((line) => ({ ...line, share: variance === 0 ? 0 : (line.u * line.u) / variance }))
    .sort((a, b) => b.share - a.share);
  const dof = effectiveDof(raw.map((line) => ({ u: line.u, dof: line.input.dof })));
  const k = coverageFactor(dof, level);
  const u = Math.sqrt(variance);
  return { value: formula(middle), u, dof, k, U: k * u, lines };
}
