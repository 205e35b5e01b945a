/**
 * How flat and how level a floor is along a line of heights at equal steps: the F-numbers of ASTM E1155 (inch) and
 * E1155M (metric). Heights are 300 mm (12 in) apart; q is the bend over two steps, z the rise over ten (3 m, 10 ft).
 * Definitions as in extracts of clauses 3.1-3.2; the constants are from memory. Higher numbers are better floors.
 */
import { err, ok, type Result } from '../result.ts';
import { mean, standardDeviation } from '../uncertainty/typeA.ts';

/**
 * `metric`: FF = 115.8 / (3 s + |mean|), the constant E1155M prints. `inch`: 4.57 in, which is 116.078 mm: 0.24 % more
 * for the same floor. The level number is 317.5 mm = 12.5 in in both. State which was used.
 */
export type FlatnessEdition = 'metric' | 'inch';

const FLATNESS_MM: Readonly<Record<FlatnessEdition, number>> = { metric: 115.8, inch: 4.57 * 25.4 };
const LEVELNESS_MM = 317.5;

/** Distance between heights, mm: 300, or 304.8 for the inch edition. */
export const FLATNESS_STEP_MM: Readonly<Record<FlatnessEdition, number>> = { metric: 300, inch: 304.8 };

/** A line needs this many heights (11 ft, 3.3 m). */
export const LEAST_HEIGHTS = 12;

const LEVEL_STEPS = 10;

/** Mean and standard deviation of a line's bends or rises, mm. */
export interface LineSpread {
  readonly values: readonly number[];
  readonly mean: number;
  readonly s: number;
}

/** F-numbers of one line. Infinite for a line without any bend, or without any rise. */
export interface FlatnessLine {
  readonly bends: LineSpread;
  readonly rises: LineSpread;
  readonly flatness: number;
  readonly levelness: number;
  readonly edition: FlatnessEdition;
}

/** Too few heights for a line. */
export interface LineTooShort {
  readonly code: 'bay/lineTooShort';
  readonly heights: number;
  readonly least: number;
}

/** F-numbers of heights in mm along one line, first to last. The direction of the line plays no part. */
export function flatnessOfLine(
  heightsMm: readonly number[],
  edition: FlatnessEdition = 'metric',
): Result<FlatnessLine, LineTooShort> {
  if (heightsMm.length < LEAST_HEIGHTS) {
    return err({ code: 'bay/lineTooShort', heights: heightsMm.length, least: LEAST_HEIGHTS });
  }
  const bends = spread(apart(apart(heightsMm, 1), 1));
  const rises = spread(apart(heightsMm, LEVEL_STEPS));
  return ok({
    bends,
    rises,
    flatness: FLATNESS_MM[edition] / reach(bends),
    levelness: LEVELNESS_MM / reach(rises),
    edition,
  });
}

/** Difference of each value from the one `steps` before it. */
function apart(values: readonly number[], steps: number): readonly number[] {
  return values.slice(steps).map((value, i) => value - (values[i] ?? Number.NaN));
}

function spread(values: readonly number[]): LineSpread {
  return { values, mean: mean(values), s: standardDeviation(values) };
}

/** What nearly all values stay within, which the numbers are the reciprocal of. */
function reach({ mean: middle, s }: LineSpread): number {
  return 3 * s + Math.abs(middle);
}

/**
 * One F-number for several lines, each weighed by its count of readings: the lines' mean square reach, of which an
 * F-number is the inverse (E1155 combines lines in this way; from memory). Counts are of bends for flatness, of rises
 * for levelness. Two lines alike keep their number.
 */
export function combinedFNumber(
  lines: readonly { readonly number: number; readonly count: number }[],
): number {
  const total = lines.reduce((sum, line) => sum + line.count, 0);
  const squares = lines.reduce((sum, line) => sum + line.count / (line.number * line.number), 0);
  return Math.sqrt(total / squares);
}
