/**
 * State is a fold: one pure reducer for window, service, certificate check and tests. Events are trusted here (their
 * payloads passed the strict schemas when they were appended, their hashes when they were read).
 */
import { fixtureMovedTo } from '../placement/setups.ts';
import { assertNever } from '../result.ts';
import type { EventType, Payload } from './events.ts';
import { fieldKey } from './fieldKey.ts';
import { type Job, type JobSensor, type JobSetUps, type Stamp, type StandSetUps, standKey } from './job.ts';

/** What the reducer needs of an event: its envelope's identity and its payload. */
export type JobEvent = {
  [T in EventType]: {
    readonly job: string;
    readonly seq: number;
    readonly type: T;
    readonly at: { readonly utcMs: number; readonly offsetMin: number };
    readonly person: string;
    readonly payload: Payload<T>;
  };
}[EventType];

type Handler<T extends EventType> = (job: Job, payload: Payload<T>, stamp: Stamp) => Job;

function changeSensor(job: Job, sensor: string, change: Partial<JobSensor>): Job {
  return {
    ...job,
    sensors: job.sensors.map((each) => (each.sensor === sensor ? { ...each, ...change } : each)),
  };
}

const fieldRecorded: Handler<'fieldRecorded'> = (job, payload, stamp) => {
  const key = fieldKey(payload.field, payload.at);
  const before = job.fields[key];
  const corrections = before === undefined ? 0 : before.corrections + 1;
  return { ...job, fields: { ...job.fields, [key]: { ...payload, stamp, corrections } } };
};

const sensorListed: Handler<'sensorListed'> = (job, payload) => {
  if (job.sensors.some((each) => each.sensor === payload.sensor)) return job;
  const sensor: JobSensor = {
    ...payload,
    disposition: null,
    dispositionSource: '',
    procedure: null,
    equipment: null,
  };
  return { ...job, sensors: [...job.sensors, sensor] };
};

const readingStruck: Handler<'readingStruck'> = (job, payload, stamp) => ({
  ...job,
  readings: job.readings.map((each) =>
    each.reading === payload.reading && each.struck === null
      ? { ...each, struck: { reason: payload.reason, words: payload.words, stamp } }
      : each,
  ),
});

const photoStruck: Handler<'photoStruck'> = (job, { photo, reason }, stamp) => ({
  ...job,
  photos: job.photos.map((each) =>
    each.photo === photo && each.struck === null ? { ...each, struck: { reason, stamp } } : each,
  ),
});

const reportStruck: Handler<'reportStruck'> = (job, { report }, stamp) => ({
  ...job,
  reports: job.reports.map((each) =>
    each.report === report && each.struck === null ? { ...each, struck: stamp } : each,
  ),
});

/** The fixture somewhere else, or as it was asked to be moved: which set-ups hold now. */
function fixtureMoved(setUps: JobSetUps, payload: Payload<'bodyMoved'>): JobSetUps {
  const { fixture, fixtureSince, ...rest } = setUps;
  if (payload.stand === undefined) {
    // A bump keeps nothing, whatever its event says.
    const keeps = payload.cause === 'moveDone' ? payload.keeps : undefined;
    return { ...rest, ...fixtureMovedTo(setUps, payload.setUp, keeps) };
  }
  const left: StandSetUps = {
    fixture,
    from: setUps.from ?? 1,
    ...(fixtureSince === undefined ? {} : { fixtureSince }),
  };
  const now = standKey(payload.stand);
  const { [now]: _again, ...others } = { ...setUps.leftStands, [setUps.standNow ?? '']: left };
  return {
    car: setUps.car,
    fixture: payload.setUp,
    standNow: now,
    from: payload.setUp,
    leftStands: others,
  };
}

const bodyMoved: Handler<'bodyMoved'> = (job, payload, stamp) => ({
  ...job,
  setUps: payload.body === 'car' ? { ...job.setUps, car: payload.setUp } : fixtureMoved(job.setUps, payload),
  moves: [...job.moves, { ...payload, stamp }],
});

