/** Does the work fit with the car parked here: every part of the space against the walls and everything that stands in the bay. */
import type { Vec2 } from '../../geometry/vector.ts';
import { ok, type Result } from '../../result.ts';
import type { Polygon } from './polygon.ts';
import {
  type Bay,
  heightsMeet,
  type PreparedBay,
  type PreparedPart,
  prepareBay,
  prepareParts,
  type SpaceError,
  type SpacePart,
  WALLS,
} from './room.ts';
import { depthInside, separation } from './separation.ts';

/** Where the car's origin is in the bay and where the car points; mm, rad from the bay's x axis toward y. */
export interface ParkingPlace {
  readonly xMm: number;
  readonly yMm: number;
  readonly headingRad: number;
}

/** A part against one thing of the bay. */
export interface SpaceFinding {
  readonly part: string;
  readonly against: string;
  /** Positive: the gap. Negative: the shortest move that would part the two. mm. */
  readonly clearanceMm: number;
  /** Gap beyond the margin the part needs; negative: what lacks. mm. */
  readonly spareMm: number;
}

/** The answer for one place. */
export interface SpaceFit {
  readonly fits: boolean;
  /** Least spare of all parts: how far the car may stand off this place in any direction. mm. */
  readonly spareMm: number;
  /** All pairs, tightest first. */
  readonly findings: readonly SpaceFinding[];
  /** Fixture places that stand in the car itself: no parking place cures them. */
  readonly inTheCar: readonly SpaceFinding[];
}

/** A polygon of the vehicle frame where the car is parked. */
export function placed(polygon: Polygon, place: ParkingPlace): Polygon {
  const [c, s] = [Math.cos(place.headingRad), Math.sin(place.headingRad)];
  return polygon.map(([x, y]): Vec2 => [place.xMm + c * x - s * y, place.yMm + s * x + c * y]);
}

/** Every part against everything at one place. */
export function fitAt(bay: PreparedBay, parts: readonly PreparedPart[], place: ParkingPlace): SpaceFit {
  const findings = parts
    .flatMap((part) => findingsOf(bay, part, place))
    .sort((a, b) => a.spareMm - b.spareMm);
  const inTheCar = clashes(parts);
  const spareMm = findings[0]?.spareMm ?? Number.POSITIVE_INFINITY;
  return { fits: spareMm >= 0 && inTheCar.length === 0, spareMm, findings, inTheCar };
}

function findingsOf(
  bay: PreparedBay,
  { part, corners, pieces }: PreparedPart,
  place: ParkingPlace,
): SpaceFinding[] {
  const least = new Map<string, number>([[WALLS, depthInside(bay.hull, placed(corners, place))]]);
  for (const piece of pieces.map((p) => placed(p, place))) {
    for (const obstacle of bay.pieces) {
      if (!heightsMeet(part, obstacle)) continue;
      const known = least.get(obstacle.name) ?? Number.POSITIVE_INFINITY;
      least.set(obstacle.name, Math.min(known, separation(piece, obstacle.polygon)));
    }
  }
  return [...least].map(([against, clearanceMm]) => ({
    part: part.name,
    against,
    clearanceMm,
    spareMm: clearanceMm - part.marginMm,
  }));
}

/** Fixture places that overlap the car's own outline. */
function clashes(parts: readonly PreparedPart[]): readonly SpaceFinding[] {
  const cars = parts.filter(({ part }) => part.kind === 'car');
  return parts
    .filter(({ part }) => part.kind === 'footprint')
    .flatMap((foot) =>
      cars.flatMap((car): SpaceFinding[] => {
        if (!heightsMeet(foot.part, car.part)) return [];
        const gaps = foot.pieces.flatMap((a) => car.pieces.map((b) => separation(a, b)));
        const clearanceMm = Math.min(...gaps);
        if (clearanceMm >= 0) return [];
        return [{ part: foot.part.name, against: car.part.name, clearanceMm, spareMm: clearanceMm }];
      }),
    );
}

/** Checks bay and parts, and answers for the car as it is parked. */
export function spaceFit(
  bay: Bay,
  parts: readonly SpacePart[],
  place: ParkingPlace,
): Result<SpaceFit, SpaceError> {
  const room = prepareBay(bay);
  if (!room.ok) return room;
  const prepared = prepareParts(parts);
  return prepared.ok ? ok(fitAt(room.value, prepared.value, place)) : prepared;
}
