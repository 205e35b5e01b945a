/**
 * From studies to the repeatability that a shop's readings are given: one standard deviation with its degrees of freedom, as
 * `readingUncertainty` takes it. Until the studies have enough degrees of freedom together the stated default stands.
 * The average-and-range method does not feed this: its degrees of freedom are only known by rule of thumb.
 */
import { invariant } from '../result.ts';
import { LEAST_POOLED_DOF, type ReadingParts } from '../uncertainty/readingUncertainty.ts';
import { effectiveDof } from '../uncertainty/welchSatterthwaite.ts';
import type { CrossedAnova } from './crossedAnova.ts';

/** A standard deviation of one reading and the degrees of freedom behind it, in the readings' unit. */
export interface PooledDeviation {
  readonly s: number;
  readonly dof: number;
}

/** What readings are given, and where it comes from. */
export interface ShopRepeatability extends PooledDeviation {
  readonly from: 'studies' | 'default';
}

/** Studies of one kind of reading as one: each weighs by its degrees of freedom. */
export function pooledStudies(studies: readonly PooledDeviation[]): PooledDeviation {
  let squares = 0;
  let dof = 0;
  for (const each of studies) {
    invariant(each.s >= 0 && each.dof > 0, `s and dof are positive, got ${each.s} and ${each.dof}`);
    squares += each.dof * each.s * each.s;
    dof += each.dof;
  }
  return { s: dof === 0 ? 0 : Math.sqrt(squares / dof), dof };
}

/** The pooled studies when they have at least 20 degrees of freedom together, else the default. */
export function shopRepeatability(
  studies: readonly PooledDeviation[],
  fallback: PooledDeviation,
): ShopRepeatability {
  const pooled = pooledStudies(studies);
  // A spread of nothing says that the instrument's step is wider than the spread, not that there is none.
  return pooled.dof >= LEAST_POOLED_DOF && pooled.s > 0
    ? { ...pooled, from: 'studies' }
    : { ...fallback, from: 'default' };
}

/**
 * A study's spread when any of the shop's people may take the reading: repeatability, people and their interaction. Its
 * degrees of freedom follow from the mean squares it is made of (Satterthwaite, as JCGM 100:2008 G.4): few people, few.
 */
export function acrossPeople(anova: CrossedAnova, parts: number, trials: number): PooledDeviation {
  const noise = anova.pooledLine ?? anova.readingLine;
  const perPerson = parts * trials;
  const terms =
    anova.pooledLine === undefined
      ? [
          { meanSquare: noise.meanSquare, dof: noise.dof, share: 1 - 1 / trials },
          {
            meanSquare: anova.interactionLine.meanSquare,
            dof: anova.interactionLine.dof,
            share: 1 / trials - 1 / perPerson,
          },
          { meanSquare: anova.personLine.meanSquare, dof: anova.personLine.dof, share: 1 / perPerson },
        ]
      : [
          { meanSquare: noise.meanSquare, dof: noise.dof, share: 1 - 1 / perPerson },
          { meanSquare: anova.personLine.meanSquare, dof: anova.personLine.dof, share: 1 / perPerson },
        ];
  // Estimates below nothing were set to nothing: then the readings alone are all there is.
  if (anova.reproducibility.variance === 0 && anova.interaction.variance === 0)
    return anova.pooledRepeatability;
  const parted = terms.map(({ meanSquare, dof, share }) => ({ u: Math.sqrt(meanSquare * share), dof }));
  return { s: anova.measuring.sigma, dof: effectiveDof(parted) };
}

/** The repeatability part of a reading that was taken `readings` times. */
export function repeatabilityPart(
  { s, dof }: PooledDeviation,
  readings: number,
): NonNullable<ReadingParts['repeatability']> {
  invariant(Number.isInteger(readings) && readings >= 1, `at least one whole reading, got ${readings}`);
  return { s, dof, readings };
}
