/** The floor of a job that takes its heights from the survey: map with the parked car, profile along it, heights with U. */
import { type ReactNode, useCallback, useMemo } from 'react';
import { floorHeights } from '../../../core/bay/floorSurface.ts';
import { wheelList } from '../../../core/bay/wheels.ts';
import { floorMapScene, placeKey } from '../../../core/drawing/floorMap.ts';
import { floorProfileScene, type ProfilePlace } from '../../../core/drawing/floorProfile.ts';
import { scenePoint } from '../../../core/drawing/pieces.ts';
import type { ScenePoint, Sheet } from '../../../core/drawing/scene.ts';
import { type FloorSupplyError, floorSupply, type SuppliedHeight } from '../../../core/job/floorSupply.ts';
import type { Job, JobSensor } from '../../../core/job/job.ts';
import { carOutline, carSizeOf, inBay, parkedOf, wheelPlaces } from '../../../core/job/parking.ts';
import { floorSurveyOf } from '../../../core/job/room.ts';
import { placementInput } from '../../../core/job/solve.ts';
import type { Result } from '../../../core/result.ts';
import { formatFixed } from '../../../core/units.ts';
import { say } from '../../../core/words/index.ts';
import { sayKey } from '../../text/sayKey.ts';
import { Facts } from './Facts.tsx';
import { SceneSheet } from './SceneSheet.tsx';
import { TroubleNotice } from './TroubleNotice.tsx';

/** The heights the survey gives a sensor of a job at the stand of now, or why it gives none. */
export function suppliedFor(
  job: Job,
  sensor: JobSensor,
): Result<readonly SuppliedHeight[], FloorSupplyError> | undefined {
  if (sensor.equipment === null) return undefined;
  const input = placementInput(job, sensor);
  return floorSupply(job, {
    station: input.ok ? input.value.stations[0] : undefined,
    equipment: sensor.equipment,
    singleStand: sensor.procedure?.target.body === 'singleStand',
  });
}

const NAMES: Readonly<Record<string, string>> = {
  'floor.FL': 'bay.wheel.FL',
  'floor.FR': 'bay.wheel.FR',
  'floor.RL': 'bay.wheel.RL',
  'floor.RR': 'bay.wheel.RR',
  'floor.fixtureLeft': 'bay.floor.fixtureLeft',
  'floor.fixtureRight': 'bay.floor.fixtureRight',
  'floor.stand': 'bay.floor.stand',
};

export function SuppliedHeights({
  job,
  sensor,
}: {
  readonly job: Job;
  readonly sensor: JobSensor;
}): ReactNode {
  const supplied = suppliedFor(job, sensor);
  if (supplied === undefined) return null;
  if (!supplied.ok) return <TroubleNotice error={supplied.error} />;
  const lowest = Math.max(...supplied.value.map((each) => each.staffMm));
  const facts = supplied.value.map(({ id, staffMm, uMm }) => ({
    label: sayKey(NAMES[id] ?? id),
    value: say('bay.floor.height', {
      height: formatFixed(lowest - staffMm, 1),
      uncertainty: formatFixed(2 * uMm, 1),
    }),
  }));
  return (
    <section className="sheet" data-testid="supplied-heights">
      <h2 className="overline">{say('bay.floor.heights')}</h2>
      <Facts facts={facts} />
      <p className="quiet">{say('bay.floor.heightsHint')}</p>
    </section>
  );
}

/** Every so far along the car's line the floor's height is drawn, mm. */
const PROFILE_STEP_MM = 100;
/** How far before and behind the rear axle the profile looks for surveyed floor, mm. */
const PROFILE_REACH_MM = 15_000;

/** The floor along the car's line, as far as it was surveyed. */
export function profileOf(job: Job): readonly ProfilePlace[] {
  const survey = job.floor?.room?.survey ?? undefined;
  const parked = parkedOf(job);
  if (survey === undefined || parked === undefined) return [];
  const floor = { survey: floorSurveyOf(survey) };
  const places: ProfilePlace[] = [];
  for (let aheadMm = -PROFILE_REACH_MM; aheadMm <= PROFILE_REACH_MM; aheadMm += PROFILE_STEP_MM) {
    const height = floorHeights(floor, [{ name: '', ...inBay(parked, [aheadMm, 0]) }]);
    const [heightMm] = height.ok ? height.value.heightsMm : [];
    if (heightMm !== undefined) places.push({ aheadMm, heightMm });
  }
  return places;
}

function carInBay(job: Job): { outline: ScenePoint[]; wheels: ScenePoint[] } | undefined {
  const [size, parked] = [carSizeOf(job), parkedOf(job)];
  if (size === undefined || parked === undefined) return undefined;
  const point = (at: readonly [number, number]): ScenePoint => {
    const { xMm, yMm } = inBay(parked, at);
    return scenePoint(xMm, yMm);
  };
  return { outline: carOutline(size).map(point), wheels: wheelList(wheelPlaces(size)).map(point) };
}

export function SurveyedFloorView({
  job,
  sensor,
}: {
  readonly job: Job;
  readonly sensor: JobSensor;
}): ReactNode {
  const survey = job.floor?.room?.survey ?? null;
  const floor = useMemo(() => profileOf(job), [job]);
  const map = useCallback(
    (sheet: Sheet) => {
      const car = carInBay(job);
      return floorMapScene({
        sheet,
        textPt: 14,
        decimalSign: '.',
        grid: survey === null ? { xsMm: [0, 1], ysMm: [0, 1], heightsMm: [] } : floorSurveyOf(survey),
        givenUp: new Set((survey?.places ?? []).filter((each) => each.staffMm === null).map(placeKey)),
        touchable: false,
        ...(car === undefined ? {} : { car }),
      });
    },
    [survey, job],
  );
  const wheelbase = carSizeOf(job)?.wheelbaseMm;
  const input = placementInput(job, sensor);
  const station = input.ok ? input.value.stations[0] : undefined;
  const size = carSizeOf(job);
  const fixtureMm =
    station === undefined || size === undefined
      ? undefined
      : station.ahead.value +
        (station.ahead.from === 'rearAxle' ? 0 : size.wheelbaseMm) +
        (station.ahead.from === 'bodyFace' ? size.frontOverhangMm : 0);
  const profile = useCallback(
    (sheet: Sheet) =>
      floorProfileScene({
        sheet,
        textPt: 14,
        decimalSign: '.',
        floor,
        marks: [
          { aheadMm: 0, text: say('bay.profile.rearAxle') },
          ...(wheelbase === undefined ? [] : [{ aheadMm: wheelbase, text: say('bay.profile.frontAxle') }]),
          ...(fixtureMm === undefined ? [] : [{ aheadMm: fixtureMm, text: say('bay.profile.fixture') }]),
        ],
      }),
    [floor, wheelbase, fixtureMm],
  );
  return (
    <>
      <SceneSheet testId="floor-map" make={map} />
      {floor.length < 2 ? null : <SceneSheet testId="floor-profile" className="bay-profile" make={profile} />}
    </>
  );
}
