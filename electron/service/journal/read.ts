/**
 * Reading the record. The hash of every stored byte is checked on every read, also that of a job's last event, for
 * which the store's next event vouches, or, for the very last one, the store's head.
 */
import type Database from 'better-sqlite3';
import { hexOf } from '../../../core/canonical.ts';
import { eventHash, GENESIS, parseEvent } from '../../../core/job/event.ts';
import { type ChainLink, verifyJobChain } from '../../../core/job/eventChain.ts';
import type { JournalError, JournalFinding } from '../../../core/job/journalError.ts';
import {
  erasedPersonalIds,
  type PersonalText,
  personalCommitment,
  personalReferences,
} from '../../../core/job/personal.ts';
import { err, invariant, ok, type Result } from '../../../core/result.ts';
import { rememberingOpenText } from './openedTexts.ts';
import type { AppendAnswer, Draft, JobAsFound, JobRead, StoredEvent } from './types.ts';

type EventRow = { readonly id: number; readonly seq: number; readonly text: string };
type PersonalRow = { readonly id: string; readonly salt: Uint8Array; readonly text: string };
type HeadRow = { readonly seq: number; readonly hash: string };

/** Prepared statements over one connection. Call inside a transaction where several answers must agree. */
export type Reads = ReturnType<typeof prepareReads>;

/** Prepares everything that is read. */
export function prepareReads(db: Database.Database) {
  const byJob = db.prepare<[string], EventRow>('SELECT id, seq, text FROM event WHERE job = ? ORDER BY seq');
  const lastOfJob = db.prepare<[string], EventRow>(
    'SELECT id, seq, text FROM event WHERE job = ? ORDER BY seq DESC LIMIT 1',
  );
  const last = db.prepare<[], { readonly id: number; readonly text: string }>(
    'SELECT id, text FROM event ORDER BY id DESC LIMIT 1',
  );
  const textAt = db.prepare<[number], string>('SELECT text FROM event WHERE id = ?').pluck();
  const byCommand = db
    .prepare<[string], string>('SELECT text FROM event WHERE commandId = ? ORDER BY id')
    .pluck();
  const command = db.prepare<[string], { readonly job: string; readonly entries: number }>(
    'SELECT job, entries FROM command WHERE commandId = ?',
  );
  const head = db.prepare<[], HeadRow>('SELECT storeSeq AS seq, hash FROM head');
  const personalOfJob = db.prepare<[string], PersonalRow>(
    'SELECT id, salt, text FROM personal WHERE job = ? ORDER BY id',
  );
  const personal = db.prepare<[string], PersonalRow>('SELECT id, salt, text FROM personal WHERE id = ?');
  const drafts = db.prepare<[string], Draft>(
    'SELECT field, text, savedAtUtcMs FROM draft WHERE job = ? ORDER BY field',
  );
  const streams = db.prepare<[], string>('SELECT DISTINCT job FROM event ORDER BY job').pluck();
  const jobsSince = db
    // The plus keeps the planner from walking all jobs in their order to find the few that are meant.
    .prepare<[number], string>('SELECT DISTINCT +job FROM event WHERE id > ? ORDER BY +job')
    .pluck();
  const countOfType = db.prepare<[string], number>('SELECT count(*) FROM event WHERE type = ?').pluck();
  const storeId = db.prepare<[], string>('SELECT id FROM store').pluck();
  const texts = db.prepare<[], string>('SELECT text FROM event ORDER BY id').pluck();
  const jobTexts = db.prepare<[string], string>('SELECT text FROM event WHERE job = ? ORDER BY seq').pluck();
  return {
    byJob,
    lastOfJob,
    last,
    textAt,
    byCommand,
    command,
    head,
    personalOfJob,
    personal,
    drafts,
    streams,
    jobsSince,
    countOfType,
    storeId,
    texts,
    jobTexts,
    openText: rememberingOpenText(),
  } as const;
}

/** The store's last link as its head row tells it. */
export function headOf(reads: Reads): ChainLink {
  return reads.head.get() ?? { seq: 0, hash: GENESIS };
}

