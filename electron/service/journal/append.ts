/**
 * Recording. One command is one transaction: events, personal texts, cleared drafts and head are on the disk together, or
 * none of them is. The job list follows when it is looked at.
 */
import type Database from 'better-sqlite3';
import { bytesOfHex, hexOf, type JsonObject } from '../../../core/canonical.ts';
import { eventHash, GENESIS, writeEvent } from '../../../core/job/event.ts';
import { type ChainLink, verifyJobChain } from '../../../core/job/eventChain.ts';
import { UUID_RANDOM_BYTES, uuidV7 } from '../../../core/job/ids.ts';
import type { JournalError } from '../../../core/job/journalError.ts';
import { type PersonalText, SALT_BYTES, sealPersonal } from '../../../core/job/personal.ts';
import { err, ok, type Result } from '../../../core/result.ts';
import { answerTo, headOf, type Reads, storedEvent, tailAnchors } from './read.ts';
import type { AppendAnswer, AppendRequest, JournalOptions } from './types.ts';

type Rules<Row extends JsonObject> = Pick<JournalOptions<Row>, 'checkPayload' | 'commutes'>;
type Heads = { readonly store: ChainLink; readonly job: ChainLink };
type Prepared = { readonly texts: readonly string[]; readonly personal: readonly PersonalText[] };

/** Prepares the recording of commands; the returned function runs inside the caller's write transaction. */
export function prepareAppend<Row extends JsonObject>(
  db: Database.Database,
  reads: Reads,
  storeId: string,
  rules: Rules<Row>,
): (request: AppendRequest) => Result<AppendAnswer, JournalError> {
  const addCommand = db.prepare<[string, string, number]>(
    'INSERT INTO command (commandId, job, entries) VALUES (?, ?, ?)',
  );
  const addEvent = db.prepare<[number, string]>('INSERT INTO event (id, text) VALUES (?, ?)');
  const addPersonal = db.prepare<[string, string, Uint8Array, string]>(
    'INSERT INTO personal (id, job, salt, text) VALUES (?, ?, ?, ?)',
  );
  const erase = db.prepare<[string, string]>('DELETE FROM personal WHERE id = ? AND job = ?');
  const clearDraft = db.prepare<[string, string]>('DELETE FROM draft WHERE job = ? AND field = ?');
  const setHead = db.prepare<[number, string]>('UPDATE head SET storeSeq = ?, hash = ?');

  function store(request: AppendRequest, heads: Heads, { texts, personal }: Prepared): AppendAnswer {
    addCommand.run(request.commandId, request.job, texts.length);
    texts.forEach((text, index) => {
      addEvent.run(heads.store.seq + 1 + index, text);
    });
    for (const { id, salt, text } of personal) addPersonal.run(id, request.job, bytesOfHex(salt), text);
    for (const id of request.erases ?? []) erase.run(id, request.job);
    for (const field of request.clearsDrafts ?? []) clearDraft.run(request.job, field);
    const events = texts.map(storedEvent);
    const after = { seq: heads.store.seq + texts.length, hash: events.at(-1)?.hash ?? heads.store.hash };
    setHead.run(after.seq, after.hash);
    return { events, personal, repeated: false };
  }

  return (request) => {
    const first = answerTo(reads, request.commandId);
    if (first !== undefined) return isSameCommand(first, request) ? ok(first) : err(reused(request));
    const heads = soundHeads(reads, request.job);
    if (!heads.ok) return heads;
    const behind = isBehind(request, heads.value.job.seq, rules);
    if (behind !== undefined) return err(behind);
    const prepared = prepareTexts(request, heads.value, storeId, rules);
    return prepared.ok ? ok(store(request, heads.value, prepared.value)) : prepared;
  };
}

/** The same command has the same job and the same kinds of entries; what they say is what was recorded first. */
function isSameCommand(first: AppendAnswer, request: AppendRequest): boolean {
  return (
    first.events.length === request.entries.length &&
    first.events.every(
      ({ event }, index) => event.job === request.job && event.type === request.entries[index]?.type,
    )
  );
}

