/**
 * The floor between the places that were read: bilinear inside each cell of the survey's grid. Three things make the
 * height uncertain: the corners' own u (averaging inside the cell), the level's tilt (shared by all places), and the
 * form of the floor between corners, which nobody read. The last is bounded by the bends seen along the grid: a curve
 * bending by b over two steps lies at most b / 8 from its chord over one, at its middle, and 4 t (1 - t) of that at t.
 */
import { at } from '../linalg/at.ts';
import { entry, type Matrix, zeroMatrix } from '../linalg/matrix.ts';
import { err, ok, type Result } from '../result.ts';
import { rectangular } from '../uncertainty/quantity.ts';
import type { FloorSurvey, SurveyedFloor } from './floorSurvey.ts';
import { type Known, knownPlaneHeight } from './weightedPlane.ts';

/** A place asked for, with the name an error can call it by. */
export interface NamedPlace {
  readonly name: string;
  readonly xMm: number;
  readonly yMm: number;
}

/** Why the survey says nothing about a place; never extrapolated. */
export type FloorQueryError =
  | { readonly code: 'bay/outsideSurvey'; readonly place: string; readonly byMm: number }
  | { readonly code: 'bay/surveyGap'; readonly place: string };

/** A cell of the grid and where in it a place lies, 0 to 1 in x and y. */
interface Cell {
  readonly i: number;
  readonly j: number;
  readonly s: number;
  readonly t: number;
}

/** Index of the grid line below, and the share of the step above it. Undefined outside. */
function between(lines: readonly number[], value: number): { index: number; share: number } | undefined {
  for (let index = 0; index + 1 < lines.length; index++) {
    const [low, high] = [lines[index] ?? 0, lines[index + 1] ?? 0];
    if (value >= low && value <= high) return { index, share: (value - low) / (high - low) };
  }
  return undefined;
}

function outsideBy(lines: readonly number[], value: number): number {
  return Math.max(0, (lines[0] ?? 0) - value, value - (lines[lines.length - 1] ?? 0));
}

function cellOf(survey: FloorSurvey, place: NamedPlace): Result<Cell, FloorQueryError> {
  const x = between(survey.xsMm, place.xMm);
  const y = between(survey.ysMm, place.yMm);
  if (x === undefined || y === undefined) {
    const byMm = Math.hypot(outsideBy(survey.xsMm, place.xMm), outsideBy(survey.ysMm, place.yMm));
    return err({ code: 'bay/outsideSurvey', place: place.name, byMm });
  }
  return ok({ i: x.index, j: y.index, s: x.share, t: y.share });
}

/** Weights of a cell's corners at a place, by the corner's position in the grid. Corners of no weight are left out. */
function cornersOf({ i, j, s, t }: Cell): readonly { i: number; j: number; weight: number }[] {
  return [
    { i, j, weight: (1 - s) * (1 - t) },
    { i: i + 1, j, weight: s * (1 - t) },
    { i, j: j + 1, weight: (1 - s) * t },
    { i: i + 1, j: j + 1, weight: s * t },
  ].filter(({ weight }) => weight !== 0);
}

/**
 * The largest bend over two steps of a line of heights at `xs`, as the height of the middle over the chord, times two
 * (which for equal steps is the second difference); bends across an absent height are not known and left out.
 */
function largestBend(xs: readonly number[], zs: readonly (number | undefined)[]): number {
  let largest = 0;
  for (let k = 1; k + 1 < xs.length; k++) {
    const [a, b, c] = [zs[k - 1], zs[k], zs[k + 1]];
    if (a === undefined || b === undefined || c === undefined) continue;
    const [xa, xb, xc] = [xs[k - 1] ?? 0, xs[k] ?? 0, xs[k + 1] ?? 0];
    const chord = a + ((c - a) * (xb - xa)) / (xc - xa);
    largest = Math.max(largest, 2 * Math.abs(b - chord));
  }
  return largest;
}

