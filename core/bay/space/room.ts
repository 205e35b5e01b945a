/**
 * The bay as room to work in, and everything the work needs around a car. Both are polygons with a height range: a lift's
 * arm on the floor is in the way of a mat and not of a beam; a beam overhead is in the way of a mast and not of a wheel.
 */
import type { Vec2 } from '../../geometry/vector.ts';
import { err, ok, type Result } from '../../result.ts';
import { convexPieces, hullAndPockets } from './convexPieces.ts';
import { convexHull, counterClockwise, type Polygon, type PolygonFault, polygonFault } from './polygon.ts';

/** A thing that stands in the bay; bay frame, mm. Heights over the floor. */
export interface Obstacle {
  readonly name: string;
  readonly outline: Polygon;
  readonly fromMm: number;
  readonly toMm: number;
}

/** The bay: its walls from inside, and what stands in it. */
export interface Bay {
  readonly outline: Polygon;
  readonly obstacles: readonly Obstacle[];
}

/** What a part of the space is for. */
export type SpaceKind = 'car' | 'footprint' | 'clearZone' | 'rolling';

/** A part of the space the work needs; vehicle frame in plan (ahead, left), mm, heights over the floor. */
export interface SpacePart {
  readonly name: string;
  readonly kind: SpaceKind;
  readonly outline: Polygon;
  readonly fromMm: number;
  readonly toMm: number;
  /** Clearance it needs beside itself, mm: 0 for a zone that is itself the clearance. */
  readonly marginMm: number;
}

/** An outline or a height range that is none, with the name of its thing. */
export type SpaceError =
  | { readonly code: 'bay/badOutline'; readonly name: string; readonly fault: PolygonFault }
  | { readonly code: 'bay/badHeightRange'; readonly name: string };

/** Name under which the walls appear in findings. */
export const WALLS = 'walls';

/** Convex pieces of something with a height range. */
export interface Piece {
  readonly name: string;
  readonly polygon: Polygon;
  readonly fromMm: number;
  readonly toMm: number;
}

/** The bay made ready: a convex hull to stay inside of, and convex pieces to stay clear of. */
export interface PreparedBay {
  readonly hull: Polygon;
  readonly pieces: readonly Piece[];
}

/** A part made ready. `reachMm`: its farthest corner from the car's origin. */
export interface PreparedPart {
  readonly part: SpacePart;
  readonly corners: Polygon;
  readonly pieces: readonly Polygon[];
  readonly reachMm: number;
}

const everHigh = { fromMm: Number.NEGATIVE_INFINITY, toMm: Number.POSITIVE_INFINITY };

function fault({ name, outline, fromMm, toMm }: Obstacle): SpaceError | undefined {
  const found = polygonFault(outline);
  if (found !== undefined) return { code: 'bay/badOutline', name, fault: found };
  return fromMm < toMm ? undefined : { code: 'bay/badHeightRange', name };
}

/** Checks a bay and cuts it into convex pieces. */
export function prepareBay(bay: Bay): Result<PreparedBay, SpaceError> {
  const walls: Obstacle = { name: WALLS, outline: bay.outline, ...everHigh };
  const wrong = [walls, ...bay.obstacles].map(fault).find((found) => found !== undefined);
  if (wrong !== undefined) return err(wrong);
  const { hull, pockets } = hullAndPockets(bay.outline);
  const pieces = [
    ...pockets.map((polygon): Piece => ({ name: WALLS, polygon, ...everHigh })),
    ...bay.obstacles.flatMap(({ name, outline, fromMm, toMm }) =>
      convexPieces(outline).map((polygon): Piece => ({ name, polygon, fromMm, toMm })),
    ),
  ];
  return ok({ hull, pieces });
}

/** Checks the parts and cuts them into convex pieces. */
export function prepareParts(parts: readonly SpacePart[]): Result<readonly PreparedPart[], SpaceError> {
  const wrong = parts.map(fault).find((found) => found !== undefined);
  if (wrong !== undefined) return err(wrong);
  return ok(
    parts.map((part) => ({
      part,
      corners: counterClockwise(part.outline),
      pieces: convexPieces(part.outline),
      reachMm: Math.max(...part.outline.map(([x, y]) => Math.hypot(x, y))),
    })),
  );
}

/** Two height ranges overlap by more than a touch. */
export function heightsMeet(
  a: { readonly fromMm: number; readonly toMm: number },
  b: { readonly fromMm: number; readonly toMm: number },
): boolean {
  return a.fromMm < b.toMm && b.fromMm < a.toMm;
}

/**
 * The strip a car sweeps when it rolls straight: its outline carried ahead and behind, as one convex outline. A turn of
 * the wheel is the tyre's circumference: 1985 mm for 205/55R16.
 */
export function rollingStrip(outline: Polygon, aheadMm: number, behindMm: number): Polygon {
  const carried = (by: number): readonly Vec2[] => outline.map(([x, y]) => [x + by, y]);
  return convexHull([...outline, ...carried(aheadMm), ...carried(-behindMm)]);
}
