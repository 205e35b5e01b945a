/**
 * Standard uncertainty of one reading, put together from the instrument (its certificate, or its class), its
 * resolution, how well it was set up on the mark, and repeatability. All in the unit of the reading.
 */
import { coverageFactor } from './coverage.ts';
import { fromResolution, type Quantity, quantity, rectangular } from './quantity.ts';
import { type TapeClass, tapeLimitMm } from './tapeClass.ts';
import { effectiveDof } from './welchSatterthwaite.ts';

/** What goes into a reading; each part by itself is optional. */
export interface ReadingParts {
  /** u of the instrument at this reading, from its certificate or class. */
  readonly instrument?: Quantity;
  /** Smallest step it shows. */
  readonly resolution?: number;
  /** u of one setting on a mark, and how many such settings a reading has (a tape has two ends). */
  readonly setUp?: { readonly u: number; readonly ends: 1 | 2 };
  /** Pooled standard deviation of one reading, with its dof, and how many readings were averaged. */
  readonly repeatability?: { readonly s: number; readonly dof: number; readonly readings: number };
}

/** A default repeatability counts as known with at least this many degrees of freedom. */
export const LEAST_POOLED_DOF = 20;

/** u and effective dof of a reading. Set-up and repeatability are averaged over repeats, the instrument is not. */
export function readingUncertainty(id: string, value: number, parts: ReadingParts): Quantity {
  const repeats = parts.repeatability?.readings ?? 1;
  const contributions: { u: number; dof: number }[] = [];
  if (parts.instrument !== undefined) contributions.push(parts.instrument);
  if (parts.resolution !== undefined) {
    contributions.push({ u: fromResolution(parts.resolution), dof: Number.POSITIVE_INFINITY });
  }
  if (parts.setUp !== undefined) {
    const u = (parts.setUp.u * Math.sqrt(parts.setUp.ends)) / Math.sqrt(repeats);
    contributions.push({ u, dof: Number.POSITIVE_INFINITY });
  }
  if (parts.repeatability !== undefined) {
    const { s, dof } = parts.repeatability;
    contributions.push({ u: s / Math.sqrt(repeats), dof });
  }
  const u = Math.sqrt(contributions.reduce((sum, part) => sum + part.u * part.u, 0));
  return quantity(id, value, u, effectiveDof(contributions));
}

/** u of a tape from its class: the permitted error taken as rectangular. 1.3 / sqrt 3 = 0.75 mm at 5 m, class II. */
export function tapeUncertainty(tapeClass: TapeClass, lengthMm: number, hook = false): Quantity {
  return quantity(`tape.${tapeClass}`, 0, rectangular(tapeLimitMm(tapeClass, lengthMm, hook)));
}

/** u from a certificate that states U with k, or with a level of confidence and dof. */
export function certificateUncertainty(
  id: string,
  value: number,
  expanded: { readonly U: number; readonly k?: number; readonly level?: number; readonly dof?: number },
): Quantity {
  const dof = expanded.dof ?? Number.POSITIVE_INFINITY;
  const k = expanded.k ?? coverageFactor(dof, expanded.level);
  return quantity(id, value, expanded.U / k, dof);
}

/**
 * Largest difference of repeats that pooled repeatability explains: 2.8 s for two (ISO 5725-6 4.1.4, 1.96 sqrt 2 = 2.77).
 */
export function repeatabilityLimit(pooledStandardDeviation: number): number {
  return 2.8 * pooledStandardDeviation;
}
