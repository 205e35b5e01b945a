/**
 * The flatness of a surveyed floor by straightedge: the largest gap under an edge laid along any line of the grid. Where a
 * place could not be read the line is cut: an edge never bridges ground that nobody saw. Lines that are too short for the
 * edge are left out, and counted.
 */
import { err, ok, type Result } from '../result.ts';
import type { SurveyedFloor } from './floorSurvey.ts';
import {
  largestGap,
  type ProfilePoint,
  type StraightedgeError,
  type StraightedgeGap,
} from './straightedge.ts';

/** The worst gap, and the grid line it lies on. */
export interface SurveyFlatness {
  readonly worst: StraightedgeGap;
  /** `x`: the line runs along x at the given y; `y` the other way round. mm. */
  readonly along: 'x' | 'y';
  readonly atMm: number;
  readonly linesJudged: number;
  readonly linesTooShort: number;
}

/** The pieces of a line between places that were not read. */
function pieces(
  steps: readonly number[],
  heights: readonly (number | undefined)[],
): readonly ProfilePoint[][] {
  const found: ProfilePoint[][] = [[]];
  steps.forEach((alongMm, i) => {
    const heightMm = heights[i];
    if (heightMm === undefined) found.push([]);
    else found[found.length - 1]?.push({ alongMm, heightMm });
  });
  return found.filter((piece) => piece.length > 0);
}

/**
 * The worst line of a survey under an edge of `edgeMm`. Fails when the grid is too wide for the edge, or when no line is as
 * long as it. u of the gap is that of three heights; the tilt of the level plane has no part in it.
 */
export function surveyFlatness(
  { survey }: Pick<SurveyedFloor, 'survey'>,
  edgeMm: number,
): Result<SurveyFlatness, StraightedgeError> {
  const { xsMm, ysMm, heightsMm, uHeightMm } = survey;
  const rows = ysMm.flatMap((atMm, j) =>
    pieces(xsMm, heightsMm[j] ?? []).map((line) => ({ along: 'x' as const, atMm, line })),
  );
  const columns = xsMm.flatMap((atMm, i) =>
    pieces(
      ysMm,
      heightsMm.map((row) => row[i]),
    ).map((line) => ({ along: 'y' as const, atMm, line })),
  );
  let best: Omit<SurveyFlatness, 'linesJudged' | 'linesTooShort'> | undefined;
  let linesJudged = 0;
  let longestMm = 0;
  for (const { along, atMm, line } of [...rows, ...columns]) {
    const lengthMm = (line[line.length - 1]?.alongMm ?? 0) - (line[0]?.alongMm ?? 0);
    longestMm = Math.max(longestMm, lengthMm);
    if (lengthMm < edgeMm) continue;
    const gap = largestGap(line, edgeMm, uHeightMm);
    if (!gap.ok) return gap;
    linesJudged++;
    if (best === undefined || gap.value.gapMm > best.worst.gapMm) best = { worst: gap.value, along, atMm };
  }
  if (best === undefined) return err({ code: 'bay/lineShorterThanEdge', lineMm: longestMm, edgeMm });
  return ok({ ...best, linesJudged, linesTooShort: rows.length + columns.length - linesJudged });
}
