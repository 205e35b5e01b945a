/** A journal in a folder of its own, with a clock and a random source that repeat. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { bytesOfHex, type JsonObject, sha256Hex } from '../../../core/canonical.ts';
import { UUID_RANDOM_BYTES, uuidV7 } from '../../../core/job/ids.ts';
import type { Result } from '../../../core/result.ts';
import {
  type AppendAnswer,
  type AppendRequest,
  type Journal,
  type JournalContext,
  type JournalEntry,
  type JournalOptions,
  openJournal,
} from '../../../electron/service/journal/index.ts';

/** A row of the tests' job list. */
export type Row = { readonly job: string; readonly plate: string; readonly entries: number };

/** Rules of the tests' journal: readings commute, a payload with `bad` is refused, streams without `opened` have no row. */
export const options: JournalOptions<Row> = {
  checkPayload: (_type, v, payload) => {
    if (v !== 1) return `version ${v} is unknown`;
    return 'bad' in payload ? 'bad is not allowed' : undefined;
  },
  commutes: (type) => type === 'readingRecorded',
  projection: {
    edition: 1,
    rowOf(events) {
      const [first] = events;
      if (first?.type !== 'jobOpened') return undefined;
      return { job: first.job, plate: String(first.payload.plate ?? ''), entries: events.length };
    },
    listingOf: ({ plate, entries }) => ({
      waitsFor: entries > 3 ? 'office' : 'bay',
      search: [plate],
      certificates: [],
    }),
  },
};

/** A folder that is gone after the test. */
export function freshFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-journal-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

let ticks = 0;

/** Bytes that look random and are the same in every run. */
export function fakeRandom(bytes: number): Uint8Array {
  ticks += 1;
  return bytesOfHex(sha256Hex(`random ${ticks}`)).slice(0, bytes);
}

/** The next moment: one second later each time. */
export function context(change: Partial<JournalContext> = {}): JournalContext {
  ticks += 1;
  return {
    at: {
      utcMs: 1_795_600_000_000 + ticks * 1_000,
      offsetMin: 60,
      zone: 'Europe/Berlin',
      monoMs: ticks * 1_000,
    },
    person: 'p1',
    device: 'bay-pc',
    app: '0.1.0-test',
    random: fakeRandom,
    ...change,
  };
}

/** A new id. */
export function id(): string {
  return uuidV7(context().at.utcMs, fakeRandom(UUID_RANDOM_BYTES));
}

/** The value of a result that must be there. */
export function must<T, E>(result: Result<T, E>): T {
  if (!result.ok) throw new Error(`unexpected error: ${JSON.stringify(result.error)}`);
  return result.value;
}

/** A writing journal, closed after the test. */
export function openedJournal(
  folder = freshFolder(),
  change: Partial<JournalOptions<Row>> = {},
): Journal<Row> {
  const journal = must(openJournal(folder, { ...options, ...change }, context()));
  onTestFinished(() => journal.close());
  return journal;
}

/** A reading entry. */
export function reading(value: number): JournalEntry {
  return { type: 'readingRecorded', v: 1, payload: { value } };
}

/** Any entry that does not commute. */
export function fact(payload: JsonObject = {}, type = 'fieldRecorded'): JournalEntry {
  return { type, v: 1, payload };
}

/** A request with everything, to change what a test is about. */
export function request(job: string, entries: readonly JournalEntry[], change: Partial<AppendRequest> = {}) {
  return { job, commandId: id(), entries, ctx: context(), ...change };
}

/** Appends and gives the answer, which must be there. */
export function append(
  journal: Journal<Row>,
  job: string,
  entries: readonly JournalEntry[],
  change: Partial<AppendRequest> = {},
): AppendAnswer {
  return must(journal.append(request(job, entries, change)));
}

/** A job with one opening and some readings. */
export function openedJob(journal: Journal<Row>, readings = 3, plate = 'HB-DL 1'): string {
  const job = id();
  append(journal, job, [fact({ plate }, 'jobOpened')], { expectedSeq: 0 });
  for (let n = 1; n <= readings; n += 1) append(journal, job, [reading(n)]);
  return job;
}
