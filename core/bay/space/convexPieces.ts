/**
 * Cutting polygons into convex pieces: between convex pieces distance and overlap are exact and cheap, and a polygon
 * collides when one of its pieces does. Convex polygons stay whole; others are cut into triangles ear by ear
 * (Meisters 1975). A room that is not convex is its hull less the pockets between hull and walls.
 */
import type { Vec2 } from '../../geometry/vector.ts';
import { convexHull, corner, counterClockwise, isConvex, type Polygon, turnOf } from './polygon.ts';

/** Convex pieces, counter-clockwise, that together are the polygon. The polygon must be simple. */
export function convexPieces(polygon: Polygon): readonly Polygon[] {
  const rest = [...counterClockwise(polygon)];
  if (isConvex(rest)) return [rest];
  const pieces: Polygon[] = [];
  while (rest.length > 3) {
    const ear = rest.findIndex((_, i) => isEar(rest, i));
    // Rounding may hide the last ears of a sliver: the corner nearest to straight is then worth nothing.
    const at = Math.max(ear, 0);
    const triangle = [corner(rest, at - 1), corner(rest, at), corner(rest, at + 1)] as const;
    if (turnOf(...triangle) > 0) pieces.push(triangle);
    rest.splice(at, 1);
  }
  if (turnOf(corner(rest, 0), corner(rest, 1), corner(rest, 2)) > 0) pieces.push(rest);
  return pieces;
}

/** A corner whose triangle with its neighbours holds no other corner; a straight corner is an empty ear. */
function isEar(polygon: Polygon, i: number): boolean {
  const [a, b, c] = [corner(polygon, i - 1), corner(polygon, i), corner(polygon, i + 1)];
  const turn = turnOf(a, b, c);
  if (turn < 0) return false;
  return !polygon.some((p) => !same(p, a) && !same(p, b) && !same(p, c) && inTriangle(a, b, c, p));
}

const same = (p: Vec2, q: Vec2): boolean => p[0] === q[0] && p[1] === q[1];

const inTriangle = (a: Vec2, b: Vec2, c: Vec2, p: Vec2): boolean =>
  turnOf(a, b, p) >= 0 && turnOf(b, c, p) >= 0 && turnOf(c, a, p) >= 0;

/** A room as its hull and the pieces of the hull that are not room. */
export interface HullAndPockets {
  readonly hull: Polygon;
  readonly pockets: readonly Polygon[];
}

/** Hull of a simple polygon and the convex pieces of its pockets: inside the hull and clear of them is inside. */
export function hullAndPockets(polygon: Polygon): HullAndPockets {
  const room = counterClockwise(polygon);
  const hull = convexHull(room);
  const pockets: Polygon[] = [];
  hull.forEach((from, i) => {
    const to = corner(hull, i + 1);
    const start = room.findIndex((p) => same(p, from));
    const end = room.findIndex((p) => same(p, to));
    const count = (end - start + room.length) % room.length;
    const walls = Array.from({ length: count + 1 }, (_, k) => corner(room, start + k));
    // A straight stretch of wall with a corner in it encloses nothing.
    if (walls.some((p) => turnOf(from, to, p) > 0)) pockets.push(...convexPieces(walls));
  });
  return { hull, pockets };
}
