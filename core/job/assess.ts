/**
 * What a job still lacks, what stops it, and which certificate it may have: read from the stage tables, the
 * procedures' conditions and the solved placements. The window's list, the service's refusal to sign and the
 * certificate's title all come from here.
 */

import { aimSizeAt50 } from '../placement/consequence.ts';
import type { AimError, VerdictName } from '../placement/finding.ts';
import type { PlacementAnswer } from '../placement/placementAnswer.ts';
import { fixturePartOf } from '../placement/recipe.ts';
import type { ProcedureCondition } from '../procedure/schema.ts';
import { say } from '../words/index.ts';
import { movedTooEarly } from './adhesiveClock.ts';
import { type BayTroubleCode, bayTroubles } from './bayTroubles.ts';
import { atPiece, usedPieces } from './dueDates.ts';
import type { CertificateKind, FieldValue } from './events.ts';
import { atItem, atSensor, atStation, type FieldPlace, fieldKey, wholeJob } from './fieldKey.ts';
import { type Job, type JobSensor, standingReport } from './job.ts';
import { matReadingKey } from './matReadings.ts';
import { type Field, type Stage, type StageId, stages } from './stages/index.ts';

/** One thing a job lacks or trips over. `label` is a word key, or plain text where `plain`. */
export interface Finding {
  readonly stage: StageId;
  /** Field key, reading slot or a name of its own: what the window jumps to. */
  readonly key: string;
  readonly label: string;
  readonly plain: boolean;
  readonly sensor: string | null;
}

/** The state of one stage: nothing entered, under way, complete, or complete but stopping the work. */
export type StageState = 'empty' | 'underWay' | 'done' | 'stops';

export interface Assessment {
  /** Without these no certificate says *calibrated*. */
  readonly missing: readonly Finding[];
  /** Without these not even *not calibrated* can be issued. */
  readonly missingToStop: readonly Finding[];
  /** Facts that forbid *calibrated*. */
  readonly stops: readonly Finding[];
  readonly stageStates: Readonly<Record<StageId, StageState>>;
  /** The placement verdict over all sensors calibrated here; undefined while a station is not proven either way. */
  readonly placement: VerdictName | undefined;
  /** Where the targets as found could turn a sensor's aim the most; absent while no sensor with a known place is solved. */
  readonly largestAim?: StationAim;
  /** The best certificate the job can have now; undefined while something is missing. */
  readonly kind: CertificateKind | undefined;
}

/** The aim error that one station's deviations could leave. */
export interface StationAim {
  readonly sensor: string;
  readonly station: string;
  readonly aim: AimError;
}

/** The solved placement of each sensor by its id; a sensor without an answer is absent. */
export type Answers = Readonly<Record<string, PlacementAnswer | undefined>>;

const WORST_FIRST: readonly VerdictName[] = [
  'outside',
  'beyond',
  'cannotBeJudged',
  'within',
  'proven',
  'notJudged',
];

/** The worse of two verdicts. */
export function worseVerdict(a: VerdictName, b: VerdictName): VerdictName {
  return WORST_FIRST.indexOf(a) <= WORST_FIRST.indexOf(b) ? a : b;
}

/** A place at which a field must stand: of which sensor, and whose words name it when the procedure does. */
export interface Place {
  readonly at: FieldPlace;
  readonly sensor: JobSensor | null;
  readonly condition: ProcedureCondition | null;
  /** The procedure's own words for it; null where the field's label says it. */
  readonly words: string | null;
}

function placesOfSensor(field: Field, sensor: JobSensor): readonly Place[] {
  const procedure = sensor.procedure;
  const place = (
    at: FieldPlace,
    words: string | null = null,
    condition: ProcedureCondition | null = null,
  ) => ({
    at,
    sensor,
    condition,
    words,
  });
  switch (field.per) {
    case 'sensor':
      return [place(atSensor(sensor.sensor))];
    case 'station':
      return (procedure?.stations ?? []).map((each) => place(atStation(sensor.sensor, each.id), each.name));
    case 'condition':
      return (procedure?.conditions ?? []).map((each) =>
        place(atItem(sensor.sensor, each.id), each.text, each),
      );
    case 'input':
      return (procedure?.inputs ?? []).map((each) => place(atItem(sensor.sensor, each.name), each.label));
    case 'job':
    case 'overdue':
      return [];
  }
}

