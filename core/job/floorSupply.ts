/**
 * Floor heights out of the bay's survey in place of the staff's readings: what they are at the wheels and under the fixture,
 * with their u, or why the survey does not serve.
 *
 * The survey's level was off by a tilt of u `uTilt` that all its heights share. The solver takes each height by itself, so
 * the tilt enters as 2 uTilt times the distance from the middle of the wheels: with wheels L apart along and T across, the
 * car's slopes then have at least u = uTilt sqrt(1 + (T/L)^2) and uTilt sqrt(1 + (L/T)^2), never less than the tilt itself.
 */
import {
  type FloorHeights,
  type FloorQueryError,
  floorHeights,
  type NamedPlace,
} from '../bay/floorSurface.ts';
import { type SurveyError, surveyedFloor } from '../bay/floorSurvey.ts';
import { type SurveyStandingError, surveyStanding } from '../bay/surveyValidity.ts';
import { WHEEL_NAMES } from '../bay/wheels.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { entry } from '../linalg/matrix.ts';
import type { PlacementReading } from '../placement/placementReading.ts';
import type { StationRequirement } from '../placement/requirement.ts';
import { err, ok, type Result } from '../result.ts';
import type { Equipment } from './equipment.ts';
import type { Job } from './job.ts';
import { localDay } from './localTime.ts';
import { carSizeOf, inBay, parkedOf, wheelPlaces } from './parking.ts';
import { floorSurveyOf, nextPlace, surveyTerm } from './room.ts';
import { standPlace } from './standPlaces.ts';

/** Why a survey gives no heights. */
export type FloorSupplyError =
  | SurveyStandingError
  | SurveyError
  | FloorQueryError
  | { readonly code: 'bay/noSurvey' }
  | { readonly code: 'bay/surveyUnderWay' }
  | { readonly code: 'bay/surveyNotForSupport' }
  | { readonly code: 'bay/parkedUnknown' };

/** A height of the floor from the survey: the staff reading it stands for, with its u, mm. */
export interface SuppliedHeight {
  readonly id: string;
  readonly place: NamedPlace;
  readonly staffMm: number;
  readonly uMm: number;
}

/** u of where a place is in the bay, from how the car was parked to the bay's marks, mm (common practice, no source). */
const PARKED_U_MM = 20;

interface Wanted {
  readonly id: string;
  readonly name: string;
  readonly at: Vec2;
}

/** Ids of the floor's readings under the fixture, by what carries the target. */
function underFixture(
  station: StationRequirement | undefined,
  job: Pick<Job, 'fields'>,
  equipment: Equipment,
  stands: boolean,
): readonly Wanted[] {
  const size = carSizeOf(job);
  if (station === undefined || size === undefined) return [];
  const place = standPlace(station, size, equipment);
  if (stands) return [{ id: 'floor.stand', name: 'fixture', at: place.face }];
  return [
    { id: 'floor.fixtureLeft', name: 'fixture', at: place.carLeftEnd },
    { id: 'floor.fixtureRight', name: 'fixture', at: place.carRightEnd },
  ];
}

/** What the survey is asked for: four wheels and the fixture's place at one station; a single stand has one foot. */
export interface SupplyFor {
  readonly station: StationRequirement | undefined;
  readonly equipment: Equipment;
  readonly singleStand: boolean;
}

/** Whether the heights are to come from the survey. */
export const takesSurvey = (job: Pick<Job, 'floor'>): boolean => job.floor?.way === 'survey';

/** Heights from the survey chosen for a job, at the wheels and under the fixture at one station. */
export function floorSupply(
  job: Pick<Job, 'floor' | 'fields'>,
  { station, equipment, singleStand }: SupplyFor,
): Result<readonly SuppliedHeight[], FloorSupplyError> {
  const survey = job.floor?.room?.survey ?? undefined;
  if (job.floor === undefined || job.floor.room === null || survey === undefined) {
    return err({ code: 'bay/noSurvey' });
  }
  if (nextPlace(survey) !== undefined) return err({ code: 'bay/surveyUnderWay' });
  const { utcMs, offsetMin } = job.floor.stamp;
  const standing = surveyStanding(surveyTerm(survey, job.floor.room), localDay(utcMs, offsetMin));
  if (!standing.ok) return standing;
  const support = job.fields['bay.support']?.value;
  if (support !== undefined && support !== 'floor') return err({ code: 'bay/surveyNotForSupport' });
  const [size, parked] = [carSizeOf(job), parkedOf(job)];
  if (size === undefined || parked === undefined) return err({ code: 'bay/parkedUnknown' });
  const floor = surveyedFloor(floorSurveyOf(survey));
  if (!floor.ok) return floor;
  const wheels = wheelPlaces(size);
  const wanted: readonly Wanted[] = [
    ...WHEEL_NAMES.map((wheel) => ({ id: `floor.${wheel}`, name: wheel, at: wheels[wheel] })),
    ...underFixture(station, job, equipment, singleStand),
  ];
  const places = wanted.map(({ name, at }): NamedPlace => ({ name, ...inBay(parked, at) }));
  const heights = floorHeights(floor.value, places);
  if (!heights.ok) return heights;
  const middle = inBay(parked, [size.wheelbaseMm / 2, 0]);
  const slope = Math.hypot(floor.value.plane.slopeX, floor.value.plane.slopeY);
  return ok(
    wanted.map(({ id }, index) => {
      const place = places[index] ?? { name: id, ...middle };
      return {
        id,
        place,
        staffMm: -(heights.value.heightsMm[index] ?? 0),
        uMm: heightU(heights.value, index, Math.hypot(place.xMm - middle.xMm, place.yMm - middle.yMm), slope),
      };
    }),
  );
}

/** u of one height, mm: its own, the level's tilt, and the slope times where the place is. */
function heightU(heights: FloorHeights, index: number, fromMiddleMm: number, slope: number): number {
  return Math.hypot(
    Math.sqrt(Math.max(0, entry(heights.covariance, index, index))),
    2 * heights.uTilt * fromMiddleMm,
    slope * PARKED_U_MM,
  );
}

/** The supplied heights as readings of the present set-ups. */
export function suppliedReadings(
  supplied: readonly SuppliedHeight[],
  setUps: { readonly car: number; readonly fixture: number },
): readonly PlacementReading[] {
  return supplied.map(({ id, staffMm, uMm }) => ({
    ref: `survey:${id}`,
    id,
    purpose: 'proof',
    value: staffMm,
    uMm,
    carSetUp: setUps.car,
    fixtureSetUp: setUps.fixture,
  }));
}