/** Largest bends along x and along y anywhere on the grid, mm: how much the floor may bulge between two readings. */
export function largestBends(survey: FloorSurvey): { readonly xMm: number; readonly yMm: number } {
  const columns = survey.xsMm.map((_, i) => survey.heightsMm.map((row) => row[i]));
  return {
    xMm: Math.max(...survey.heightsMm.map((row) => largestBend(survey.xsMm, row))),
    yMm: Math.max(...columns.map((column) => largestBend(survey.ysMm, column))),
  };
}

/** u of the floor's form inside a cell, mm: zero at its corners, largest at its middle. */
function formU(bends: { readonly xMm: number; readonly yMm: number }, { s, t }: Cell): number {
  return Math.hypot(
    rectangular((bends.xMm / 8) * 4 * s * (1 - s)),
    rectangular((bends.yMm / 8) * 4 * t * (1 - t)),
  );
}

/** Heights at several places, with their joint covariance in the order asked for. */
export interface FloorHeights {
  readonly heightsMm: readonly number[];
  /** From corners and form; mm^2. The tilt is not in it: it is known apart, as `uTilt`, about any one place. */
  readonly covariance: Matrix;
  readonly uTilt: number;
  /** u of the height of each place over the first one, all causes together, mm. */
  readonly uOverFirstMm: readonly number[];
}

/**
 * Heights of the floor at places inside the survey, mm. Places in one cell share its corners, so the u of their
 * difference is smaller than independent readings would give; that is in the covariance.
 */
export function floorHeights(
  { survey }: Pick<SurveyedFloor, 'survey'>,
  places: readonly NamedPlace[],
): Result<FloorHeights, FloorQueryError> {
  const bends = largestBends(survey);
  const rows: (readonly { i: number; j: number; weight: number }[])[] = [];
  const form: number[] = [];
  const heightsMm: number[] = [];
  for (const place of places) {
    const cell = cellOf(survey, place);
    if (!cell.ok) return cell;
    const corners = cornersOf(cell.value);
    let height = 0;
    for (const { i, j, weight } of corners) {
      const z = survey.heightsMm[j]?.[i];
      if (z === undefined) return err({ code: 'bay/surveyGap', place: place.name });
      height += weight * z;
    }
    heightsMm.push(height);
    rows.push(corners);
    form.push(formU(bends, cell.value));
  }
  const covariance = jointCovariance(rows, form, survey.uHeightMm);
  return ok({
    heightsMm,
    covariance,
    uTilt: survey.uTilt,
    uOverFirstMm: places.map((place, k) => {
      const first = places[0] ?? place;
      const own = entry(covariance, k, k) + entry(covariance, 0, 0) - 2 * entry(covariance, k, 0);
      const apart = Math.hypot(place.xMm - first.xMm, place.yMm - first.yMm);
      return Math.hypot(Math.sqrt(Math.max(0, own)), survey.uTilt * apart);
    }),
  });
}

function jointCovariance(
  rows: readonly (readonly { i: number; j: number; weight: number }[])[],
  form: readonly number[],
  u: number,
): Matrix {
  const covariance = zeroMatrix(rows.length, rows.length);
  rows.forEach((a, k) => {
    rows.forEach((b, l) => {
      let shared = 0;
      for (const p of a) {
        const same = b.find((q) => q.i === p.i && q.j === p.j);
        shared += p.weight * (same?.weight ?? 0) * u * u;
      }
      const f = form[k] ?? 0;
      covariance.data[k * rows.length + l] = shared + (k === l ? f * f : 0);
    });
  });
  return covariance;
}

/** Height of one place over the survey's own plane, mm, with its u (the tilt drops out: both share it). */
export function residualAt(floor: SurveyedFloor, place: NamedPlace): Result<Known, FloorQueryError> {
  const heights = floorHeights(floor, [place]);
  if (!heights.ok) return heights;
  const plane = knownPlaneHeight({ ...floor.plane, uTilt: 0 }, place.xMm, place.yMm);
  const value = (heights.value.heightsMm[0] ?? 0) - plane.value;
  // The plane rests on these very heights; leaving that out can only make the u larger.
  return ok({ value, u: Math.hypot(Math.sqrt(at(heights.value.covariance.data, 0)), plane.u) });
}
