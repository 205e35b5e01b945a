/**
 * A rigid piece of the layout in plan: places, and headings of bodies and lines, that are known relative to each other
 * but not yet to the rest. Pieces grow by readings and are joined where they share enough.
 */
import { moveInPlan, planFit } from '../../geometry/planFit.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import type { DirectionFact } from './facts.ts';

/** Places by number and headings by key, in the piece's own axes; `bay` marks the piece whose axes are the bay's. */
export interface Cluster {
  bay: boolean;
  readonly places: Map<number, Vec2>;
  readonly headings: Map<string, number>;
}

/** An empty piece. */
export function cluster(bay = false): Cluster {
  return { bay, places: new Map(), headings: new Map() };
}

/** Key of a direction among headings. A line and its reverse are the same line: see `headingIn`. */
export function directionKey(direction: DirectionFact): string {
  return 'body' in direction ? `b${direction.body}` : `l${direction.line[0]},${direction.line[1]}`;
}

/** Heading of a direction in a piece, from its two ends, its body or the reverse line; undefined when not known there. */
export function headingIn(piece: Cluster, direction: DirectionFact): number | undefined {
  if ('body' in direction) {
    const yaw = piece.headings.get(directionKey(direction));
    return yaw === undefined ? undefined : yaw + (direction.quarter * Math.PI) / 2;
  }
  const [from, to] = direction.line;
  const [p, q] = [piece.places.get(from), piece.places.get(to)];
  if (p !== undefined && q !== undefined && (p[0] !== q[0] || p[1] !== q[1])) {
    return Math.atan2(q[1] - p[1], q[0] - p[0]);
  }
  const stored = piece.headings.get(directionKey(direction));
  if (stored !== undefined) return stored;
  const reverse = piece.headings.get(directionKey({ line: [to, from] }));
  return reverse === undefined ? undefined : reverse + Math.PI;
}

/** Notes a heading in a piece; true when it was not known there. */
export function setHeading(piece: Cluster, direction: DirectionFact, headingRad: number): boolean {
  if (headingIn(piece, direction) !== undefined) return false;
  const quarter = 'body' in direction ? direction.quarter : 0;
  piece.headings.set(directionKey(direction), headingRad - (quarter * Math.PI) / 2);
  return true;
}

/** Two shared places nearer than this, mm, do not tell how the pieces are turned. */
const TOO_NEAR_MM = 1e-6;

/**
 * Joins `from` into `into` when they share two places, or one place and a heading (`turn` when the readings relate
 * headings of the two). False when they do not share enough.
 */
export function join(into: Cluster, from: Cluster, turn?: number): boolean {
  const shared = [...from.places.keys()].filter((place) => into.places.has(place));
  const here = shared.map((place) => from.places.get(place) ?? ([0, 0] as const));
  const there = shared.map((place) => into.places.get(place) ?? ([0, 0] as const));
  const fit = here.some((p) => distance(p, here[0] ?? p) > TOO_NEAR_MM) ? planFit(here, there) : undefined;
  if (fit?.ok === true) {
    carry(into, from, fit.value);
    return true;
  }
  const known = turn ?? sharedTurn(into, from);
  const [p, q] = [here[0], there[0]];
  if (known === undefined || p === undefined || q === undefined) return false;
  const turned = moveInPlan({ turnRad: known, scale: 1, shift: [0, 0] }, p);
  carry(into, from, { turnRad: known, scale: 1, shift: [q[0] - turned[0], q[1] - turned[1]] });
  return true;
}

function sharedTurn(into: Cluster, from: Cluster): number | undefined {
  for (const [key, heading] of from.headings) {
    const other = into.headings.get(key);
    if (other !== undefined) return other - heading;
  }
  return undefined;
}

function carry(
  into: Cluster,
  from: Cluster,
  motion: { readonly turnRad: number; readonly scale: number; readonly shift: Vec2 },
): void {
  for (const [place, p] of from.places) {
    if (!into.places.has(place)) into.places.set(place, moveInPlan(motion, p));
  }
  for (const [key, heading] of from.headings) {
    if (!into.headings.has(key)) into.headings.set(key, heading + motion.turnRad);
  }
}

/** Distance of two points in plan. */
export function distance(p: Vec2, q: Vec2): number {
  return Math.sqrt((p[0] - q[0]) * (p[0] - q[0]) + (p[1] - q[1]) * (p[1] - q[1]));
}