const certificateSealed: Handler<'certificateSealed'> = (job, payload, stamp) => ({
  ...job,
  certificates: [...job.certificates, { ...payload, sealed: stamp, fileDigest: null }],
});

const certificateIssued: Handler<'certificateIssued'> = (job, payload) => ({
  ...job,
  certificates: job.certificates.map((each) =>
    each.certificate === payload.certificate ? { ...each, fileDigest: payload.fileDigest } : each,
  ),
});

function opened(event: JobEvent & { readonly type: 'jobOpened' }, stamp: Stamp): Job {
  return {
    id: event.job,
    ...event.payload,
    rehearsal: event.payload.rehearsal === true,
    opened: stamp,
    last: stamp,
    fields: {},
    sensors: [],
    readings: [],
    setUps: { car: 1, fixture: 1 },
    moves: [],
    captures: [],
    photos: [],
    reports: [],
    certificates: [],
    erasedPersonalIds: [],
  };
}

function apply(job: Job, event: JobEvent, stamp: Stamp): Job {
  switch (event.type) {
    case 'fieldRecorded':
      return fieldRecorded(job, event.payload, stamp);
    case 'sensorListed':
      return sensorListed(job, event.payload, stamp);
    case 'sensorDisposed':
      return changeSensor(job, event.payload.sensor, {
        disposition: event.payload.disposition,
        dispositionSource: event.payload.source,
      });
    case 'procedureChosen':
      return changeSensor(job, event.payload.sensor, { procedure: event.payload.procedure });
    case 'equipmentChosen':
      return changeSensor(job, event.payload.sensor, { equipment: event.payload.equipment });
    case 'readingRecorded':
      return { ...job, readings: [...job.readings, { ...event.payload, stamp, struck: null }] };
    case 'readingStruck':
      return readingStruck(job, event.payload, stamp);
    case 'bodyMoved':
      return bodyMoved(job, event.payload, stamp);
    case 'captureAttempted':
      return { ...job, captures: [...job.captures, { ...event.payload, stamp }] };
    case 'photoAdded':
      return { ...job, photos: [...job.photos, { ...event.payload, stamp, struck: null }] };
    case 'photoStruck':
      return photoStruck(job, event.payload, stamp);
    case 'reportAttached':
      return { ...job, reports: [...job.reports, { ...event.payload, stamp, struck: null }] };
    case 'reportStruck':
      return reportStruck(job, event.payload, stamp);
    case 'certificateSealed':
      return certificateSealed(job, event.payload, stamp);
    case 'certificateIssued':
      return certificateIssued(job, event.payload, stamp);
    case 'erased':
      return { ...job, erasedPersonalIds: [...job.erasedPersonalIds, ...event.payload.personalIds] };
    case 'floorChosen':
      return { ...job, floor: { ...event.payload, stamp } };
    case 'jobOpened':
    case 'shopRecorded':
    case 'bayRecorded':
      return job;
    default:
      return assertNever(event);
  }
}

/**
 * Folds one more event into the state. The first event of a job is `jobOpened`; before it there is no state.
 *
 * @returns the job after the event, or undefined while it has not been opened.
 */
export function reduceEvent(job: Job | undefined, event: JobEvent): Job | undefined {
  const stamp: Stamp = {
    seq: event.seq,
    utcMs: event.at.utcMs,
    offsetMin: event.at.offsetMin,
    person: event.person,
  };
  if (job === undefined) return event.type === 'jobOpened' ? opened(event, stamp) : undefined;
  return { ...apply(job, event, stamp), last: stamp };
}

/** The job that a journal's events make, in their order; undefined when it does not start with `jobOpened`. */
export function reduce(events: readonly JobEvent[]): Job | undefined {
  let job: Job | undefined;
  for (const event of events) job = reduceEvent(job, event);
  return job;
}
