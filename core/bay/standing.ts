/**
 * Where car and fixture stand on a surveyed floor: the heights under four wheels and under the fixture's foot, with their
 * joint covariance. Wheels beside grid lines share readings; counting them apart would say too much or too little.
 */
import { entry, type Matrix } from '../linalg/matrix.ts';
import { ok, type Result } from '../result.ts';
import { type FloorQueryError, floorHeights, type NamedPlace } from './floorSurface.ts';
import type { SurveyedFloor } from './floorSurvey.ts';
import type { KnownHeight } from './weightedPlane.ts';
import { type AtWheels, atWheels, WHEEL_NAMES } from './wheels.ts';

/** A place in plan, bay frame, mm. */
export interface FloorSpot {
  readonly xMm: number;
  readonly yMm: number;
}

/** Heights under the wheels and the foot; each with its own u, and all together. */
export interface Standing {
  readonly contacts: AtWheels<KnownHeight>;
  readonly foot: KnownHeight;
  /** Of front left, front right, rear left, rear right, foot, in that order, mm^2; the tilt apart. */
  readonly covariance: Matrix;
  readonly uTilt: number;
}

/** Reads a surveyed floor where car and fixture stand. A place outside it is named: a wheel (`FL`) or `fixture`. */
export function standingOn(
  floor: Pick<SurveyedFloor, 'survey'>,
  wheels: AtWheels<FloorSpot>,
  foot: FloorSpot,
): Result<Standing, FloorQueryError> {
  const places: readonly NamedPlace[] = [
    ...WHEEL_NAMES.map((name) => ({ name, ...wheels[name] })),
    { name: 'fixture', ...foot },
  ];
  const found = floorHeights(floor, places);
  if (!found.ok) return found;
  const { heightsMm, covariance, uTilt } = found.value;
  const known = (index: number, { xMm, yMm }: FloorSpot): KnownHeight => ({
    xMm,
    yMm,
    zMm: heightsMm[index] ?? Number.NaN,
    uMm: Math.sqrt(entry(covariance, index, index)),
  });
  return ok({
    contacts: atWheels((wheel, i) => known(i, wheels[wheel])),
    foot: known(4, foot),
    covariance,
    uTilt,
  });
}
