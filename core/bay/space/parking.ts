/**
 * The best place to park: the one with the most spare room at its tightest part. Found by halving boxes of places (along,
 * across, heading) and dropping those that cannot hold a better one: a move of the car by d, or a turn that moves a part by
 * d, changes that part's clearance by at most d, so the clearance at a box's middle bounds it everywhere in the box. The answer is
 * therefore proven: no place within the limits is better by more than the stated step. No chance is used.
 */
import { err, ok, type Result } from '../../result.ts';
import { fitAt, type ParkingPlace, placed, type SpaceFit } from './fit.ts';
import {
  type Bay,
  heightsMeet,
  type PreparedBay,
  type PreparedPart,
  prepareBay,
  prepareParts,
  type SpaceError,
  type SpacePart,
} from './room.ts';
import { depthInside, separation } from './separation.ts';

/** A range, low to high. */
export type Range = readonly [number, number];

/** Where the car may be put. Headings: one range for driving in, another for reversing in. mm, rad. */
export interface ParkingLimits {
  readonly xMm: Range;
  readonly yMm: Range;
  readonly headingsRad: readonly Range[];
}

/** Space that is none, nothing to place, or limits without a place in them. */
export type ParkingError =
  | SpaceError
  | { readonly code: 'bay/nothingToPlace' }
  | { readonly code: 'bay/badLimits' };

/** The best place, and what is proven about all others. */
export interface BestParking {
  readonly place: ParkingPlace;
  /** How the work fits there; its `spareMm` negative: it fits nowhere within the limits. */
  readonly fit: SpaceFit;
  /** No place within the limits has more spare room than this, mm. */
  readonly mostSpareMm: number;
  /** False when it fits nowhere: then at least `-mostSpareMm` lacks (when that is negative), and `-fit.spareMm` would do. */
  readonly fitsSomewhere: boolean;
  /** The car may be turned off the best heading by this, in place, and still fit, rad; 0 when it does not fit. */
  readonly headingRoomRad: number;
  readonly placesTried: number;
}

/** Two places nearer in spare room than this are alike, mm. */
export const PARKING_STEP_MM = 10;

/** Places tried at most; the answer stays right, only `mostSpareMm` is then larger than it need be. */
const MOST_PLACES = 200_000;

/** A box of places: its middle, half its size, and a bound of the spare room in it. */
interface Box {
  readonly middle: ParkingPlace;
  readonly halfX: number;
  readonly halfY: number;
  readonly halfTurn: number;
  readonly bound: number;
}

/** Spare room at a place, and the most it can be anywhere in a box around it. */
function spareAt(
  bay: PreparedBay,
  parts: readonly PreparedPart[],
  place: ParkingPlace,
  shift: number,
  turn: number,
): { readonly spare: number; readonly bound: number } {
  let spare = Number.POSITIVE_INFINITY;
  let bound = Number.POSITIVE_INFINITY;
  for (const { part, corners, pieces, reachMm } of parts) {
    const move = shift + 2 * reachMm * Math.sin(Math.min(turn, Math.PI) / 2);
    // Beyond this the part can neither be the tightest nor lower the bound.
    const matters = Math.max(spare, bound - move) + part.marginMm;
    let clearance = depthInside(bay.hull, placed(corners, place));
    for (const piece of pieces) {
      const here = placed(piece, place);
      for (const obstacle of bay.pieces) {
        if (!heightsMeet(part, obstacle)) continue;
        clearance = Math.min(clearance, separation(here, obstacle.polygon, Math.min(clearance, matters)));
      }
    }
    spare = Math.min(spare, clearance - part.marginMm);
    bound = Math.min(bound, clearance - part.marginMm + move);
  }
  return { spare, bound };
}

/** A box cut in two across what moves the car's parts most. */
function halves(box: Box, reach: number): readonly Omit<Box, 'bound'>[] {
  const { middle, halfX, halfY, halfTurn } = box;
  const turnMove = halfTurn * reach;
  if (turnMove >= halfX && turnMove >= halfY) {
    return [-1, 1].map((side) => ({
      ...box,
      halfTurn: halfTurn / 2,
      middle: { ...middle, headingRad: middle.headingRad + (side * halfTurn) / 2 },
    }));
  }
  if (halfX >= halfY) {
    return [-1, 1].map((side) => ({
      ...box,
      halfX: halfX / 2,
      middle: { ...middle, xMm: middle.xMm + (side * halfX) / 2 },
    }));
  }
  return [-1, 1].map((side) => ({
    ...box,
    halfY: halfY / 2,
    middle: { ...middle, yMm: middle.yMm + (side * halfY) / 2 },
  }));
}

/** The best place within the limits. The same input gives the same answer, always. */
export function bestParking(
  bay: Bay,
  parts: readonly SpacePart[],
  limits: ParkingLimits,
  stepMm: number = PARKING_STEP_MM,
): Result<BestParking, ParkingError> {
  if (parts.length === 0) return err({ code: 'bay/nothingToPlace' });
  const ranges = [limits.xMm, limits.yMm, ...limits.headingsRad];
  const sound = ranges.every(([low, high]) => Number.isFinite(high - low) && low <= high);
  if (!sound || limits.headingsRad.length === 0 || !(stepMm > 0)) return err({ code: 'bay/badLimits' });
  const room = prepareBay(bay);
  if (!room.ok) return room;
  const prepared = prepareParts(parts);
  if (!prepared.ok) return prepared;
  const found = search(room.value, prepared.value, limits, stepMm);
  const fit = fitAt(room.value, prepared.value, found.place);
  const reach = Math.max(...prepared.value.map((part) => part.reachMm));
  return ok({
    place: found.place,
    fit,
    mostSpareMm: found.mostSpareMm,
    fitsSomewhere: fit.fits,
    headingRoomRad: fit.fits ? 2 * Math.asin(Math.min(1, Math.max(0, fit.spareMm) / (2 * reach))) : 0,
    placesTried: found.tried,
  });
}

function search(
  bay: PreparedBay,
  parts: readonly PreparedPart[],
  limits: ParkingLimits,
  stepMm: number,
): { readonly place: ParkingPlace; readonly mostSpareMm: number; readonly tried: number } {
  const reach = Math.max(...parts.map((part) => part.reachMm));
  const middle = ([low, high]: Range): number => (low + high) / 2;
  const half = ([low, high]: Range): number => (high - low) / 2;
  let place: ParkingPlace | undefined;
  let best = Number.NEGATIVE_INFINITY;
  let tried = 0;
  const look = (box: Omit<Box, 'bound'>): Box => {
    tried++;
    const { spare, bound } = spareAt(bay, parts, box.middle, Math.hypot(box.halfX, box.halfY), box.halfTurn);
    if (spare > best) [best, place] = [spare, box.middle];
    return { ...box, bound };
  };
  let boxes = limits.headingsRad.map((heading) =>
    look({
      middle: { xMm: middle(limits.xMm), yMm: middle(limits.yMm), headingRad: middle(heading) },
      halfX: half(limits.xMm),
      halfY: half(limits.yMm),
      halfTurn: half(heading),
    }),
  );
  let open = boxes;
  while (open.length > 0 && tried < MOST_PLACES) {
    boxes = open.flatMap((box) => halves(box, reach).map(look));
    open = boxes.filter((box) => box.bound > best + stepMm);
  }
  const left = open.reduce((most, box) => Math.max(most, box.bound), best + stepMm);
  return {
    place: place ?? { xMm: middle(limits.xMm), yMm: middle(limits.yMm), headingRad: 0 },
    mostSpareMm: left,
    tried,
  };
}
