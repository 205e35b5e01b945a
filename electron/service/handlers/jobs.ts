/** Jobs: list, open, read, record, drafts. Rights and rules that need the job's state are checked here. */
import type { JsonObject } from '../../../core/canonical.ts';
import { type Input, MOST_LISTED, type Output } from '../../../core/contract/index.ts';
import type { Job } from '../../../core/job/job.ts';
import { eventsOfEnvelopes } from '../../../core/job/readEvents.ts';
import { reduce } from '../../../core/job/reduce.ts';
import { err, ok, type Result } from '../../../core/result.ts';
import { newId } from '../clock.ts';
import type { CallError, Handlers } from '../host/handlers.ts';
import type { Journal, JournalEntry, JournalReads, StoredEvent } from '../journal/index.ts';
import type { ServiceContext } from './context.ts';
import { filesFit, nameFiles } from './jobFiles.ts';
import type { JobRow } from './jobRow.ts';
import { currentShop } from './shop.ts';
import { contextOf, journalOf, readsOf } from './store.ts';

/** Event types that the window may append; the rest only the service makes. */
const WINDOW_TYPES: ReadonlySet<string> = new Set([
  'fieldRecorded',
  'sensorListed',
  'sensorDisposed',
  'procedureChosen',
  'equipmentChosen',
  'floorChosen',
  'readingRecorded',
  'readingStruck',
  'bodyMoved',
  'captureAttempted',
  'photoAdded',
  'photoStruck',
  'reportAttached',
  'reportStruck',
]);

function wireEvents(events: readonly StoredEvent[]): { text: string; hash: string }[] {
  return events.map(({ text, hash }) => ({ text, hash }));
}

function personalMap(
  personal: readonly { readonly id: string; readonly text: string }[],
): Record<string, string> {
  return Object.fromEntries(personal.map(({ id, text }) => [id, text]));
}

/** The state of a job as its verified events make it. */
export function readJobState(reads: JournalReads<JobRow>, job: string): Result<Job, CallError> {
  const read = reads.readJob(job);
  if (!read.ok) return read;
  const events = eventsOfEnvelopes(read.value.events.map((each) => each.event));
  if (!events.ok) return events;
  const state = reduce(events.value);
  return state === undefined ? err({ code: 'journal/noJob', details: { job } }) : ok(state);
}

function listJobs(
  context: ServiceContext,
  { search, waitsFor = [], offset = 0, limit = MOST_LISTED }: Input<'job.list'>,
): Result<Output<'job.list'>, CallError> {
  const reads = readsOf(context.store);
  if (!reads.ok) return reads;
  const found = reads.value.findJobs({ search, waitsFor, offset, limit });
  if (!found.ok) return found;
  const waiting = reads.value.waiting();
  if (!waiting.ok) return waiting;
  return ok({
    total: found.value.total,
    rows: found.value.rows.map(({ certificates, ...row }) => ({
      ...row,
      sensors: [...row.sensors],
      certificate: certificates.findLast((each) => each.fileDigest !== '')?.number ?? '',
    })),
    waiting: Object.fromEntries(waiting.value.map((each) => [each.waitsFor, each.jobs])),
  });
}

function readJob(
  context: ServiceContext,
  { job, afterSeq }: Input<'job.read'>,
): Result<Output<'job.read'>, CallError> {
  const reads = readsOf(context.store);
  if (!reads.ok) return reads;
  const read = reads.value.readJob(job);
  if (!read.ok) return read;
  const drafts = reads.value.drafts(job);
  if (!drafts.ok) return drafts;
  return ok({
    events: wireEvents(read.value.events.filter((each) => each.event.seq > afterSeq)),
    drafts: drafts.value.map((draft) => ({ ...draft })),
    personal: personalMap(read.value.personal),
  });
}

function entriesOf(entries: Input<'job.record'>['entries']): Result<readonly JournalEntry[], CallError> {
  const forbidden = entries.find((each) => !WINDOW_TYPES.has(each.type));
  if (forbidden !== undefined) return err({ code: 'job/notForWindow', details: { type: forbidden.type } });
  return ok(entries.map(({ type, v, payload }) => ({ type, v, payload: payload as JsonObject })));
}

function knowsPerson(context: ServiceContext, person: string): Result<undefined, CallError> {
  const shop = currentShop(context);
  const known = shop?.people.some((each) => each.id === person) ?? false;
  return known ? ok(undefined) : err({ code: 'person/unknown', details: { person } });
}

/** The writing handle and the entries of somebody of this shop, or why not. */
function admitted(
  context: ServiceContext,
  input: { readonly person: string; readonly entries: Input<'job.record'>['entries'] },
): Result<{ readonly journal: Journal<JobRow>; readonly entries: readonly JournalEntry[] }, CallError> {
  const journal = journalOf(context.store);
  if (!journal.ok) return journal;
  const known = knowsPerson(context, input.person);
  if (!known.ok) return known;
  const entries = entriesOf(input.entries);
  return entries.ok ? ok({ journal: journal.value, entries: entries.value }) : entries;
}

