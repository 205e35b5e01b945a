/** Where two circles in the plane meet: a point from two measured distances. */
import type { Vec2 } from './vector.ts';

/** The two meeting points, left and right of the way from the first centre to the second. */
export interface CircleMeeting {
  readonly left: Vec2;
  readonly right: Vec2;
  /** Half the chord: how far each lies from the line of centres. Zero when the circles touch or just miss. */
  readonly halfChord: number;
  /** How much the distances miss each other by; zero when the circles meet. */
  readonly gap: number;
}

/**
 * Meeting points of the circles about `a` and `b`. Circles that miss (readings are never exact) give the nearest point
 * of the line of centres twice, with the gap. Coincident centres give none.
 */
export function circlesMeet(a: Vec2, radiusA: number, b: Vec2, radiusB: number): CircleMeeting | undefined {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const d = Math.hypot(dx, dy);
  if (!(d > 0)) return undefined;
  const along = (d * d + radiusA * radiusA - radiusB * radiusB) / (2 * d);
  const square = radiusA * radiusA - along * along;
  const halfChord = square > 0 ? Math.sqrt(square) : 0;
  const gap = Math.max(0, d - radiusA - radiusB, Math.abs(radiusA - radiusB) - d);
  const [ex, ey] = [dx / d, dy / d];
  const foot: Vec2 = [a[0] + ex * along, a[1] + ey * along];
  return {
    left: [foot[0] - ey * halfChord, foot[1] + ex * halfChord],
    right: [foot[0] + ey * halfChord, foot[1] - ex * halfChord],
    halfChord,
    gap,
  };
}
