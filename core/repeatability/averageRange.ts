/**
 * The average-and-range method for a crossed study (AIAG MSA, 4th ed., chapter III, section B): worked by hand on the
 * shop floor, it sees no interaction. Kept beside the analysis of variance because auditors ask for it.
 */
import { err, ok, type Result } from '../result.ts';
import { mean } from '../uncertainty/typeA.ts';
import { type Components, componentsOf } from './components.ts';
import type { Study } from './study.ts';

/** 1 / d2 for ranges of 2 or 3 trials, many of them averaged: K1 of the manual (from memory). */
const K1: Readonly<Record<number, number>> = { 2: 0.8862, 3: 0.5908 };

/** 1 / d2* for one range over 2 (printed 0.7071), 3, ... people or parts: K2 and K3 of the manual (from memory). */
const ONE_RANGE: Readonly<Record<number, number>> = {
  2: Math.SQRT1_2,
  3: 0.5231,
  4: 0.4467,
  5: 0.403,
  6: 0.3742,
  7: 0.3534,
  8: 0.3375,
  9: 0.3249,
  10: 0.3146,
};

/** The components with the ranges they come from. */
export interface AverageRange extends Components {
  /** Mean over all cells of largest minus smallest trial. */
  readonly meanRange: number;
  /** Mean range of each person, in the order of the study. */
  readonly personRanges: readonly number[];
  /** Largest minus smallest mean of the people. */
  readonly peopleRange: number;
  /** Largest minus smallest mean of the parts. */
  readonly partRange: number;
}

/** The manual has constants for 2 or 3 trials, and for 2 to 10 people and parts. */
export interface NoConstants {
  readonly code: 'repeatability/noConstants';
  readonly parts: number;
  readonly people: number;
  readonly trials: number;
}

/** Works the method out; nothing is rounded on the way. */
export function averageRange({ readings, parts, people, trials }: Study): Result<AverageRange, NoConstants> {
  const [k1, k2, k3] = [K1[trials], ONE_RANGE[people], ONE_RANGE[parts]];
  if (k1 === undefined || k2 === undefined || k3 === undefined) {
    return err({ code: 'repeatability/noConstants', parts, people, trials });
  }
  const ofPerson = (o: number) => readings.map((row) => row[o] ?? []);
  const each = Array.from({ length: people }, (_, o) => ofPerson(o));
  const personRanges = each.map((cells) => mean(cells.map(range)));
  const meanRange = mean(personRanges);
  const peopleRange = range(each.map((cells) => mean(cells.flat())));
  const partRange = range(readings.map((row) => mean(row.flat())));
  const repeatability = meanRange * k1 * (meanRange * k1);
  const components = componentsOf({
    repeatability,
    // The range of the people's means also holds the repeatability of those means.
    reproducibility: peopleRange * k2 * (peopleRange * k2) - repeatability / (parts * trials),
    interaction: 0,
    parts: partRange * k3 * (partRange * k3),
  });
  return ok({ ...components, meanRange, personRanges, peopleRange, partRange });
}

function range(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}