function createJob(
  context: ServiceContext,
  input: Input<'job.create'>,
): Result<Output<'job.create'>, CallError> {
  const allowed = admitted(context, input);
  if (!allowed.ok) return allowed;
  const { journal, entries } = allowed.value;
  const shop = currentShop(context);
  if (shop === undefined) return err({ code: 'shop/none', details: {} });
  const repeated = journal.answerTo(input.commandId);
  if (!repeated.ok) return repeated;
  const already = repeated.value?.events[0];
  if (already !== undefined) return ok({ job: already.event.job });
  const opened = journal.countOfType('jobOpened');
  if (!opened.ok) return opened;
  const job = newId(context.clock, context.random);
  const ctx = contextOf(journal.storeId, input.person, context.version, context.clock, context.random);
  const year = new Date(ctx.at.utcMs + ctx.at.offsetMin * 60_000).getUTCFullYear();
  const reference = `${input.bay}-${year}-${String(opened.value + 1).padStart(4, '0')}`;
  const openedEntry: JournalEntry = {
    type: 'jobOpened',
    v: 1,
    payload: {
      reference,
      demo: shop.demo,
      ...(input.rehearsal === true ? { rehearsal: true } : {}),
      bay: input.bay,
      decisionRule: shop.decisionRule,
      follows: null,
    },
  };
  const appended = journal.append({
    job,
    commandId: input.commandId,
    expectedSeq: 0,
    entries: [openedEntry, ...entries],
    ctx,
  });
  if (!appended.ok) return appended;
  context.notify('job.changed', { job, seq: appended.value.events.at(-1)?.event.seq ?? 0 });
  return ok({ job });
}

function record(
  context: ServiceContext,
  input: Input<'job.record'>,
): Result<Output<'job.record'>, CallError> {
  const allowed = admitted(context, input);
  if (!allowed.ok) return allowed;
  const { journal, entries } = allowed.value;
  const signed = refuseAfterSignOff(journal, input);
  if (!signed.ok) return signed;
  const appended = journal.append({
    job: input.job,
    commandId: input.commandId,
    ...(input.expectedSeq === null ? {} : { expectedSeq: input.expectedSeq }),
    entries: entries,
    ...(input.draft === null ? {} : { clearsDrafts: [input.draft] }),
    ctx: contextOf(journal.storeId, input.person, context.version, context.clock, context.random),
  });
  if (!appended.ok) return appended;
  const last = appended.value.events.at(-1);
  if (last !== undefined) context.notify('job.changed', { job: input.job, seq: last.event.seq });
  return ok({ events: wireEvents(appended.value.events), personal: personalMap(appended.value.personal) });
}

/** After sign-off no reading is added: a new measurement is a new job linked to this one. */
function refuseAfterSignOff(
  reads: JournalReads<JobRow>,
  input: Input<'job.record'>,
): Result<undefined, CallError> {
  const repeated = reads.answerTo(input.commandId);
  if (!repeated.ok) return repeated;
  if (repeated.value !== undefined) return ok(undefined);
  const read = reads.readJob(input.job);
  if (!read.ok) return read;
  const sealed = read.value.events.find((each) => each.event.type === 'certificateSealed');
  return sealed === undefined
    ? ok(undefined)
    : err({ code: 'job/signed', details: { job: input.job, number: String(sealed.event.payload.number) } });
}

function saveDraft(
  context: ServiceContext,
  input: Input<'draft.save'>,
): Result<Output<'draft.save'>, CallError> {
  const journal = journalOf(context.store);
  if (!journal.ok) return journal;
  const savedAtUtcMs = context.clock.now().utcMs;
  const saved =
    input.text === ''
      ? journal.value.dropDraft(input.job, input.field)
      : journal.value.saveDraft(input.job, input.field, input.text, savedAtUtcMs);
  return saved.ok ? ok({ savedAtUtcMs }) : saved;
}

/** The handlers of this topic. */
export function jobHandlers(
  context: ServiceContext,
): Pick<Handlers, 'job.list' | 'job.create' | 'job.read' | 'job.record' | 'draft.save'> {
  return {
    'job.list': (input) => listJobs(context, input),
    'job.create': (input) => createJob(context, input),
    'job.read': (input) => readJob(context, input),
    'job.record': async (input) => {
      const fit = nameFiles(input.entries) ? await filesFit(context, input.entries) : ok(undefined);
      return fit.ok ? record(context, input) : fit;
    },
    'draft.save': (input) => saveDraft(context, input),
  };
}
