/**
 * Flatness by straightedge: the largest gap under an edge of given length (2 m or 3 m) laid anywhere along a line of
 * heights, resting on its high spots (the method of building tolerances such as DIN 18202; from memory). Between the
 * heights the floor is taken as straight. The gap is the largest height of a chord over the floor, over all pairs of
 * places no farther apart than the edge is long: a chord that cuts into the floor only ever gives less.
 */
import { item } from '../linalg/at.ts';
import { err, ok, type Result } from '../result.ts';

/** Heights along a line: distance from its start, rising, and height, mm. */
export interface ProfilePoint {
  readonly alongMm: number;
  readonly heightMm: number;
}

/** Where the edge lies and what is under it. */
export interface StraightedgeGap {
  readonly gapMm: number;
  /** u of the gap from the heights' u; the level's tilt has no part in it. */
  readonly uMm: number;
  /** Places the edge rests on, and where the gap is, mm along the line. */
  readonly fromMm: number;
  readonly toMm: number;
  readonly gapAtMm: number;
}

/** A line that a straightedge cannot judge. */
export type StraightedgeError =
  | { readonly code: 'bay/lineShorterThanEdge'; readonly lineMm: number; readonly edgeMm: number }
  | { readonly code: 'bay/stepsTooWide'; readonly stepMm: number; readonly edgeMm: number }
  | { readonly code: 'bay/lineNotRising' };

/** An edge needs at least this many steps of the line under it to see anything: two would show a bend only if lucky. */
const LEAST_STEPS = 4;

/** The floor as a broken line. */
function heightAt(line: readonly ProfilePoint[], alongMm: number): number {
  const next = line.findIndex((p, i) => i > 0 && p.alongMm >= alongMm);
  const [a, b] = [line[next - 1], line[next]];
  if (a === undefined || b === undefined) return line[0]?.heightMm ?? Number.NaN;
  return a.heightMm + ((b.heightMm - a.heightMm) * (alongMm - a.alongMm)) / (b.alongMm - a.alongMm);
}

/** Gap of one chord over one place, with its u: the three heights are read apart. */
function gapUnder(
  line: readonly ProfilePoint[],
  fromMm: number,
  toMm: number,
  gapAtMm: number,
  u: number,
): StraightedgeGap {
  const t = (gapAtMm - fromMm) / (toMm - fromMm);
  const gapMm = (1 - t) * heightAt(line, fromMm) + t * heightAt(line, toMm) - heightAt(line, gapAtMm);
  return { gapMm, uMm: u * Math.sqrt(1 + t * t + (1 - t) * (1 - t)), fromMm, toMm, gapAtMm };
}

/**
 * Starts of a full-length edge that can hold the largest gap over the place `at`: where either end meets a height (the
 * gap is a parabola between these), and each parabola's top.
 */
function fullEdgeStarts(
  line: readonly ProfilePoint[],
  edgeMm: number,
  at: number,
  gap: (s: number) => number,
): number[] {
  const lowest = Math.max(
    item(
      line.map((p) => p.alongMm),
      0,
    ),
    at - edgeMm,
  );
  const highest = Math.min(at, (line[line.length - 1]?.alongMm ?? at) - edgeMm);
  const breaks = line
    .flatMap((p) => [p.alongMm, p.alongMm - edgeMm])
    .filter((s) => s > lowest && s < highest);
  const starts = [...breaks, lowest, highest]
    .filter((s) => s >= lowest && s <= highest)
    .sort((a, b) => a - b);
  const tops = starts.slice(1).flatMap((high, k) => {
    const low = item(starts, k);
    const [a, b, c] = [gap(low), gap((low + high) / 2), gap(high)];
    const bend = a - 2 * b + c;
    if (!(bend < 0)) return [];
    const top = (low + high) / 2 + ((high - low) * (a - c)) / (4 * bend);
    return top > low && top < high ? [top] : [];
  });
  return [...starts, ...tops];
}

/** The largest gap under an edge of `edgeMm` anywhere along the line; `uHeightMm` is the u of one height. */
export function largestGap(
  line: readonly ProfilePoint[],
  edgeMm: number,
  uHeightMm: number,
): Result<StraightedgeGap, StraightedgeError> {
  const alongs = line.map((p) => p.alongMm);
  const steps = alongs.slice(1).map((a, i) => a - item(alongs, i));
  if (steps.length === 0 || !steps.every((step) => step > 0)) return err({ code: 'bay/lineNotRising' });
  const lineMm = item(alongs, alongs.length - 1) - item(alongs, 0);
  if (lineMm < edgeMm) return err({ code: 'bay/lineShorterThanEdge', lineMm, edgeMm });
  const stepMm = Math.max(...steps);
  if (stepMm * LEAST_STEPS > edgeMm) return err({ code: 'bay/stepsTooWide', stepMm, edgeMm });
  let worst = gapUnder(line, item(alongs, 0), item(alongs, 1), item(alongs, 0), uHeightMm);
  const offer = (from: number, to: number, at: number): void => {
    const found = gapUnder(line, from, to, at, uHeightMm);
    if (found.gapMm > worst.gapMm) worst = found;
  };
  alongs.forEach((at, r) => {
    for (const from of alongs.slice(0, r)) {
      for (const to of alongs.slice(r + 1)) if (to - from <= edgeMm) offer(from, to, at);
    }
    const gap = (s: number): number => gapUnder(line, s, s + edgeMm, at, 0).gapMm;
    for (const s of fullEdgeStarts(line, edgeMm, at, gap)) offer(s, s + edgeMm, at);
  });
  return ok(worst);
}
