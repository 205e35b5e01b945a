/** The job list's row, and the certificates of a job: a projection of its events, made anew whenever it is in doubt. */
import type { JsonObject } from '../../../core/canonical.ts';
import type { WaitsFor } from '../../../core/contract/index.ts';
import { type Assessment, assess } from '../../../core/job/assess.ts';
import type { EventEnvelope } from '../../../core/job/event.ts';
import type { CertificateKind } from '../../../core/job/events.ts';
import { fieldKey } from '../../../core/job/fieldKey.ts';
import type { Job } from '../../../core/job/job.ts';
import { eventsOfEnvelopes } from '../../../core/job/readEvents.ts';
import { reduce } from '../../../core/job/reduce.ts';
import { solveAll } from '../../../core/job/solve.ts';
import { stages } from '../../../core/job/stages/index.ts';
import type { Projection } from '../journal/index.ts';

/** What the job list keeps of one job. */
export type JobRow = JsonObject & {
  readonly job: string;
  readonly reference: string;
  readonly plate: string;
  readonly vin: string;
  readonly car: string;
  readonly sensors: readonly string[];
  readonly stage: string;
  readonly waitsFor: WaitsFor;
  readonly updatedUtcMs: number;
  readonly certificates: readonly CertificateEntry[];
};

/** One sealed certificate; `fileDigest` is empty until it is issued. */
export type CertificateEntry = JsonObject & {
  readonly certificate: string;
  readonly number: string;
  readonly edition: number;
  readonly kind: CertificateKind;
  readonly fileDigest: string;
  readonly issuedAtUtcMs: number;
};

function textField(job: Job, field: string): string {
  const value = job.fields[fieldKey(field)]?.value;
  return typeof value === 'string' ? value : '';
}

/** The first stage that is not done, or the last one. */
function currentStage(assessment: Assessment): string {
  const open = stages.find((stage) => assessment.stageStates[stage.id] !== 'done');
  return open?.id ?? 'signoff';
}

function waitsForIssue(job: Job): WaitsFor {
  return job.certificates.some((each) => each.fileDigest !== null) ? 'waits.nothing' : 'waits.issuing';
}

/** What a job waits for, as a word key. */
function waitsFor(job: Job, assessment: Assessment): WaitsFor {
  if (job.certificates.length > 0) return waitsForIssue(job);
  if (assessment.stops.length > 0) return 'waits.decision';
  return assessment.missing.length === 0 ? 'waits.signature' : 'waits.work';
}

/**
 * Where the job stands. A certificate that is not *not calibrated* was signed with every stage done, and nothing is added
 * after: such a job, which most are, needs no solution to say so.
 */
function standing(job: Job): Pick<JobRow, 'stage' | 'waitsFor'> {
  const last = job.certificates.at(-1);
  if (last !== undefined && last.kind !== 'notCalibrated') {
    return { stage: 'signoff', waitsFor: waitsForIssue(job) };
  }
  const assessment = assess(job, solveAll(job));
  return { stage: currentStage(assessment), waitsFor: waitsFor(job, assessment) };
}

function rowOfJob(job: Job): JobRow {
  return {
    job: job.id,
    reference: job.reference,
    plate: textField(job, 'intake.plate'),
    vin: textField(job, 'intake.vin'),
    car: `${textField(job, 'intake.make')} ${textField(job, 'intake.model')}`.trim(),
    sensors: job.sensors.map((each) => each.name),
    ...standing(job),
    updatedUtcMs: job.last.utcMs,
    certificates: job.certificates.map((each) => ({
      certificate: each.certificate,
      number: each.number,
      edition: each.edition,
      kind: each.kind,
      fileDigest: each.fileDigest ?? '',
      issuedAtUtcMs: each.issuedAtUtcMs,
    })),
  };
}

/** Edition 2 of the list. A stream that does not open as a job (the shop's) has no row. */
export const jobProjection: Projection<JobRow> = {
  edition: 2,
  rowOf(events: readonly EventEnvelope[]) {
    const read = eventsOfEnvelopes(events);
    const job = read.ok ? reduce(read.value) : undefined;
    return job === undefined ? undefined : rowOfJob(job);
  },
  listingOf: ({ waitsFor, reference, plate, vin, car, certificates }) => ({
    waitsFor,
    search: [reference, plate, vin, car, ...certificates.map((each) => each.number)],
    certificates: certificates.map(({ number, edition, fileDigest }) => ({
      number,
      edition,
      issued: fileDigest !== '',
    })),
  }),
};
