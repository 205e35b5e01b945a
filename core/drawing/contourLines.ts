/**
 * Contour lines of heights on a rectangular grid, straight between neighbouring places (d3-contour, marching squares with linear
 * interpolation). The library closes its rings along the rim of the grid; those pieces are no contour and are left out.
 */
import { contours } from 'd3-contour';
import { niceBelow } from './niceScale.ts';
import type { ScenePoint } from './scene.ts';

/** One line of one height. */
export interface ContourLine {
  readonly heightMm: number;
  readonly points: readonly ScenePoint[];
}

/** A grid of heights; `heightsMm[row][column]`, undefined where nobody read. */
export interface HeightGrid {
  readonly xsMm: readonly number[];
  readonly ysMm: readonly number[];
  readonly heightsMm: readonly (readonly (number | undefined)[])[];
}

/** At most about this many contour lines are drawn. */
const MOST_LEVELS = 8;
/** Closer than this no floor is read, mm. */
const FINEST_STEP_MM = 0.5;

/** Step between contour lines for a fall, mm: 1, 2 or 5 times a power of ten, or half a millimetre. */
export function contourStep(fallMm: number): number {
  const least = fallMm / MOST_LEVELS;
  if (!(least > FINEST_STEP_MM)) return FINEST_STEP_MM;
  const below = niceBelow(least);
  // The next of 1, 2, 5, 10: 2.5 times each is at or just over it.
  return below >= least ? below : niceBelow(2.5 * below);
}

/** A share of grid lines (1.25: a quarter of the way from the second to the third) as a place, mm. */
function along(lines: readonly number[], index: number): number {
  const clamped = Math.min(lines.length - 1, Math.max(0, index));
  const below = Math.min(lines.length - 2, Math.floor(clamped));
  const [low, high] = [lines[below] ?? 0, lines[below + 1] ?? 0];
  return low + (high - low) * (clamped - below);
}

/** Which sides of the rim a place in grid shares lies on or beyond. */
function rimOf(grid: HeightGrid, [x, y]: readonly [number, number]): readonly string[] {
  return [
    ...(x <= 0 ? ['low x'] : []),
    ...(x >= grid.xsMm.length - 1 ? ['high x'] : []),
    ...(y <= 0 ? ['low y'] : []),
    ...(y >= grid.ysMm.length - 1 ? ['high y'] : []),
  ];
}

/** A closed ring cut where it runs along the rim. */
function piecesOf(grid: HeightGrid, ring: readonly (readonly [number, number])[]): readonly ScenePoint[][] {
  const pieces: ScenePoint[][] = [];
  let open: ScenePoint[] = [];
  const point = ([x, y]: readonly [number, number]): ScenePoint => ({
    xMm: along(grid.xsMm, x),
    yMm: along(grid.ysMm, y),
  });
  ring.forEach((here, index) => {
    const next = ring[index + 1];
    if (next === undefined) return;
    const onRim = rimOf(grid, here).some((side) => rimOf(grid, next).includes(side));
    if (onRim) {
      if (open.length > 1) pieces.push(open);
      open = [];
      return;
    }
    if (open.length === 0) open.push(point(here));
    open.push(point(next));
  });
  if (open.length > 1) pieces.push(open);
  return pieces;
}

/** The contour lines at the multiples of `stepMm` that lie between the lowest and the highest place. */
export function contourLines(grid: HeightGrid, stepMm: number): readonly ContourLine[] {
  const values = grid.heightsMm.flatMap((row) => row.map((height) => height ?? Number.NaN));
  const known = values.filter(Number.isFinite);
  if (known.length < 4) return [];
  const [lowest, highest] = [Math.min(...known), Math.max(...known)];
  const lines: ContourLine[] = [];
  const draw = contours().size([grid.xsMm.length, grid.ysMm.length]);
  for (let level = Math.floor(lowest / stepMm) + 1; level * stepMm < highest; level++) {
    const heightMm = level * stepMm;
    for (const polygon of draw.contour(values, heightMm).coordinates) {
      for (const ring of polygon) {
        // The library counts a place of the grid at the middle of its square.
        const shares = ring.map(([x = 0, y = 0]) => [x - 0.5, y - 0.5] as const);
        for (const points of piecesOf(grid, shares)) lines.push({ heightMm, points });
      }
    }
  }
  return lines;
}
