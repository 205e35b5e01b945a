/** One-way analysis of variance: do groups of readings differ by more than readings within a group do? */
import { invariant } from '../result.ts';
import { fTail } from './fDistribution.ts';
import { compensatedSum, mean, squaresAboutMean } from './typeA.ts';

/** One line of the table: sum of squares, degrees of freedom, mean square. */
export interface VarianceLine {
  readonly squares: number;
  readonly dof: number;
  readonly meanSquare: number;
}

/** The table with its ratio F, and how likely so large an F is when the groups do not differ. */
export interface OneWay {
  readonly between: VarianceLine;
  readonly within: VarianceLine;
  readonly f: number;
  readonly p: number;
  /** Share of all variation that lies between the groups. */
  readonly rSquared: number;
}

/** A line of a variance table. */
export function varianceLine(squares: number, dof: number): VarianceLine {
  return { squares, dof, meanSquare: dof === 0 ? 0 : squares / dof };
}

/** Table of groups of readings, which need not be equally many. Needs two groups and readings to spare. */
export function oneWay(groups: readonly (readonly number[])[]): OneWay {
  const n = groups.reduce((sum, group) => sum + group.length, 0);
  invariant(
    groups.length > 1 && n > groups.length,
    `needs two groups and repeats, got ${groups.length} and ${n}`,
  );
  // Taken from a common origin first: digits that all readings share carry no information and cost some.
  const origin = groups[0]?.[0] ?? 0;
  const moved = groups.map((group) => group.map((value) => value - origin));
  const grand = mean(moved.flat());
  const between = varianceLine(
    compensatedSum(
      moved.map((group) => {
        const off = mean(group) - grand;
        return group.length * off * off;
      }),
    ),
    groups.length - 1,
  );
  const within = varianceLine(compensatedSum(moved.map(squaresAboutMean)), n - groups.length);
  const f = between.meanSquare / within.meanSquare;
  const total = between.squares + within.squares;
  return {
    between,
    within,
    f,
    p: fTail(f, between.dof, within.dof),
    rSquared: total === 0 ? 0 : between.squares / total,
  };
}
