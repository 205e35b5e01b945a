/**
 * Analysis of variance of a crossed study (AIAG MSA, 4th ed., chapter III, section B): parts, people, their interaction
 * and the readings themselves. An interaction that could well be chance is pooled with the readings, which gives the
 * repeatability more degrees of freedom.
 */
import { fTail } from '../uncertainty/fDistribution.ts';
import { type VarianceLine, varianceLine } from '../uncertainty/oneWay.ts';
import { compensatedSum, mean, squaresAboutMean } from '../uncertainty/typeA.ts';
import { type Components, componentsOf } from './components.ts';
import type { Study } from './study.ts';

/** A line of the table with its ratio to the line it is tested against. */
export interface TestedLine extends VarianceLine {
  readonly f: number;
  /** Probability of so large a ratio by chance. */
  readonly p: number;
}

/** The table, the components, and the repeatability that a shop's readings take over. */
export interface CrossedAnova extends Components {
  /** Tested against the interaction, or when that is pooled against the pooled readings. */
  readonly partLine: TestedLine;
  readonly personLine: TestedLine;
  /** Tested against the readings. */
  readonly interactionLine: TestedLine;
  readonly readingLine: VarianceLine;
  /** Readings and interaction together; only when pooled. */
  readonly pooledLine?: VarianceLine;
  readonly totalLine: VarianceLine;
  /** Standard deviation of one reading and its degrees of freedom, as `readingUncertainty` wants them. */
  readonly pooledRepeatability: { readonly s: number; readonly dof: number };
}

/** An interaction with a larger p than this is taken for chance (common practice; from memory of the manual). */
export const POOL_ABOVE = 0.25;

/** Works the table out. `poolAbove` 1 never pools, 0 always does unless the ratio has no chance at all. */
export function crossedAnova(study: Study, poolAbove: number = POOL_ABOVE): CrossedAnova {
  const { parts, people, trials } = study;
  const { part, person, interaction, reading, total } = variances(study);
  const interactionLine = tested(interaction, reading);
  const pool = interactionLine.p > poolAbove;
  const pooledLine = varianceLine(reading.squares + interaction.squares, reading.dof + interaction.dof);
  const noise = pool ? pooledLine : reading;
  const against = pool ? pooledLine : interaction;
  const components = componentsOf({
    repeatability: noise.meanSquare,
    reproducibility: (person.meanSquare - against.meanSquare) / (parts * trials),
    interaction: pool ? 0 : (interaction.meanSquare - reading.meanSquare) / trials,
    parts: (part.meanSquare - against.meanSquare) / (people * trials),
  });
  return {
    ...components,
    partLine: tested(part, against),
    personLine: tested(person, against),
    interactionLine,
    readingLine: reading,
    ...(pool ? { pooledLine } : {}),
    totalLine: total,
    pooledRepeatability: { s: Math.sqrt(noise.meanSquare), dof: noise.dof },
  };
}

/** Sums of squares of the four sources and of the whole, readings taken from a common origin. */
function variances({ readings, parts, people, trials }: Study) {
  const origin = readings[0]?.[0]?.[0] ?? 0;
  const cells = readings.map((row) => row.map((cell) => cell.map((value) => value - origin)));
  const partMeans = cells.map((row) => mean(row.flat()));
  const personMeans = Array.from({ length: people }, (_, o) => mean(cells.flatMap((row) => row[o] ?? [])));
  const grand = mean(cells.flat(2));
  const interaction = compensatedSum(
    cells.flatMap((row, p) =>
      row.map((cell, o) => {
        const off = mean(cell) - (partMeans[p] ?? 0) - (personMeans[o] ?? 0) + grand;
        return trials * off * off;
      }),
    ),
  );
  return {
    part: varianceLine(people * trials * squaresAboutMean(partMeans), parts - 1),
    person: varianceLine(parts * trials * squaresAboutMean(personMeans), people - 1),
    interaction: varianceLine(interaction, (parts - 1) * (people - 1)),
    reading: varianceLine(compensatedSum(cells.flat().map(squaresAboutMean)), parts * people * (trials - 1)),
    total: varianceLine(squaresAboutMean(cells.flat(2)), parts * people * trials - 1),
  };
}

function tested(line: VarianceLine, against: VarianceLine): TestedLine {
  // Nothing against nothing is no sign of a difference; something against nothing is a certain one.
  const certain = line.meanSquare === 0 ? 0 : Number.POSITIVE_INFINITY;
  const f = against.meanSquare === 0 ? certain : line.meanSquare / against.meanSquare;
  return { ...line, f, p: fTail(f, line.dof, against.dof) };
}
