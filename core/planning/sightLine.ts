/**
 * Does a straight line with some room about it meet an obstacle? The line is cut by the planes of the outline, each moved
 * outward by the room beside the line, and by the two heights; what is left of it is inside (Cyrus and Beck's clipping of a
 * segment by a convex region). At an outline's corners this asks for a little more room than there need be.
 */
import type { Vec2, Vec3 } from '../geometry/vector.ts';
import type { Obstacle } from './obstacles.ts';
import type { ObstacleName } from './types.ts';

/** A straight line from one place to another with the room it needs: beside it, and above and below. */
export interface SightLine {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly halfWidthMm: number;
  /** How far what runs along it reaches above the line itself. */
  readonly aboveMm: number;
}

/** Part of the line, 0 at its start and 1 at its end. */
type Part = readonly [number, number];

/** What is left of a part where `start + slope t <= 0`. */
function keep([low, high]: Part, start: number, slope: number): Part {
  if (slope === 0) return start <= 0 ? [low, high] : [1, 0];
  const crossing = -start / slope;
  return slope > 0 ? [low, Math.min(high, crossing)] : [Math.max(low, crossing), high];
}

function corner({ outline }: Obstacle, index: number): Vec2 {
  return outline[index % outline.length] ?? [0, 0];
}

/** The part of a line inside an obstacle, or undefined when it passes. */
export function partInside(line: SightLine, obstacle: Obstacle): Part | undefined {
  const { from, to, halfWidthMm, aboveMm } = line;
  // Heights first: most slices of a tyre lie above a tape.
  const rise = to[2] - from[2];
  let part = keep([0, 1], from[2] - obstacle.toMm, rise);
  part = keep(part, obstacle.fromMm - from[2] - aboveMm, -rise);
  for (let i = 0; i < obstacle.outline.length && part[0] < part[1]; i++) {
    const [ax, ay] = corner(obstacle, i);
    const [bx, by] = corner(obstacle, i + 1);
    const side = Math.hypot(bx - ax, by - ay);
    // Outward normal of a side of a counter-clockwise outline.
    const [nx, ny] = [(by - ay) / side, (ax - bx) / side];
    const start = nx * (from[0] - ax) + ny * (from[1] - ay) - halfWidthMm;
    part = keep(part, start, nx * (to[0] - from[0]) + ny * (to[1] - from[1]));
  }
  return part[0] < part[1] ? part : undefined;
}

/** Names of the obstacles in the way of a line, in the order they are met. */
export function blockersOf(line: SightLine, obstacles: readonly Obstacle[]): readonly ObstacleName[] {
  const met = obstacles.flatMap((obstacle) => {
    const part = partInside(line, obstacle);
    return part === undefined ? [] : [{ name: obstacle.name, at: part[0] }];
  });
  met.sort((a, b) => a.at - b.at);
  return [...new Set(met.map(({ name }) => name))];
}
