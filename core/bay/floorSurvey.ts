/**
 * A floor survey: heights on a grid, read with a staff from one level plane. What it gives is a best plane with its
 * uncertainty, the residual surface, and the height at any place inside it (`floorSurface.ts`). Heights of the same
 * instrument share its tilt, which no number of points averages: 0.1 mm/m is 0.5 mm between places 5 m apart.
 */
import { err, ok, type Result } from '../result.ts';
import type { FloorError } from './floorPlane.ts';
import { type ResidualSurface, residualSurface } from './residualSurface.ts';
import { bestWeights, type KnownHeight, type KnownPlane, knownPlane } from './weightedPlane.ts';

/** Heights on a rectangular grid in the bay frame, mm, Z up. A place that cannot be read (a lift's base) is absent. */
export interface FloorSurvey {
  /** Grid lines across x, rising, mm; at least two. */
  readonly xsMm: readonly number[];
  /** Grid lines across y, rising, mm; at least two. */
  readonly ysMm: readonly number[];
  /** `heightsMm[j][i]` stands at (xsMm[i], ysMm[j]). */
  readonly heightsMm: readonly (readonly (number | undefined)[])[];
  /** u of one height: reading, staff on the floor, resolution. Not the tilt of the instrument. */
  readonly uHeightMm: number;
  /** u of the instrument's level, a pure number (1e-4 is 0.1 mm/m), the same in x and in y. */
  readonly uTilt: number;
}

/** What is wrong with a survey as it was entered. */
export type SurveyError =
  | FloorError
  | { readonly code: 'bay/gridNotRising'; readonly axis: 'x' | 'y' }
  | { readonly code: 'bay/gridIncomplete'; readonly rows: number; readonly expectedRows: number }
  | { readonly code: 'bay/badHeight'; readonly xMm: number; readonly yMm: number }
  | { readonly code: 'bay/badUncertainty' };

/** The survey's heights as a list, row by row, absent places left out. */
export function surveyHeights(survey: FloorSurvey): readonly KnownHeight[] {
  return survey.ysMm.flatMap((yMm, j) =>
    survey.xsMm.flatMap((xMm, i) => {
      const zMm = survey.heightsMm[j]?.[i];
      return zMm === undefined ? [] : [{ xMm, yMm, zMm, uMm: survey.uHeightMm }];
    }),
  );
}

const rising = (lines: readonly number[]): boolean =>
  lines.length >= 2 && lines.every((x, i) => Number.isFinite(x) && (i === 0 || x > (lines[i - 1] ?? x)));

/** The first fault of a survey's form, or undefined. */
function surveyFault(survey: FloorSurvey): SurveyError | undefined {
  const { xsMm, ysMm, heightsMm, uHeightMm, uTilt } = survey;
  if (!rising(xsMm)) return { code: 'bay/gridNotRising', axis: 'x' };
  if (!rising(ysMm)) return { code: 'bay/gridNotRising', axis: 'y' };
  const whole = heightsMm.length === ysMm.length && heightsMm.every((row) => row.length === xsMm.length);
  if (!whole) return { code: 'bay/gridIncomplete', rows: heightsMm.length, expectedRows: ysMm.length };
  const bad = surveyHeights(survey).find((h) => !Number.isFinite(h.zMm));
  if (bad !== undefined) return { code: 'bay/badHeight', xMm: bad.xMm, yMm: bad.yMm };
  const fits = (u: number): boolean => Number.isFinite(u) && u >= 0;
  return fits(uHeightMm) && fits(uTilt) ? undefined : { code: 'bay/badUncertainty' };
}

/** A survey that holds together, its plane, and what is left when the plane is taken off. */
export interface SurveyedFloor {
  readonly survey: FloorSurvey;
  readonly heights: readonly KnownHeight[];
  readonly plane: KnownPlane;
  /** About the plane, in the order of `heights`. */
  readonly residuals: ResidualSurface;
}

/**
 * Checks a survey and fits its plane (weights 1 / u^2). The plane's u is that of the heights alone: a floor that is not
 * flat still has a best plane; how far from flat it is stands in `residuals`.
 */
export function surveyedFloor(survey: FloorSurvey): Result<SurveyedFloor, SurveyError> {
  const fault = surveyFault(survey);
  if (fault !== undefined) return err(fault);
  const heights = surveyHeights(survey);
  const plane = knownPlane(heights, bestWeights(heights), survey.uTilt);
  if (!plane.ok) return plane;
  const points = heights.map((h) => [h.xMm, h.yMm, h.zMm] as const);
  return ok({ survey, heights, plane: plane.value, residuals: residualSurface(plane.value, points) });
}
