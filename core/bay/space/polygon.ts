/**
 * Polygons in plan: plain lists of corners in mm, either way round, not closed. Only what the space check needs: is it one,
 * which way round it runs, its hull, and its convex pieces.
 */
import type { Vec2 } from '../../geometry/vector.ts';

/** Corners in order; the last joins the first. */
export type Polygon = readonly Vec2[];

/** Why corners make no polygon. */
export type PolygonFault =
  | 'tooFewCorners'
  | 'cornerNoNumber'
  | 'cornersCoincide'
  | 'noArea'
  | 'crossesItself';

/** Polygons smaller than this are slips of entry, mm^2: a square of 10 mm. */
const LEAST_AREA_MM2 = 100;

/** Neighbouring corners closer than this are one corner entered twice, mm: a side so short has no direction. */
const LEAST_SIDE_MM = 0.1;

/** Corners counted round: the one after the last is the first. */
export function corner(polygon: Polygon, index: number): Vec2 {
  const found = polygon[((index % polygon.length) + polygon.length) % polygon.length];
  if (found === undefined) throw new Error('invariant broken: a polygon has corners');
  return found;
}

/** Twice the signed area of a triangle: positive when a, b, c turn to the left. */
export function turnOf(a: Vec2, b: Vec2, c: Vec2): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/** Area, mm^2; positive when the corners run counter-clockwise seen from above. */
export function signedArea(polygon: Polygon): number {
  return polygon.reduce((sum, p, i) => sum + turnOf([0, 0], p, corner(polygon, i + 1)), 0) / 2;
}

/** The same polygon running counter-clockwise. */
export function counterClockwise(polygon: Polygon): Polygon {
  return signedArea(polygon) < 0 ? [...polygon].reverse() : polygon;
}

/** True when two closed stretches share a point. */
function stretchesMeet(a: Vec2, b: Vec2, c: Vec2, d: Vec2): boolean {
  const [t1, t2, t3, t4] = [turnOf(a, b, c), turnOf(a, b, d), turnOf(c, d, a), turnOf(c, d, b)];
  if (((t1 > 0 && t2 < 0) || (t1 < 0 && t2 > 0)) && ((t3 > 0 && t4 < 0) || (t3 < 0 && t4 > 0))) return true;
  return (
    (t1 === 0 && within(a, b, c)) ||
    (t2 === 0 && within(a, b, d)) ||
    (t3 === 0 && within(c, d, a)) ||
    (t4 === 0 && within(c, d, b))
  );
}

/** A point of the line through a and b lies on the stretch between them. */
function within(a: Vec2, b: Vec2, p: Vec2): boolean {
  return (
    Math.min(a[0], b[0]) <= p[0] &&
    p[0] <= Math.max(a[0], b[0]) &&
    Math.min(a[1], b[1]) <= p[1] &&
    p[1] <= Math.max(a[1], b[1])
  );
}

/** The first fault of a list of corners, or undefined for a polygon whose sides only meet at their common corners. */
export function polygonFault(corners: Polygon): PolygonFault | undefined {
  if (corners.length < 3) return 'tooFewCorners';
  if (!corners.every((p) => Number.isFinite(p[0]) && Number.isFinite(p[1]))) return 'cornerNoNumber';
  const short = (p: Vec2, i: number): boolean => {
    const next = corner(corners, i + 1);
    return !(Math.hypot(next[0] - p[0], next[1] - p[1]) >= LEAST_SIDE_MM);
  };
  if (corners.some(short)) return 'cornersCoincide';
  if (crossesItself(corners)) return 'crossesItself';
  return Math.abs(signedArea(corners)) < LEAST_AREA_MM2 ? 'noArea' : undefined;
}

function crossesItself(corners: Polygon): boolean {
  const n = corners.length;
  for (let i = 0; i < n; i++) {
    const [a, b] = [corner(corners, i), corner(corners, i + 1)];
    for (let j = i + 2; j < n; j++) {
      if ((j + 1) % n === i) continue;
      if (stretchesMeet(a, b, corner(corners, j), corner(corners, j + 1))) return true;
    }
  }
  return false;
}

/** True when no corner of a counter-clockwise polygon turns to the right. */
export function isConvex(polygon: Polygon): boolean {
  return polygon.every((p, i) => turnOf(p, corner(polygon, i + 1), corner(polygon, i + 2)) >= 0);
}

/** True for a point inside or on the border. */
export function contains(polygon: Polygon, point: Vec2): boolean {
  let inside = false;
  for (const [i, a] of polygon.entries()) {
    const b = corner(polygon, i + 1);
    if (turnOf(a, b, point) === 0 && within(a, b, point)) return true;
    const crosses = a[1] > point[1] !== b[1] > point[1];
    if (crosses && point[0] < a[0] + ((point[1] - a[1]) * (b[0] - a[0])) / (b[1] - a[1])) inside = !inside;
  }
  return inside;
}

/** Smallest convex polygon around points, counter-clockwise, without corners on straight sides (Andrew's chains). */
export function convexHull(points: readonly Vec2[]): Polygon {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (list: readonly Vec2[]): Vec2[] => {
    const hull: Vec2[] = [];
    for (const p of list) {
      while (hull.length >= 2 && turnOf(corner(hull, hull.length - 2), corner(hull, hull.length - 1), p) <= 0)
        hull.pop();
      hull.push(p);
    }
    return hull.slice(0, -1);
  };
  return [...chain(sorted), ...chain([...sorted].reverse())];
}