/** One place for every piece of equipment that is past its check. */
function overduePlaces(job: Job): readonly Place[] {
  return usedPieces(job)
    .filter((piece) => piece.overdue)
    .map((piece) => ({
      at: atPiece(piece.id),
      sensor: null,
      condition: null,
      words: say('bay.due.reasonFor', { piece: piece.name }),
    }));
}

/** Every place at which a field of a stage must stand in this job. */
export function placesOf(job: Job, stage: Stage, field: Field): readonly Place[] {
  const sensors = sensorsOf(job, stage);
  if (stage.appliesTo.length > 0 && sensors.length === 0) return [];
  if (!isAskedFor(field, sensors)) return [];
  if (field.per === 'job') return [{ at: wholeJob, sensor: null, condition: null, words: null }];
  if (field.per === 'overdue') return overduePlaces(job);
  return sensors.flatMap((sensor) => placesOfSensor(field, sensor));
}

/** Whether one of these sensors asks for a row that only some kinds ask for. */
function isAskedFor({ need }: Field, sensors: readonly JobSensor[]): boolean {
  if (typeof need === 'string' || !('whenSensor' in need)) return true;
  return sensors.some((sensor) => need.whenSensor.includes(sensor.kind));
}

/** The sensors a stage works on: all with a fitting disposition; every sensor where the stage names none. */
export function sensorsOf(job: Job, stage: Stage): readonly JobSensor[] {
  if (stage.appliesTo.length === 0) return job.sensors;
  return job.sensors.filter(
    (sensor) => sensor.disposition !== null && stage.appliesTo.includes(sensor.disposition),
  );
}

/** A recorded value as the texts that `stops` and `whenField` compare with: yes and no for a confirmation. */
export function valueTexts(value: FieldValue | undefined): readonly string[] {
  if (value === undefined) return [];
  if (typeof value === 'boolean') return [value ? 'yes' : 'no'];
  if (typeof value === 'number') return [String(value)];
  if (typeof value === 'string') return [value];
  if ('commitment' in value) return ['recorded'];
  return value;
}

/** True when a recorded value says something: not an empty text, not an empty choice. */
export function isFilled(value: FieldValue | undefined): boolean {
  return valueTexts(value).some((text) => text.trim() !== '');
}

function isNeeded(job: Job, field: Field): boolean {
  if (field.need === 'always') return true;
  if (field.need === 'optional') return false;
  // Where no sensor asks for it there is no place for it either.
  if ('whenSensor' in field.need) return true;
  const { whenField, is } = field.need;
  return valueTexts(job.fields[whenField]?.value).some((text) => is.includes(text));
}

/** Whether the attached report of this sensor's scan tool says what the field asks for. */
function reportSays(job: Job, field: Field, sensor: JobSensor | null): boolean {
  return field.orReport === true && sensor !== null && standingReport(job, sensor.sensor) !== undefined;
}

/** Whether a recorded answer to a procedure's condition forbids the work. */
export function conditionFails(condition: ProcedureCondition, value: FieldValue): boolean {
  if (!condition.blocking) return false;
  switch (condition.kind) {
    case 'confirm':
      return value !== true;
    case 'value':
      return typeof value !== 'number' || value < condition.least || value > condition.most;
    case 'choice':
      return !condition.choices.some((choice) => choice.value === value && choice.fits);
  }
}

/** Whether what is recorded in a field at a place forbids the work. */
export function forbids(job: Job, field: Field, { at, condition }: Pick<Place, 'at' | 'condition'>): boolean {
  const value = job.fields[fieldKey(field.id, at)]?.value;
  if (value === undefined) return false;
  if (condition !== null) return conditionFails(condition, value);
  return valueTexts(value).some((text) => field.stops?.includes(text) ?? false);
}

interface Lists {
  readonly missing: Finding[];
  readonly missingToStop: Finding[];
  readonly stops: Finding[];
}

