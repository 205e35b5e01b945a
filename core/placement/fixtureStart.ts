/**
 * Where the fixture roughly stands: its two floor marks where circles about the extended points meet, on the side of
 * those points where the station wants it. Three of the four bar distances are enough, the bar's length does the rest.
 */
import type { Vec2 } from '../geometry/vector.ts';
import { err, ok, type Result } from '../result.ts';
import { endSign, facingYawRad } from './facing.ts';
import type { PlacementError } from './placementError.ts';
import type { PlacementInput } from './placementInput.ts';
import type { SlotValues } from './readings.ts';
import { nearPoints } from './recipeSpec.ts';
import type { StationRequirement } from './requirement.ts';
import {
  type CarStarts,
  type MeasuredCircle,
  MISCLOSURE_LIMIT_MM,
  meet,
  nearer,
  readingAt,
} from './starts.ts';

/** Rough plan places of the two bar marks, and whether they lie beyond the extended points as seen from the car. */
export interface BarStarts {
  readonly carLeft: Vec2;
  readonly carRight: Vec2;
  readonly beyond: boolean;
  /** False when the station wants the bar so near the line of the points that its side cannot be declared. */
  readonly sideIsClear: boolean;
}

/** A bar nearer than this to the line of the extended points is not declared to be on one side of it, mm. */
const SIDE_CLEARANCE_MM = 100;

/** How far ahead of the rear marks a station wants its target, roughly, mm. */
export function roughAheadMm(station: StationRequirement, values: SlotValues, pointsAtMm: number): number {
  switch (station.ahead.from) {
    case 'rearAxle':
      return station.ahead.value;
    case 'frontAxle':
      return station.ahead.value + (readingAt(values, 'base.L') ?? 0);
    case 'bodyFace':
      return station.ahead.value + pointsAtMm - (readingAt(values, 'face') ?? 0);
  }
}

/** Slot keys of the four bar distances. */
export const BAR_DISTANCES = ['bar.sameL', 'bar.diagLR', 'bar.sameR', 'bar.diagRL'] as const;

function openFixture(readingIds: readonly string[]): Result<never, PlacementError> {
  return err({ code: 'placement/undetermined', quantity: 'fixture', readingIds });
}

/** Rough places of the bar marks in the frame of `carStarts`. */
export function barStarts(
  input: PlacementInput,
  values: SlotValues,
  car: CarStarts,
): Result<BarStarts, PlacementError> {
  const near = nearPoints(input.stations);
  const left = car.plan[`${near}.L`] ?? [0, 0];
  const right = car.plan[`${near}.R`] ?? [0, 0];
  const station = input.stations[0];
  const outward = near === 'ahead' ? 1 : -1;
  const clearance =
    station === undefined
      ? Number.POSITIVE_INFINITY
      : outward * (roughAheadMm(station, values, left[0]) - left[0]);
  const beyond = clearance >= 0;
  const circle = (centre: Vec2, readingId: string): MeasuredCircle | undefined => {
    const radiusMm = readingAt(values, readingId);
    return radiusMm === undefined ? undefined : { centre, radiusMm, readingId };
  };
  const [sameL, diagRL] = [circle(left, 'bar.sameL'), circle(right, 'bar.diagRL')];
  const [sameR, diagLR] = [circle(right, 'bar.sameR'), circle(left, 'bar.diagLR')];
  // From the car's-left point to the car's-right one, what lies ahead is on the left hand.
  const side = (near === 'ahead') === beyond ? 'left' : 'right';
  const carLeft = sameL && diagRL ? meet(sameL, diagRL, side) : undefined;
  const carRight = sameR && diagLR ? meet(diagLR, sameR, side) : undefined;
  if (carLeft !== undefined && !carLeft.ok) return carLeft;
  if (carRight !== undefined && !carRight.ok) return carRight;
  const clear = { beyond, sideIsClear: Math.abs(clearance) >= SIDE_CLEARANCE_MM };
  const lengthMm = input.equipment.fixture.barLength.mm;
  if (carLeft && carRight) {
    const [l, r] = [carLeft.value, carRight.value];
    const misclosureMm = Math.hypot(l[0] - r[0], l[1] - r[1]) - lengthMm;
    return Math.abs(misclosureMm) < MISCLOSURE_LIMIT_MM
      ? ok({ carLeft: l, carRight: r, ...clear })
      : err({ code: 'placement/impossible', readingIds: [...BAR_DISTANCES] });
  }
  const yawRad = facingYawRad(input.stations);
  const otherEnd = (known: Vec2, sign: number, measured: MeasuredCircle) => {
    const expected: Vec2 = [
      known[0] - sign * Math.sin(yawRad) * lengthMm,
      known[1] + sign * Math.cos(yawRad) * lengthMm,
    ];
    return nearer({ centre: known, radiusMm: lengthMm, readingId: measured.readingId }, measured, expected);
  };
  const third = carLeft ? (sameR ?? diagLR) : (sameL ?? diagRL);
  const known = carLeft ?? carRight;
  if (known === undefined || third === undefined) {
    return openFixture(BAR_DISTANCES.filter((id) => !values.has(id)));
  }
  const sign = endSign(yawRad, carLeft ? 'carRight' : 'carLeft');
  const other = otherEnd(known.value, sign, third);
  if (!other.ok) return other;
  return carLeft
    ? ok({ carLeft: known.value, carRight: other.value, ...clear })
    : ok({ carLeft: other.value, carRight: known.value, ...clear });
}
