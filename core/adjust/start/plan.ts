/**
 * First positions in plan, constructed as one would on paper: rigid pieces (bodies, lines with points set off along
 * them, pairs of points with a distance) grow by drops, line positions and crossing distances, and are joined until
 * one piece holds everything. Uses the readings and the declared sides, nothing else.
 */
import { rotate, rotationMatrix, yawPitchRoll } from '../../geometry/rotation.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import { at } from '../../linalg/at.ts';
import { multiply } from '../../linalg/matrix.ts';
import type { Layout } from '../layout.ts';
import { type Circle, type Clues, fromDrop, lineIn, placeFrom } from './candidates.ts';
import { type Cluster, cluster, headingIn, join, setHeading } from './cluster.ts';
import type { StartFacts } from './facts.ts';

/** A declared side by place numbers. */
export interface SideFact {
  readonly place: number;
  readonly line: readonly [number, number];
  readonly left: boolean;
}

/** The piece that holds everything, or what it lacks and which places have two mirrored answers. */
export interface PlanConstruction {
  readonly main: Cluster;
  readonly missing: readonly number[];
  readonly mirrored: readonly { readonly place: number; readonly by: readonly number[] }[];
}

/** Place number that stands for a body's origin, after all places. */
export function originPlace(layout: Layout, body: number): number {
  return layout.places.length + body;
}

/** Constructs the layout in plan. Heights, tilts and what is known beforehand are already in `values`. */
export function constructPlan(
  layout: Layout,
  facts: StartFacts,
  sides: readonly SideFact[],
  values: Float64Array,
  known: Uint8Array,
): PlanConstruction {
  const heights = placeHeights(layout, values);
  const pieces = firstPieces(layout, facts, values, known);
  const touching = touchingFacts(layout, facts, sides);
  const work: Work = { facts, touching, heights, pieces, mirrored: new Map() };
  const seeds = [...facts.distances];
  for (;;) {
    grow(work);
    const seed = seeds.shift();
    if (seed === undefined) break;
    const { a, b } = seed;
    if (work.pieces.some((piece) => piece.places.has(a) && piece.places.has(b))) continue;
    const piece = cluster();
    piece.places.set(a, [0, 0]);
    piece.places.set(b, [level(seed, heights), 0]);
    work.pieces.push(piece);
  }
  const [main = cluster()] = sorted(work.pieces);
  const missing = layout.places.map((_, i) => i).filter((i) => !main.places.has(i));
  const mirrored = [...work.mirrored].map(([place, by]) => ({ place, by }));
  return { main, missing, mirrored: mirrored.filter(({ place }) => !main.places.has(place)) };
}

interface Work {
  readonly facts: StartFacts;
  readonly touching: readonly Touching[];
  readonly heights: Float64Array;
  readonly mirrored: Map<number, readonly number[]>;
  pieces: Cluster[];
}

/** Largest first; the bay's own piece before all others once it fixes a direction. */
function sorted(pieces: readonly Cluster[]): Cluster[] {
  const size = (piece: Cluster): number => piece.places.size + (piece.bay && piece.places.size > 1 ? 1e6 : 0);
  return [...pieces].sort((a, b) => size(b) - size(a));
}

function grow(work: Work): void {
  for (let changed = true; changed; ) {
    changed = joinPieces(work) || sorted(work.pieces).some((piece) => extend(work, piece));
  }
}

function joinPieces(work: Work): boolean {
  for (const into of sorted(work.pieces)) {
    for (const from of work.pieces) {
      if (from === into || from.bay || !join(into, from, relativeTurn(work.facts, into, from))) continue;
      work.pieces = work.pieces.filter((piece) => piece !== from);
      return true;
    }
  }
  return false;
}

/** Turn of one piece in another by an angle read between a direction of each. */
function relativeTurn(facts: StartFacts, into: Cluster, from: Cluster): number | undefined {
  for (const { first, second, rad } of facts.angles) {
    const [firstInto, secondFrom] = [headingIn(into, first), headingIn(from, second)];
    if (firstInto !== undefined && secondFrom !== undefined) return firstInto + rad - secondFrom;
    const [firstFrom, secondInto] = [headingIn(from, first), headingIn(into, second)];
    if (firstFrom !== undefined && secondInto !== undefined) return secondInto - rad - firstFrom;
  }
  return undefined;
}