function assessField(job: Job, stage: Stage, field: Field, lists: Lists): void {
  for (const { at, sensor, condition, words } of placesOf(job, stage, field)) {
    const key = fieldKey(field.id, at);
    const value = job.fields[key]?.value;
    const finding: Finding = {
      stage: stage.id,
      key,
      label: words === null || field.per === 'station' ? field.label : words,
      plain: words !== null && field.per !== 'station',
      sensor: sensor?.sensor ?? null,
    };
    if (value === undefined || !isFilled(value)) {
      if (!isNeeded(job, field) || reportSays(job, field, sensor)) continue;
      lists.missing.push(finding);
      if (field.neededToStop === true) lists.missingToStop.push(finding);
      continue;
    }
    if (forbids(job, field, { at, condition })) lists.stops.push(finding);
  }
}

function own(stage: StageId, key: string, label: string, sensor: string | null): Finding {
  return { stage, key, label, plain: false, sensor };
}

function assessSensors(job: Job, lists: Lists): void {
  if (job.sensors.length === 0) {
    const none = own('intake', 'intake.sensors', 'missing.sensors', null);
    lists.missing.push(none);
    lists.missingToStop.push(none);
  }
  for (const sensor of job.sensors) {
    const at = sensor.sensor;
    if (sensor.disposition === null) {
      const finding = own('intake', `intake.disposition@${at}`, 'missing.disposition', at);
      lists.missing.push(finding);
      lists.missingToStop.push(finding);
    }
    if (sensor.disposition === 'refused') {
      lists.stops.push(own('intake', `intake.disposition@${at}`, 'stop.refused', at));
    }
    if (sensor.disposition !== 'staticHere') continue;
    if (sensor.procedure === null) {
      lists.missing.push(own('intake', `intake.procedure@${at}`, 'missing.procedure', at));
    } else if (sensor.procedure.source.reviewWay === 'unreviewed') {
      lists.stops.push(own('intake', `intake.procedure@${at}`, 'stop.unreviewed', at));
    }
    if (sensor.equipment === null) {
      lists.missing.push(own('intake', `intake.equipment@${at}`, 'missing.equipment', at));
    }
  }
}

function assessPlacement(job: Job, answers: Answers, lists: Lists): VerdictName | undefined {
  let worst: VerdictName | undefined;
  for (const sensor of job.sensors) {
    if (sensor.disposition !== 'staticHere' || sensor.procedure === null) continue;
    const at = sensor.sensor;
    const answer = answers[at];
    for (const slot of answer?.missing ?? []) {
      const stage: StageId =
        slot.station !== undefined || slot.purpose === 'control' ? 'stations' : stageOfReading(slot.id);
      lists.missing.push(
        own(
          stage,
          `reading:${slot.id}@${slot.station ?? ''}`,
          matReadingKey(slot.id) ?? `reading.${slot.id}`,
          at,
        ),
      );
    }
    if (answer?.stage !== 'fixture') {
      lists.missing.push(own('placement', `placement@${at}`, 'missing.placement', at));
      continue;
    }
    if (answer.globalTest !== undefined && !answer.globalTest.passed) {
      lists.stops.push(own('placement', `placement@${at}`, 'stop.readingsDisagree', at));
    }
    for (const control of answer.controls) {
      if (!control.agrees) lists.stops.push(own('stations', `control@${at}`, 'stop.controlFailed', at));
    }
    for (const station of answer.stations) worst = worseVerdict(station.worst, worst ?? station.worst);
    assessCaptures(job, sensor, lists);
  }
  return worst;
}

/** The largest aim error over the stations read so far; expected ones say nothing yet. */
function largestAim(answers: Answers): StationAim | undefined {
  const aims = Object.entries(answers).flatMap(([sensor, answer]) =>
    (answer?.stations ?? []).flatMap(({ station, basis, aim }) =>
      aim === undefined || basis === 'expected' ? [] : [{ sensor, station, aim }],
    ),
  );
  return aims.reduce<StationAim | undefined>(
    (most, each) => (most === undefined || aimSizeAt50(each.aim) > aimSizeAt50(most.aim) ? each : most),
    undefined,
  );
}

function stageOfReading(id: string): StageId {
  if (id.startsWith('floor.')) return 'bay';
  return fixturePartOf(id) === undefined ? 'datum' : 'placement';
}