function reused({ commandId, job }: AppendRequest): JournalError {
  return { code: 'journal/commandReused', details: { commandId, job } };
}

/** The two links to append to. Nothing is chained onto a changed event: that would make the change look recorded. */
function soundHeads(reads: Reads, job: string): Result<Heads, JournalError> {
  const head = headOf(reads);
  const last = reads.last.get();
  const lastLink = { seq: last?.id ?? 0, hash: last === undefined ? GENESIS : eventHash(last.text) };
  if (lastLink.seq !== head.seq || lastLink.hash !== head.hash) {
    const finding =
      lastLink.seq < head.seq
        ? ({ what: 'gap', fromSeq: lastLink.seq + 1, toSeq: head.seq } as const)
        : ({ what: 'changed', seq: lastLink.seq } as const);
    return err({ code: 'journal/altered', details: { findings: [{ chain: 'store', finding }] } });
  }
  const tail = reads.lastOfJob.get(job);
  if (tail === undefined) return ok({ store: head, job: { seq: 0, hash: GENESIS } });
  const jobLink = { seq: tail.seq, hash: eventHash(tail.text) };
  if (tailAnchors(reads, tail).every((anchor) => anchor.hash === jobLink.hash)) {
    return ok({ store: head, job: jobLink });
  }
  const { findings } = verifyJobChain(job, reads.jobTexts.all(job), tailAnchors(reads, tail));
  return err({
    code: 'journal/altered',
    details: { findings: findings.map((finding) => ({ chain: 'job', job, finding })) },
  });
}

function isBehind<Row extends JsonObject>(
  { job, expectedSeq, entries }: AppendRequest,
  actualSeq: number,
  rules: Rules<Row>,
): JournalError | undefined {
  if (expectedSeq === undefined || expectedSeq === actualSeq) return undefined;
  if (entries.every((entry) => rules.commutes(entry.type))) return undefined;
  const details = { job, expectedSeq, actualSeq };
  return {
    code: 'journal/behind',
    details:
      expectedSeq < actualSeq ? { ...details, missing: { from: expectedSeq + 1, to: actualSeq } } : details,
  };
}

/** Makes the texts of all entries, each chained to the one before, without writing anything. */
function prepareTexts<Row extends JsonObject>(
  request: AppendRequest,
  heads: Heads,
  storeId: string,
  rules: Rules<Row>,
): Result<Prepared, JournalError> {
  const { ctx, job, commandId } = request;
  const personal: PersonalText[] = [];
  const texts: string[] = [];
  let { store: prevStore, job: prevJob } = heads;
  if (request.entries.length === 0) return err(badEntry('', 'a command records at least one entry'));
  for (const { type, v, payload } of request.entries) {
    const sealed = sealPersonal(payload, () => ({
      id: uuidV7(ctx.at.utcMs, ctx.random(UUID_RANDOM_BYTES)),
      salt: hexOf(ctx.random(SALT_BYTES)),
    }));
    const problem = rules.checkPayload(type, v, sealed.payload);
    if (problem !== undefined) return err(badEntry(type, problem));
    const seq = prevJob.seq + 1;
    const storeSeq = prevStore.seq + 1;
    const { at, person, device, app } = ctx;
    const text = writeEvent({
      ...{ store: storeId, job, seq, storeSeq, type, v, at, person, device, app, commandId },
      payload: sealed.payload,
      prevInJob: prevJob.hash,
      prevInStore: prevStore.hash,
    });
    if (!text.ok) return err(badEntry(type, text.error.details.problem));
    const hash = eventHash(text.value);
    prevJob = { seq, hash };
    prevStore = { seq: storeSeq, hash };
    texts.push(text.value);
    personal.push(...sealed.personal);
  }
  return ok({ texts, personal });
}

function badEntry(type: string, problem: string): JournalError {
  return { code: 'journal/badEntry', details: { type, problem } };
}
