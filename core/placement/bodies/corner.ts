/**
 * A board at a corner of the car, turned toward the sensor there. Makers give its place as an angle and a distance from the
 * sensor or from the rear hub; it is measured by four tapes, from the mark of that wheel and from the point beyond it to
 * the board's two dropped edges. Lengths mm, angles radians, vehicle frame.
 */
import type { Vec2 } from '../../geometry/vector.ts';
import { err, ok, type Result } from '../../result.ts';
import { endSign, facingYawRad } from '../facing.ts';
import { type BarStarts, roughAheadMm } from '../fixtureStart.ts';
import type { PlacementError } from '../placementError.ts';
import type { PlacementInput } from '../placementInput.ts';
import type { CarSide } from '../placementReading.ts';
import type { SlotValues } from '../readings.ts';
import { nearPoints } from '../recipeSpec.ts';
import { type CarStarts, type MeasuredCircle, MISCLOSURE_LIMIT_MM, nearer, readingAt } from '../starts.ts';
import { CORNER_DISTANCES, cornerPlace } from './readings.ts';

/**
 * Where a target stands that the maker puts `distanceMm` from a point at `angleRad` from straight ahead, positive to the
 * car's left: 2000 mm at 135 degrees from (0, 800) is (-1414.2, 2214.2).
 */
export function placeFrom(
  from: { readonly aheadMm: number; readonly leftMm: number },
  distanceMm: number,
  angleRad: number,
): { readonly aheadMm: number; readonly leftMm: number } {
  return {
    aheadMm: from.aheadMm + distanceMm * Math.cos(angleRad),
    leftMm: from.leftMm + distanceMm * Math.sin(angleRad),
  };
}

/** Roughly where an edge must be, in the frame of `carStarts`: the car's-left marks along x, the rear one at zero. */
function expectedEdge(input: PlacementInput, values: SlotValues, car: CarStarts, side: CarSide): Vec2 {
  const [station] = input.stations;
  if (station === undefined) return [0, 0];
  const near = nearPoints(input.stations);
  const [pointsAtMm] = car.plan[`${near}.L`] ?? [0, 0];
  const [, rightMm] = car.plan['mark.RR'] ?? [0, 0];
  const yawRad = facingYawRad(input.stations);
  const half = (endSign(yawRad, side) * input.equipment.fixture.barLength.mm) / 2;
  return [
    roughAheadMm(station, values, pointsAtMm) - Math.sin(yawRad) * half,
    station.left.value + rightMm / 2 + Math.cos(yawRad) * half,
  ];
}

/** Rough places of the two edge marks: of the two places where the tapes meet, the one the station means. */
export function cornerStarts(
  input: PlacementInput,
  values: SlotValues,
  car: CarStarts,
): Result<BarStarts, PlacementError> {
  const place = cornerPlace(input.stations[0], nearPoints(input.stations));
  const inner: CarSide = place.side === 'carLeft' ? 'carRight' : 'carLeft';
  const open = CORNER_DISTANCES.filter((id) => !values.has(id));
  const circle = (point: string, readingId: string): MeasuredCircle => ({
    centre: car.plan[point] ?? [0, 0],
    radiusMm: readingAt(values, readingId) ?? 0,
    readingId,
  });
  const hub = `mark.${place.wheel}`;
  const meeting = (a: MeasuredCircle, b: MeasuredCircle, side: CarSide) =>
    nearer(a, b, expectedEdge(input, values, car, side));
  const lengthMm = input.equipment.fixture.barLength.mm;
  const edge = (side: CarSide): Result<Vec2, PlacementError> | undefined => {
    const end = side === place.side ? 'Out' : 'In';
    const [fromHub, fromPoint] = [`corner.hub${end}`, `corner.point${end}`];
    if (open.some((id) => id === fromHub || id === fromPoint)) return undefined;
    return meeting(circle(hub, fromHub), circle(place.point, fromPoint), side);
  };
  const [outer, middle] = [edge(place.side), edge(inner)];
  if (outer?.ok === false) return outer;
  if (middle?.ok === false) return middle;
  /** The other edge from one that is known: the board's width and the one tape that is left. */
  const other = (known: Vec2, side: CarSide): Result<Vec2, PlacementError> => {
    const end = side === place.side ? 'Out' : 'In';
    const id = [`corner.hub${end}`, `corner.point${end}`].find((each) => values.has(each));
    if (id === undefined)
      return err({ code: 'placement/undetermined', quantity: 'fixture', readingIds: open });
    const board = { centre: known, radiusMm: lengthMm, readingId: id };
    return meeting(board, circle(id.startsWith('corner.hub') ? hub : place.point, id), side);
  };
  const known = outer ?? middle;
  if (known === undefined) {
    return err({ code: 'placement/undetermined', quantity: 'fixture', readingIds: open });
  }
  const out = outer ?? other(known.value, place.side);
  const inn = middle ?? other(known.value, inner);
  if (!out.ok) return out;
  if (!inn.ok) return inn;
  const gapMm = Math.hypot(out.value[0] - inn.value[0], out.value[1] - inn.value[1]) - lengthMm;
  if (Math.abs(gapMm) > MISCLOSURE_LIMIT_MM) {
    return err({ code: 'placement/impossible', readingIds: [...CORNER_DISTANCES] });
  }
  return ok({
    carLeft: place.side === 'carLeft' ? out.value : inn.value,
    carRight: place.side === 'carLeft' ? inn.value : out.value,
    beyond: true,
    sideIsClear: false,
  });
}