/** A stored text with its hash and meaning; only for texts that have just been verified. */
export function storedEvent(text: string): StoredEvent {
  const parsed = parseEvent(text);
  invariant(parsed.ok, 'a verified text is an event');
  return { text, hash: eventHash(text), event: parsed.value };
}

/**
 * What is known of a job's last event from outside its own chain: the hash that the store's next event names (as long as
 * that one is vouched for itself), or the store's head.
 */
export function tailAnchors(reads: Reads, tail: EventRow): readonly ChainLink[] {
  const head = headOf(reads);
  if (tail.id === head.seq) return [{ seq: tail.seq, hash: head.hash }];
  const next = reads.textAt.get(tail.id + 1);
  const nextEvent = next === undefined ? undefined : parseEvent(next);
  if (next === undefined || nextEvent === undefined || !nextEvent.ok) return [];
  const vouched = hashNamedFor(reads, tail.id + 1, head) === eventHash(next);
  return vouched ? [{ seq: tail.seq, hash: nextEvent.value.prevInStore }] : [];
}

function hashNamedFor(reads: Reads, id: number, head: ChainLink): string | undefined {
  if (id === head.seq) return head.hash;
  const next = reads.textAt.get(id + 1);
  const event = next === undefined ? undefined : parseEvent(next);
  return event?.ok ? event.value.prevInStore : undefined;
}

/** A job with every hash and every commitment checked. */
export function readJob(reads: Reads, job: string): Result<JobRead, JournalError> {
  const rows = reads.byJob.all(job);
  const tail = rows.at(-1);
  if (tail === undefined) return err({ code: 'journal/noJob', details: { job } });
  const texts = rows.map((row) => row.text);
  const report = verifyJobChain(job, texts, tailAnchors(reads, tail), reads.openText);
  const personal = reads.personalOfJob.all(job).map(personalText);
  const findings: readonly JournalFinding[] = [
    ...report.findings.map((finding) => ({ chain: 'job', job, finding }) as const),
    ...personalFindings(job, report.events, personal),
  ];
  if (findings.length > 0) return err({ code: 'journal/altered', details: { findings } });
  const events = report.events.map((event, index) => ({
    text: texts[index] ?? '',
    hash: report.hashes[index] ?? '',
    event,
  }));
  return ok({ events, head: report.head, personal });
}

/** A job's texts and all that is wrong with them. */
export function readJobAsFound(reads: Reads, job: string): JobAsFound {
  const texts = reads.jobTexts.all(job);
  const read = readJob(reads, job);
  return {
    texts,
    findings: !read.ok && read.error.code === 'journal/altered' ? read.error.details.findings : [],
  };
}

/** Compares a job's personal texts with what its events committed to. */
export function personalFindings(
  job: string,
  events: readonly StoredEvent['event'][],
  personal: readonly PersonalText[],
): readonly JournalFinding[] {
  const kept = new Map(personal.map((each) => [each.id, each]));
  const erased = erasedPersonalIds(events);
  return events.flatMap(({ payload }) =>
    personalReferences(payload).flatMap(({ personalId, commitment }): readonly JournalFinding[] => {
      const text = kept.get(personalId);
      if (text === undefined) {
        return erased.has(personalId) ? [] : [{ chain: 'personal', job, personalId, what: 'missing' }];
      }
      const same = personalCommitment(text.salt, text.text) === commitment;
      return same ? [] : [{ chain: 'personal', job, personalId, what: 'changed' }];
    }),
  );
}

/** The first answer to a command, or undefined. */
export function answerTo(reads: Reads, commandId: string): AppendAnswer | undefined {
  if (reads.command.get(commandId) === undefined) return undefined;
  const events = reads.byCommand.all(commandId).map(storedEvent);
  const personal = events
    .flatMap(({ event }) => personalReferences(event.payload))
    .flatMap(({ personalId }) => {
      const row = reads.personal.get(personalId);
      return row === undefined ? [] : [personalText(row)];
    });
  return { events, personal, repeated: true };
}

/** A row of the table as the rest of the program knows it. */
export function personalText(row: PersonalRow): PersonalText {
  return { id: row.id, salt: hexOf(row.salt), text: row.text };
}
