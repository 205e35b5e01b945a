/**
 * How far two convex polygons are apart, or how deep one is in the other: positive, their distance; negative, the shortest
 * push that parts them (separating axes: for convex polygons it is square to one of their sides). Moving either by d
 * changes the answer by at most d, which the search for a parking place relies on.
 */
import type { Vec2 } from '../../geometry/vector.ts';
import { corner, type Polygon } from './polygon.ts';

/** Least of n . p over the corners, n being the outward normal of the side from a to b (counter-clockwise polygon). */
function leastBeyond(a: Vec2, b: Vec2, points: Polygon): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = Math.hypot(dx, dy);
  let least = Number.POSITIVE_INFINITY;
  for (const p of points) {
    const beyond = (dy * (p[0] - a[0]) - dx * (p[1] - a[1])) / length;
    if (beyond < least) least = beyond;
  }
  return least;
}

function largestGap(of: Polygon, from: Polygon): number {
  let largest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < of.length; i++) {
    const gap = leastBeyond(corner(of, i), corner(of, i + 1), from);
    if (gap > largest) largest = gap;
  }
  return largest;
}

/** Distance of a point from a stretch. */
export function distanceToStretch(p: Vec2, a: Vec2, b: Vec2): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const share = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy);
  const t = Math.max(0, Math.min(1, share));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}

function cornerDistance(a: Polygon, b: Polygon): number {
  let least = Number.POSITIVE_INFINITY;
  for (const p of a) {
    for (let j = 0; j < b.length; j++) {
      least = Math.min(least, distanceToStretch(p, corner(b, j), corner(b, j + 1)));
    }
  }
  return least;
}

/**
 * Signed separation of two counter-clockwise convex polygons, mm. When it is at least `enough` any lower bound that is at
 * least `enough` may be answered: it spares the exact distance where it cannot matter.
 */
export function separation(a: Polygon, b: Polygon, enough = Number.POSITIVE_INFINITY): number {
  const gap = Math.max(largestGap(a, b), largestGap(b, a));
  if (gap <= 0 || gap >= enough) return gap;
  return Math.min(cornerDistance(a, b), cornerDistance(b, a));
}

/** How far points lie inside a counter-clockwise convex polygon: the least over points and sides; negative outside. */
export function depthInside(hull: Polygon, points: Polygon): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < hull.length; i++) {
    const [a, b] = [corner(hull, i), corner(hull, i + 1)];
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const length = Math.hypot(dx, dy);
    for (const p of points) {
      const inside = (dx * (p[1] - a[1]) - dy * (p[0] - a[0])) / length;
      if (inside < least) least = inside;
    }
  }
  return least;
}
