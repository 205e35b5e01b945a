/**
 * A directed line in plan (seen from above): where a point falls along it and how far beside it lies.
 * Left of the direction is positive, as Y is in ISO 8855 when the line runs ahead.
 */
import { err, ok, type Result } from '../result.ts';
import type { Vec2 } from './vector.ts';

/** Origin and unit direction. */
export interface PlanLine {
  readonly origin: Vec2;
  readonly direction: Vec2;
}

/** A point relative to a line, in the points' unit: {along: 3, offset: -1} is 3 on and 1 to the right. */
export interface LinePosition {
  readonly along: number;
  readonly offset: number;
}

/** The line from one point through another. Fails when they coincide. */
export function planLineThrough(
  from: Vec2,
  to: Vec2,
): Result<PlanLine, { readonly code: 'geometry/coincident' }> {
  const dx = to[0] - from[0];
  const dy = to[1] - from[1];
  const length = Math.hypot(dx, dy);
  if (!(length > 0)) return err({ code: 'geometry/coincident' });
  return ok({ origin: from, direction: [dx / length, dy / length] });
}

/** Where a point is, counted along the line from its origin and across it (left positive). */
export function positionOn(line: PlanLine, point: Vec2): LinePosition {
  const dx = point[0] - line.origin[0];
  const dy = point[1] - line.origin[1];
  const [ex, ey] = line.direction;
  return { along: ex * dx + ey * dy, offset: ex * dy - ey * dx };
}

/** The point at a position relative to the line: the inverse of `positionOn`. */
export function pointAt(line: PlanLine, position: LinePosition): Vec2 {
  const [ex, ey] = line.direction;
  return [
    line.origin[0] + ex * position.along - ey * position.offset,
    line.origin[1] + ey * position.along + ex * position.offset,
  ];
}

/** Heading of the line, radians, turning left from the x axis. */
export function heading(line: PlanLine): number {
  return Math.atan2(line.direction[1], line.direction[0]);
}
