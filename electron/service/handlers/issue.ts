/**
 * Issuing in the crash-safe order: the journal's event `certificateSealed` fixes number, kind, moment and record digest;
 * the file is printed from exactly that, signed, and put in the store of files whole; `certificateIssued` names it. A
 * certificate that was sealed and not issued is finished at the next start, to the same bytes.
 */
import { buildRecord, recordDigest } from '../../../core/certificate/record.ts';
import { assess, objections } from '../../../core/job/assess.ts';
import type { CertificateKind, Payload } from '../../../core/job/events.ts';
import type { Job, JobCertificate } from '../../../core/job/job.ts';
import { eventsOfEnvelopes } from '../../../core/job/readEvents.ts';
import { reduce } from '../../../core/job/reduce.ts';
import { solveAll } from '../../../core/job/solve.ts';
import { err, invariant, ok, type Result } from '../../../core/result.ts';
import type { Language } from '../../../core/words/index.ts';
import type { StoreError } from '../certificate/issue/certificateStore.ts';
import {
  finishSealed,
  type IssuePorts,
  issueCertificate,
  type SelfCheckError,
} from '../certificate/issue/issueCertificate.ts';
import { signPdf } from '../certificate/sign/signPdf.ts';
import { newId } from '../clock.ts';
import type { CallError } from '../host/handlers.ts';
import type { JobRead } from '../journal/index.ts';
import type { OpenedKey } from '../keys/signingKey.ts';
import type { PrintRequest } from '../printing/printJob.ts';
import type { ServiceContext } from './context.ts';
import { currentShop, shopBefore } from './shop.ts';
import { contextOf, journalOf } from './store.ts';

/** Where the bytes of a job's photos lie, struck ones too: the printed document names those it shows. */
async function photoPathsOf(
  context: ServiceContext,
  events: JobRead['events'],
): Promise<PrintRequest['photoPaths']> {
  const paths: Record<string, string> = {};
  for (const { event } of events) {
    const { digest } = event.payload;
    if (event.type !== 'photoAdded' || typeof digest !== 'string') continue;
    const located = await context.files.locate(digest);
    if (located !== undefined) paths[digest] = located.path;
  }
  return paths;
}

/** The unsigned file of a seal over these events, made where nobody waits for it. */
export async function printed(
  context: ServiceContext,
  read: JobRead,
  request: Pick<PrintRequest, 'texts' | 'shop' | 'seal' | 'draft'>,
): Promise<Result<Uint8Array, CallError>> {
  const answer = await context.print({
    ...request,
    personal: read.personal,
    rootFingerprint: context.keys.rootFingerprint(),
    photoPaths: await photoPathsOf(context, read.events),
  });
  return answer.ok ? answer : err({ code: answer.error.code, details: { missing: answer.error.missing } });
}

/** What the signer asks for. */
export interface IssueRequest {
  readonly job: string;
  readonly commandId: string;
  readonly expectedSeq: number;
  readonly person: string;
  readonly kind: CertificateKind;
  readonly reason: string;
  readonly language?: Language | undefined;
}

/** The job as its events before the seal make it. */
export function jobBefore(
  read: JobRead,
  seq: number,
): { readonly job: Job; readonly texts: readonly string[] } {
  const before = read.events.filter((each) => each.event.seq < seq);
  const events = eventsOfEnvelopes(before.map((each) => each.event));
  const job = events.ok ? reduce(events.value) : undefined;
  invariant(job !== undefined, 'a job that is sealed opens with its opening event');
  return { job, texts: before.map((each) => each.text) };
}

/** The number after the last one given in this year: `<shop>-<bay>-<year>-<counter>`. */
function nextNumber(
  context: ServiceContext,
  shopCode: string,
  bay: string,
  year: number,
): Result<string, CallError> {
  const journal = journalOf(context.store);
  if (!journal.ok) return journal;
  const head = `${shopCode}-${bay}-${year}-`;
  const last = journal.value.lastCounter(head);
  return last.ok ? ok(`${head}${String(last.value + 1).padStart(4, '0')}`) : last;
}

function refused(context: ServiceContext, job: Job, request: IssueRequest): CallError | undefined {
  const signer = currentShop(context)?.people.find((each) => each.id === request.person);
  if (!signer?.roles.includes('signer')) {
    return { code: 'person/notAllowed', details: { person: request.person, needs: 'signer' } };
  }
  const against = objections(assess(job, solveAll(job)), request.kind);
  if (against.length === 0) return undefined;
  return { code: 'certificate/incomplete', details: { kind: request.kind, against: against.slice(0, 60) } };
}