function assessCaptures(job: Job, sensor: JobSensor, lists: Lists): void {
  for (const station of sensor.procedure?.stations ?? []) {
    const attempts = job.captures.filter(
      (each) => each.sensor === sensor.sensor && each.station === station.id,
    );
    const last = attempts[attempts.length - 1];
    if (last?.result === 'passed') continue;
    const key = `capture@${sensor.sensor}/${station.id}`;
    if (last === undefined) lists.missing.push(own('stations', key, 'missing.capture', sensor.sensor));
    else lists.stops.push(own('stations', key, 'stop.captureFailed', sensor.sensor));
  }
}

function assessVerdict(job: Job, worst: VerdictName | undefined, lists: Lists): void {
  if (worst === 'within' && !isFilled(job.fields['signoff.withinReason']?.value)) {
    lists.missing.push(own('signoff', 'signoff.withinReason', 'missing.withinReason', null));
  }
  if (!isFilled(job.fields['signoff.stopReason']?.value)) {
    lists.missingToStop.push(own('signoff', 'signoff.stopReason', 'missing.stopReason', null));
  }
  if (worst === 'outside' || worst === 'beyond') {
    lists.stops.push(own('placement', 'placement.verdict', `stop.placement.${worst}`, null));
  }
}

function bestKind(job: Job, lists: Lists, worst: VerdictName | undefined): CertificateKind | undefined {
  if (lists.stops.length > 0) return lists.missingToStop.length > 0 ? undefined : 'notCalibrated';
  if (lists.missing.length > 0) return undefined;
  if (worst === 'cannotBeJudged') return 'routineCompletedPlacementNotShown';
  return job.sensors.some((sensor) => worksHere(sensor)) ? 'calibrated' : 'notCalibrated';
}

function worksHere(sensor: JobSensor): boolean {
  return (
    sensor.disposition === 'staticHere' ||
    sensor.disposition === 'dynamicRoad' ||
    sensor.disposition === 'initialiseOnly'
  );
}

function stageState(job: Job, stage: Stage, lists: Lists): StageState {
  if (lists.stops.some((each) => each.stage === stage.id)) return 'stops';
  if (!lists.missing.some((each) => each.stage === stage.id)) return 'done';
  const touched =
    Object.values(job.fields).some((each) => each.field.startsWith(`${stage.id}.`)) ||
    (stage.readings && job.readings.some((each) => readingStage(each.quantity, each.station) === stage.id));
  return touched ? 'underWay' : 'empty';
}

function readingStage(quantity: string, station: string | null): StageId {
  return station === null ? stageOfReading(quantity) : 'stations';
}

/** Where the window goes for a trouble of the bay. */
const BAY_TROUBLE_AT: Readonly<Record<BayTroubleCode, string>> = {
  'bay.support': 'bay.support',
  'bay.survey': 'bay.floor',
  'bay.spotDay': 'bay.floor',
  'bay.light': 'bay.light1',
};

/**
 * Assesses a job against the stage tables and its solved placements.
 *
 * @example a job without sensors: `missing` holds `intake.sensors`, `kind` is undefined.
 */
export function assess(job: Job, answers: Answers): Assessment {
  const lists: Lists = { missing: [], missingToStop: [], stops: [] };
  assessSensors(job, lists);
  for (const stage of stages) for (const field of stage.fields) assessField(job, stage, field, lists);
  for (const { code, sensor } of bayTroubles(job)) {
    lists.stops.push(own('bay', BAY_TROUBLE_AT[code], `stop.${code}`, sensor));
  }
  for (const { field } of movedTooEarly(job)) {
    lists.stops.push(own('prechecks', field, 'stop.movedTooEarly', null));
  }
  const worst = assessPlacement(job, answers, lists);
  assessVerdict(job, worst, lists);
  const aim = largestAim(answers);
  const states = Object.fromEntries(stages.map((stage) => [stage.id, stageState(job, stage, lists)]));
  return {
    ...lists,
    stageStates: states as Record<StageId, StageState>,
    placement: worst,
    ...(aim === undefined ? {} : { largestAim: aim }),
    kind: bestKind(job, lists, worst),
  };
}

/** Whether a certificate of `kind` may be issued now, and what speaks against it if not. */
export function objections(assessment: Assessment, kind: CertificateKind): readonly Finding[] {
  if (kind === 'notCalibrated') return assessment.missingToStop;
  if (assessment.kind === kind) return [];
  return [...assessment.stops, ...assessment.missing];
}
