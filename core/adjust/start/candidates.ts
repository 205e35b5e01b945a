/**
 * Where one place may be, given a rigid piece that does not hold it yet: on a drop, at a position on a line, where two
 * circles, a circle and a line, or two lines meet. Two answers are decided by a declared side or by a further reading
 * that tells them clearly apart; never by a guess.
 */
import { circlesMeet } from '../../geometry/circles.ts';
import { type PlanLine, planLineThrough, pointAt, positionOn } from '../../geometry/planLine.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import { type Cluster, distance, headingIn } from './cluster.ts';
import type { DropFact, LineFact } from './facts.ts';

/** A horizontal distance from the place to one of the piece. */
export interface Circle {
  readonly other: number;
  readonly centre: Vec2;
  readonly radius: number;
}

/** What readings say of the place relative to the piece. */
export interface Clues {
  readonly circles: readonly Circle[];
  /** Lines the place lies on: `ray` when only ahead of the origin. */
  readonly rays: readonly (PlanLine & { readonly ray: boolean })[];
  /** Known along or offset on lines of the piece. */
  readonly positions: readonly {
    readonly line: PlanLine;
    readonly axis: LineFact['axis'];
    readonly mm: number;
  }[];
  readonly fixed: readonly Vec2[];
  readonly sides: readonly { readonly line: PlanLine; readonly left: boolean }[];
}

/** Placed; open (not enough is known); or mirrored: two answers that nothing tells apart, with the places they hang on. */
export type Placing = { readonly found: Vec2 } | { readonly mirrored: readonly number[] } | undefined;

/** Places a point from its clues. */
export function placeFrom(clues: Clues): Placing {
  const fixed = clues.fixed[0];
  if (fixed !== undefined) return { found: fixed };
  const lines = [...clues.rays, ...clues.positions.map(positionLine)];
  const crossing = crossLines(lines);
  if (crossing !== undefined) return { found: crossing };
  let best:
    | { readonly pair: readonly [Vec2, Vec2]; readonly by: readonly number[]; readonly spread: number }
    | undefined;
  for (const [i, circle] of clues.circles.entries()) {
    for (const other of clues.circles.slice(i + 1)) {
      const meet = circlesMeet(circle.centre, circle.radius, other.centre, other.radius);
      if (meet === undefined) continue;
      const spread = meet.halfChord / Math.max(circle.radius, other.radius, 1e-9);
      if (best === undefined || spread > best.spread) {
        best = { pair: [meet.left, meet.right], by: [circle.other, other.other], spread };
      }
    }
    for (const line of lines) {
      const pair = circleAndLine(circle, line);
      const spread = distance(pair[0], pair[1]) / 2 / Math.max(circle.radius, 1e-9);
      if (best === undefined || spread > best.spread) best = { pair, by: [circle.other], spread };
    }
  }
  if (best === undefined) return undefined;
  const found = decide(best.pair, clues);
  return found === undefined ? { mirrored: best.by } : { found };
}

/** A position known in one axis is a line: parallel to the line at an offset, or square to it at a foot. */
function positionLine(position: Clues['positions'][number]): PlanLine & { readonly ray: boolean } {
  const { line, axis, mm } = position;
  const [ex, ey] = line.direction;
  return axis === 'offset'
    ? { origin: pointAt(line, { along: 0, offset: mm }), direction: line.direction, ray: false }
    : { origin: pointAt(line, { along: mm, offset: 0 }), direction: [-ey, ex], ray: false };
}

/** Lines that cross at less than this (sine of the angle) do not place a point. */
const FLAT = 0.02;

function crossLines(lines: readonly PlanLine[]): Vec2 | undefined {
  let best: Vec2 | undefined;
  let bestSine = FLAT;
  for (const [i, a] of lines.entries()) {
    for (const b of lines.slice(i + 1)) {
      const sine = a.direction[0] * b.direction[1] - a.direction[1] * b.direction[0];
      if (Math.abs(sine) <= bestSine) continue;
      const dx = b.origin[0] - a.origin[0];
      const dy = b.origin[1] - a.origin[1];
      const along = (dx * b.direction[1] - dy * b.direction[0]) / sine;
      best = pointAt(a, { along, offset: 0 });
      bestSine = Math.abs(sine);
    }
  }
  return best;
}

function circleAndLine(circle: Circle, line: PlanLine): readonly [Vec2, Vec2] {
  const { along, offset } = positionOn(line, circle.centre);
  const half = Math.sqrt(Math.max(0, circle.radius * circle.radius - offset * offset));
  return [
    pointAt(line, { along: along + half, offset: 0 }),
    pointAt(line, { along: along - half, offset: 0 }),
  ];
}

/** The better answer must miss a further reading by less than this share of what the other misses it by. */
const CLEARLY = 0.25;

/** Picks one of two answers, or none when nothing tells them apart. */
function decide([a, b]: readonly [Vec2, Vec2], clues: Clues): Vec2 | undefined {
  if (distance(a, b) === 0) return a;
  for (const { line, left } of clues.sides) {
    const [offsetA, offsetB] = [positionOn(line, a).offset, positionOn(line, b).offset];
    if (offsetA > 0 !== offsetB > 0) return offsetA > 0 === left ? a : b;
  }
  for (const ray of clues.rays) {
    if (!ray.ray) continue;
    const [aheadA, aheadB] = [positionOn(ray, a).along > 0, positionOn(ray, b).along > 0];
    if (aheadA !== aheadB) return aheadA ? a : b;
  }
  const misses = [
    ...clues.circles.map((c) => [distance(a, c.centre) - c.radius, distance(b, c.centre) - c.radius]),
    ...clues.positions.map((p) => {
      const [atA, atB] = [positionOn(p.line, a), positionOn(p.line, b)];
      return [atA[p.axis] - p.mm, atB[p.axis] - p.mm];
    }),
  ];
  let most = 0;
  let choice: Vec2 | undefined;
  for (const [missA = 0, missB = 0] of misses) {
    const [small, large] = [
      Math.min(Math.abs(missA), Math.abs(missB)),
      Math.max(Math.abs(missA), Math.abs(missB)),
    ];
    if (small < CLEARLY * large && large > most && large > CLEARLY * distance(a, b) * CLEARLY) {
      most = large;
      choice = Math.abs(missA) < Math.abs(missB) ? a : b;
    }
  }
  return choice;
}

/** Where a dropped mark (or the point above it) is, once the other and the direction are known. */
export function fromDrop(piece: Cluster, drop: DropFact, place: number): Vec2 | undefined {
  const known = piece.places.get(place === drop.mark ? drop.point : drop.mark);
  if (known === undefined) return undefined;
  const sign = place === drop.mark ? 1 : -1;
  if (drop.along === 0 && drop.across === 0) return known;
  const heading = headingIn(piece, drop.direction);
  if (heading === undefined) return undefined;
  const line: PlanLine = { origin: known, direction: [Math.cos(heading), Math.sin(heading)] };
  return pointAt(line, { along: sign * drop.along, offset: sign * drop.across });
}

/** A line of the piece through two of its places, or through one of them by a known heading. */
export function lineIn(piece: Cluster, [from, to]: readonly [number, number]): PlanLine | undefined {
  const [p, q] = [piece.places.get(from), piece.places.get(to)];
  if (p !== undefined && q !== undefined) {
    const line = planLineThrough(p, q);
    return line.ok ? line.value : undefined;
  }
  const heading = headingIn(piece, { line: [from, to] });
  if (p === undefined || heading === undefined) return undefined;
  return { origin: p, direction: [Math.cos(heading), Math.sin(heading)] };
}