/** Seals: after this event the certificate exists, whatever happens to the program. */
export function seal(context: ServiceContext, request: IssueRequest): Result<undefined, CallError> {
  const journal = journalOf(context.store);
  if (!journal.ok) return journal;
  const repeated = journal.value.answerTo(request.commandId);
  if (!repeated.ok) return repeated;
  if (repeated.value !== undefined) return ok(undefined);
  const read = journal.value.readJob(request.job);
  if (!read.ok) return read;
  const { job, texts } = jobBefore(read.value, Number.POSITIVE_INFINITY);
  if (job.certificates.length > 0) {
    return err({ code: 'job/signed', details: { job: job.id, number: job.certificates[0]?.number ?? '' } });
  }
  const refusal = refused(context, job, request);
  if (refusal !== undefined) return err(refusal);
  const shop = currentShop(context);
  if (shop === undefined) return err({ code: 'shop/none', details: {} });
  const ctx = contextOf(
    journal.value.storeId,
    request.person,
    context.version,
    context.clock,
    context.random,
  );
  const { utcMs, offsetMin } = ctx.at;
  const year = new Date(utcMs + offsetMin * 60_000).getUTCFullYear();
  const number = nextNumber(context, shop.code, job.bay, year);
  if (!number.ok) return number;
  const fixed = { number: number.value, edition: 1, kind: request.kind, issuedAtUtcMs: utcMs };
  const sealed = {
    ...fixed,
    certificate: newId(context.clock, context.random),
    replaces: null,
    reason: request.reason,
    recordDigest: recordDigest(buildRecord(texts, solveAll(job), fixed)),
    head: read.value.head.hash,
    signer: request.person,
    issuedOffsetMin: offsetMin,
    paper: shop.paper,
    program: `datumline/${context.version}`,
  } satisfies Payload<'certificateSealed'>;
  const { language } = request;
  const payload = language === undefined ? sealed : { ...sealed, language };
  const appended = journal.value.append({
    job: job.id,
    commandId: request.commandId,
    expectedSeq: request.expectedSeq,
    entries: [{ type: 'certificateSealed', v: 1, payload }],
    ctx,
  });
  return appended.ok ? ok(undefined) : appended;
}

/** The unsigned file of a sealed certificate: the same whenever it is made. */
async function printSealed(
  context: ServiceContext,
  read: JobRead,
  sealed: JobCertificate,
): Promise<Result<Uint8Array, CallError>> {
  const { seq } = sealed.sealed;
  const sealedEvent = read.events.find((each) => each.event.seq === seq);
  const shop = sealedEvent === undefined ? undefined : shopBefore(context, sealedEvent.event.storeSeq);
  invariant(shop !== undefined, 'a sealed certificate has a shop');
  const texts = read.events.filter((each) => each.event.seq < seq).map((each) => each.text);
  return printed(context, read, { texts, shop, seal: sealed });
}

/** A sealed certificate with the job it belongs to: what the order of issuing passes along. */
interface SealedJob extends JobCertificate {
  readonly jobId: string;
}

function portsOf(context: ServiceContext, key: OpenedKey): IssuePorts<SealedJob, CallError> {
  return {
    store: context.archive,
    render: async (sealed) => {
      const journal = journalOf(context.store);
      if (!journal.ok) return journal;
      const read = journal.value.readJob(sealed.jobId);
      if (!read.ok) return read;
      return printSealed(context, read.value, sealed);
    },
    sign: async (bytes, sealed) => {
      const signed = signPdf(bytes, { ...key, signedAt: new Date(sealed.issuedAtUtcMs) });
      return signed.ok ? signed : err({ code: signed.error.code, details: {} });
    },
    recordIssued: async (sealed, fileDigest) => recordIssued(context, sealed, fileDigest),
  };
}
function recordIssued(
  context: ServiceContext,
  sealed: SealedJob,
  fileDigest: string,
): Result<void, CallError> {
  const journal = journalOf(context.store);
  if (!journal.ok) return journal;
  const { jobId, certificate, number, edition, signer } = sealed;
  const read = journal.value.readJob(jobId);
  if (!read.ok) return read;
  const appended = journal.value.append({
    job: jobId,
    commandId: newId(context.clock, context.random),
    expectedSeq: read.value.head.seq,
    entries: [{ type: 'certificateIssued', v: 1, payload: { certificate, number, edition, fileDigest } }],
    ctx: contextOf(journal.value.storeId, signer, context.version, context.clock, context.random),
  });
  if (!appended.ok) return appended;
  context.notify('job.changed', { job: jobId, seq: appended.value.events.at(-1)?.event.seq ?? 0 });
  return ok(undefined);
}

function sealedOf(context: ServiceContext, jobId: string): Result<SealedJob, CallError> {
  const journal = journalOf(context.store);
  if (!journal.ok) return journal;
  const read = journal.value.readJob(jobId);
  if (!read.ok) return read;
  const sealed = jobBefore(read.value, Number.POSITIVE_INFINITY).job.certificates.at(-1);
  return sealed === undefined
    ? err({ code: 'certificate/none', details: { job: jobId } })
    : ok({ ...sealed, jobId });
}

function asCallError(error: CallError | StoreError | SelfCheckError): CallError {
  return 'details' in error ? error : { code: error.code, details: {} };
}

/** Seals, renders, signs, stores and notes; answers the digest of the file. A repeated command answers the same. */
export async function issueNow(
  context: ServiceContext,
  request: IssueRequest,
): Promise<Result<string, CallError>> {
  const key = context.keys.signing();
  if (!key.ok) return key;
  const sealed = seal(context, request);
  if (!sealed.ok) return sealed;
  const known = sealedOf(context, request.job);
  if (!known.ok) return known;
  if (known.value.fileDigest !== null) return ok(known.value.fileDigest);
  const issued = await issueCertificate(async () => known, portsOf(context, key.value));
  return issued.ok ? ok(issued.value.fileDigest) : err(asCallError(issued.error));
}

/** Adopts or finishes what was sealed and not issued, in the named jobs. Without an open key nothing can be finished. */
export async function finishJobs(context: ServiceContext, jobs: readonly string[]): Promise<void> {
  const key = context.keys.signing();
  if (!key.ok) return;
  const unissued = jobs.flatMap((job) => {
    const sealed = sealedOf(context, job);
    return sealed.ok && sealed.value.fileDigest === null ? [sealed.value] : [];
  });
  await finishSealed(unissued, portsOf(context, key.value));
}
