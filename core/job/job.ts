/** The state of one job: what `reduce` makes of its events. Plain data, the same in window, service and tests. */
import type { SetUps } from '../placement/placementReading.ts';
import type { Procedure } from '../procedure/schema.ts';
import type { Equipment } from './equipment.ts';
import type { Disposition, FieldValue, Payload, SensorKind } from './events.ts';

/** When and by whom an event was recorded; printed in timelines. */
export interface Stamp {
  readonly seq: number;
  readonly utcMs: number;
  readonly offsetMin: number;
  readonly person: string;
}

/** A field as it stands: the latest value, the text as typed, and how often it was put right before. */
export interface RecordedField {
  readonly field: string;
  readonly at: Payload<'fieldRecorded'>['at'];
  readonly value: FieldValue;
  readonly text: string;
  readonly stamp: Stamp;
  readonly corrections: number;
}

/** A reading as recorded; `struck` once withdrawn. It never leaves the list. */
export interface RecordedReading extends Payload<'readingRecorded'> {
  readonly stamp: Stamp;
  readonly struck: {
    readonly reason: Payload<'readingStruck'>['reason'];
    readonly words: string;
    readonly stamp: Stamp;
  } | null;
}

export interface JobSensor {
  readonly sensor: string;
  readonly kind: SensorKind;
  readonly name: string;
  readonly disposition: Disposition | null;
  readonly dispositionSource: string;
  readonly procedure: Procedure | null;
  readonly equipment: Equipment | null;
}

export interface BodyMove extends Payload<'bodyMoved'> {
  readonly stamp: Stamp;
}

export interface Capture extends Payload<'captureAttempted'> {
  readonly stamp: Stamp;
}

export interface JobPhoto extends Payload<'photoAdded'> {
  readonly stamp: Stamp;
  readonly struck: {
    readonly reason: Payload<'photoStruck'>['reason'];
    readonly stamp: Stamp;
  } | null;
}

export interface JobReport extends Payload<'reportAttached'> {
  readonly stamp: Stamp;
  readonly struck: Stamp | null;
}

export interface JobCertificate extends Payload<'certificateSealed'> {
  readonly sealed: Stamp;
  /** Null between sealing and issuing. */
  readonly fileDigest: string | null;
}

/** Where the floor's heights come from, and the bay as it was known when that was chosen. */
export interface JobFloor extends Payload<'floorChosen'> {
  readonly stamp: Stamp;
}

/** The fixture's part of set-ups. */
export type RecordedSetUps = Pick<SetUps, 'fixture' | 'fixtureSince'>;

/** The set-ups of one stand of the fixture: the last one there, and the first. */
export interface StandSetUps extends RecordedSetUps {
  readonly from: number;
}

/**
 * Set-ups of a job. A fixture that was put up for several stations has a set-up number for each stand it has left, by
 * `standKey`; the stand it started at, before any was named, has the key ''.
 */
export interface JobSetUps extends SetUps {
  /** Key of the stand the fixture is at; absent while none was named. */
  readonly standNow?: string;
  /** First set-up of the stand the fixture is at; absent: 1. */
  readonly from?: number;
  readonly leftStands?: Readonly<Record<string, StandSetUps>>;
}

/** Names a stand of the fixture: the sensor and the station it was put up for. */
export function standKey(stand: { readonly sensor: string; readonly station: string }): string {
  return `${stand.sensor}/${stand.station}`;
}

export interface Job {
  readonly id: string;
  readonly reference: string;
  readonly demo: boolean;
  /** Done in the simulated bay: no car was there, nothing was calibrated. */
  readonly rehearsal: boolean;
  readonly bay: string;
  readonly decisionRule: Payload<'jobOpened'>['decisionRule'];
  readonly follows: string | null;
  readonly opened: Stamp;
  /** Sequence and time of the last event. */
  readonly last: Stamp;
  /** Latest value by field key (see `fieldKey`). */
  readonly fields: Readonly<Record<string, RecordedField>>;
  readonly sensors: readonly JobSensor[];
  readonly readings: readonly RecordedReading[];
  /** Current set-up numbers: readings of an earlier one are kept but leave the solution. */
  readonly setUps: JobSetUps;
  /** Absent, also in records made before it could be told: read here with the staff. */
  readonly floor?: JobFloor;
  readonly moves: readonly BodyMove[];
  readonly captures: readonly Capture[];
  /** Every photo ever added, struck ones too; see `standingPhotos`. */
  readonly photos: readonly JobPhoto[];
  readonly reports: readonly JobReport[];
  readonly certificates: readonly JobCertificate[];
  readonly erasedPersonalIds: readonly string[];
}

/** Photos that count: neither struck nor erased with the words about them. */
export function standingPhotos(job: Pick<Job, 'photos' | 'erasedPersonalIds'>): readonly JobPhoto[] {
  return job.photos.filter(
    (each) => each.struck === null && !job.erasedPersonalIds.includes(each.shows.personalId),
  );
}

/** The report that stands for a sensor: the last one attached and not struck. */
export function standingReport(job: Pick<Job, 'reports'>, sensor: string): JobReport | undefined {
  return job.reports.findLast((each) => each.sensor === sensor && each.struck === null);
}