function extend(work: Work, piece: Cluster): boolean {
  let changed = false;
  for (const { first, second, rad } of work.facts.angles) {
    const heading = headingIn(piece, first);
    if (heading !== undefined) changed = setHeading(piece, second, heading + rad) || changed;
    const other = headingIn(piece, second);
    if (other !== undefined) changed = setHeading(piece, first, other - rad) || changed;
  }
  for (let place = 0; place < work.touching.length; place++) {
    const clues = piece.places.has(place) ? undefined : cluesFor(work, piece, place);
    const placing = clues === undefined ? undefined : placeFrom(clues);
    if (placing === undefined) continue;
    if ('found' in placing) {
      piece.places.set(place, placing.found);
      changed = true;
    } else if (piece.places.size > 1) {
      work.mirrored.set(place, placing.mirrored);
    }
  }
  return changed;
}

/** Facts that touch each place, and the places that stand at the other end of a line from it. */
interface Touching {
  readonly drops: StartFacts['drops'][number][];
  readonly distances: StartFacts['distances'][number][];
  readonly lines: StartFacts['lines'][number][];
  readonly sides: SideFact[];
  readonly partners: number[];
}

function touchingFacts(layout: Layout, facts: StartFacts, sides: readonly SideFact[]): Touching[] {
  const all: Touching[] = layout.places.map(() => ({
    drops: [],
    distances: [],
    lines: [],
    sides: [],
    partners: [],
  }));
  const partner = ([from, to]: readonly [number, number]): void => {
    if (all[from]?.partners.includes(to) !== false) return;
    all[from]?.partners.push(to);
    all[to]?.partners.push(from);
  };
  for (const drop of facts.drops) for (const end of [drop.point, drop.mark]) all[end]?.drops.push(drop);
  for (const fact of facts.distances) for (const end of [fact.a, fact.b]) all[end]?.distances.push(fact);
  for (const fact of facts.lines) {
    all[fact.place]?.lines.push(fact);
    partner(fact.line);
  }
  for (const { first, second } of facts.angles) {
    for (const direction of [first, second]) if ('line' in direction) partner(direction.line);
  }
  for (const side of sides) all[side.place]?.sides.push(side);
  return all;
}

function cluesFor({ touching, heights }: Work, piece: Cluster, place: number): Clues | undefined {
  const facts = touching[place];
  if (facts === undefined) return undefined;
  const fixed: Vec2[] = [];
  for (const drop of facts.drops) {
    const p = fromDrop(piece, drop, place);
    if (p !== undefined) return { ...NO_CLUES, fixed: [p] };
  }
  const circles: Circle[] = [];
  for (const fact of facts.distances) {
    const other = fact.a === place ? fact.b : fact.a;
    const centre = piece.places.get(other);
    if (centre !== undefined) circles.push({ other, centre, radius: level(fact, heights) });
  }
  const positions = facts.lines.flatMap((fact) => {
    const line = lineIn(piece, fact.line);
    return line === undefined ? [] : [{ line, axis: fact.axis, mm: fact.mm }];
  });
  const rays = facts.partners.flatMap((partner) => {
    const line = lineIn(piece, [partner, place]);
    return line === undefined ? [] : [{ ...line, ray: true }];
  });
  if (circles.length + positions.length + rays.length < 2) return undefined;
  const sides = facts.sides.flatMap(({ line: ends, left }) => {
    const line = ends.every((end) => piece.places.has(end)) ? lineIn(piece, ends) : undefined;
    return line === undefined ? [] : [{ line, left }];
  });
  return { circles, positions, fixed, sides, rays };
}

const NO_CLUES: Clues = { circles: [], positions: [], fixed: [], sides: [], rays: [] };

