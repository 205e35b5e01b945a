/**
 * What of the bay forbids a verdict in a job: a support the procedure does not permit, a survey that does not stand, heights of
 * a spot survey from different days, light the procedure does not accept. Said with its words by `troubleOf`.
 */

import { FIVE_POINTS } from '../bay/lightVerdict.ts';
import type { SupportError, SupportKind } from '../bay/support.ts';
import { SUPPORT_KINDS, supportCaution } from '../bay/support.ts';
import { WHEEL_NAMES } from '../bay/wheels.ts';
import { resolveProcedure } from '../procedure/resolve.ts';
import type { BayNeeds } from '../procedure/schema.ts';
import { workDay } from './dueDates.ts';
import { type FloorSupplyError, floorSupply, takesSurvey } from './floorSupply.ts';
import type { Job, JobSensor } from './job.ts';
import { lightJudged, luxOf } from './lightAtFive.ts';
import { localDay } from './localTime.ts';

/** A height of a spot survey that is of another day than the work. */
export interface SpotDayError {
  readonly code: 'bay/spotOtherDay';
  readonly place: string;
  readonly readOn: string;
  readonly day: string;
}

/** One trouble: its name in findings, the sensor it stops, and the refusal to put in words where there is one. */
export type BayTrouble =
  | { readonly code: 'bay.support'; readonly sensor: string; readonly why: SupportError }
  | { readonly code: 'bay.survey'; readonly sensor: string | null; readonly why: FloorSupplyError }
  | { readonly code: 'bay.spotDay'; readonly sensor: null; readonly why: SpotDayError }
  | { readonly code: 'bay.light'; readonly sensor: string; readonly why: undefined };

/** The names of troubles. */
export type BayTroubleCode = BayTrouble['code'];

/** What the car stands on, as far as it was said. */
export function supportOf(job: Pick<Job, 'fields'>): SupportKind | undefined {
  const value = job.fields['bay.support']?.value;
  return SUPPORT_KINDS.find((kind) => kind === value);
}

/** The refusal of a support that a procedure does not name among those it permits; it permits all where it is silent. */
export function supportRefusal(
  support: SupportKind | undefined,
  needs: BayNeeds | undefined,
): SupportError | undefined {
  const permitted = needs?.supports;
  if (support === undefined || permitted === undefined || permitted.includes(support)) return undefined;
  return {
    code: 'bay/supportForbidden',
    caution: supportCaution(support),
    support,
    wheels: WHEEL_NAMES,
    permitted,
  };
}

/** The first height of a spot survey that was not read on the day of the work. */
export function spotDayFault(job: Job): SpotDayError | undefined {
  if (job.floor?.way !== 'spot') return undefined;
  const day = workDay(job);
  const other = job.readings.find(
    ({ quantity, struck, stamp }) =>
      quantity.startsWith('floor.') && struck === null && localDay(stamp.utcMs, stamp.offsetMin) !== day,
  );
  if (other === undefined) return undefined;
  const readOn = localDay(other.stamp.utcMs, other.stamp.offsetMin);
  return { code: 'bay/spotOtherDay', place: other.quantity.replace('floor.', ''), readOn, day };
}

/** Why the survey chosen gives this sensor no heights; undefined where it does, or where it was not chosen. */
export function surveyFault(job: Job, sensor: JobSensor): FloorSupplyError | undefined {
  if (!takesSurvey(job) || sensor.procedure === null || sensor.equipment === null) return undefined;
  // Inputs that are not measured yet leave the stations open; the wheels are asked for all the same.
  const resolved = resolveProcedure(sensor.procedure, new Map());
  const supplied = floorSupply(job, {
    station: resolved.ok ? resolved.value.stations[0] : undefined,
    equipment: sensor.equipment,
    singleStand: sensor.procedure.target.body === 'singleStand',
  });
  return supplied.ok ? undefined : supplied.error;
}

function lightTrouble(job: Job, sensor: JobSensor): boolean {
  const needs = sensor.procedure?.bay;
  if (needs?.light === undefined || luxOf(job).length < FIVE_POINTS) return false;
  const found = lightJudged(job, needs);
  if (!found.ok) return false;
  const { mean, lowest, uniformity } = found.value;
  return [mean, lowest, uniformity].some(({ decision }) => decision?.verdict === 'outside');
}

function troublesOf(job: Job, sensor: JobSensor): readonly BayTrouble[] {
  const troubles: BayTrouble[] = [];
  const support = supportRefusal(supportOf(job), sensor.procedure?.bay);
  if (support !== undefined) troubles.push({ code: 'bay.support', sensor: sensor.sensor, why: support });
  const survey = surveyFault(job, sensor);
  if (survey !== undefined) troubles.push({ code: 'bay.survey', sensor: sensor.sensor, why: survey });
  if (lightTrouble(job, sensor)) troubles.push({ code: 'bay.light', sensor: sensor.sensor, why: undefined });
  return troubles;
}

/** Every trouble of a job's bay, sensor by sensor, for the sensors that are calibrated here. */
export function bayTroubles(job: Job): readonly BayTrouble[] {
  const spot = spotDayFault(job);
  return [
    ...(spot === undefined ? [] : [{ code: 'bay.spotDay' as const, sensor: null, why: spot }]),
    ...job.sensors
      .filter((sensor) => sensor.disposition === 'staticHere')
      .flatMap((sensor) => troublesOf(job, sensor)),
  ];
}