function placeHeights(layout: Layout, values: Float64Array): Float64Array {
  return Float64Array.from(layout.places, (place) => {
    if (place.body < 0) return at(values, place.slot + 2);
    const slot = layout.bodies[place.body]?.slot ?? 0;
    return at(values, slot + 2) + ownPlan(values, slot, place.slot).rise;
  });
}

/** Horizontal part of a distance between two places whose heights are known. */
function level(fact: StartFacts['distances'][number], heights: Float64Array): number {
  if (fact.level) return fact.mm;
  const rise = at(heights, fact.a) - at(heights, fact.b);
  return Math.sqrt(Math.max(0, fact.mm * fact.mm - rise * rise));
}

/** A body's point in plan with the body's heading taken as zero, and its height above the body's origin. */
function ownPlan(values: Float64Array, pose: number, own: number) {
  const [x, y, z] = [at(values, own), at(values, own + 1), at(values, own + 2)];
  const [pitch, roll] = [at(values, pose + 4), at(values, pose + 5)];
  const side = Math.sin(roll) * y + Math.cos(roll) * z;
  return {
    ahead: Math.cos(pitch) * x + Math.sin(pitch) * side,
    left: Math.cos(roll) * y - Math.sin(roll) * z,
    rise: Math.cos(pitch) * side - Math.sin(pitch) * x,
  };
}

function firstPieces(layout: Layout, facts: StartFacts, values: Float64Array, known: Uint8Array): Cluster[] {
  const bay = cluster(true);
  layout.places.forEach((place, i) => {
    const given = place.body < 0 && known[place.slot] === 1 && known[place.slot + 1] === 1;
    if (given) bay.places.set(i, [at(values, place.slot), at(values, place.slot + 1)]);
  });
  for (const { place, axis, mm } of facts.coordinates) {
    if (axis !== 'x' || layout.places[place]?.body === -1) continue;
    const y = facts.coordinates.find((fact) => fact.place === place && fact.axis === 'y');
    if (y !== undefined) bay.places.set(place, [mm, y.mm]);
  }
  const bodies = layout.bodies.map((body, b) => {
    const piece = cluster();
    piece.headings.set(`b${b}`, 0);
    piece.places.set(originPlace(layout, b), [0, 0]);
    for (const place of body.places) {
      const { ahead, left } = ownPlan(values, body.slot, layout.places[place]?.slot ?? 0);
      piece.places.set(place, [ahead, left]);
    }
    if (known[body.slot] === 1 && known[body.slot + 1] === 1) {
      bay.places.set(originPlace(layout, b), [at(values, body.slot), at(values, body.slot + 1)]);
    }
    if (known[body.slot + 3] === 1) bay.headings.set(`b${b}`, at(values, body.slot + 3));
    return piece;
  });
  return [bay, ...bodies, ...posePieces(layout, facts, values), ...linePieces(facts)];
}

/** Each body with the one it was seen from is a piece of its own: two origins and two headings. */
function posePieces(layout: Layout, facts: StartFacts, values: Float64Array): Cluster[] {
  return facts.poses.map(({ body, reference, shift, rotation }) => {
    const slot = layout.bodies[reference]?.slot ?? 0;
    const tilted = rotationMatrix({
      yawRad: 0,
      pitchRad: at(values, slot + 4),
      rollRad: at(values, slot + 5),
    });
    const [ahead, left] = rotate(tilted, shift);
    const piece = cluster();
    piece.places.set(originPlace(layout, reference), [0, 0]);
    piece.places.set(originPlace(layout, body), [ahead, left]);
    piece.headings.set(`b${reference}`, 0);
    piece.headings.set(`b${body}`, yawPitchRoll(multiply(tilted, rotation)).yawRad);
    return piece;
  });
}

/** Each line with points set off along and across it is a piece of its own, from its first point. */
function linePieces(facts: StartFacts): Cluster[] {
  const byLine = new Map<string, Cluster>();
  for (const { line } of facts.lines) {
    const key = line.join();
    if (byLine.has(key)) continue;
    const piece = cluster();
    piece.places.set(line[0], [0, 0]);
    setHeading(piece, { line }, 0);
    byLine.set(key, piece);
  }
  return [...byLine.values()];
}
