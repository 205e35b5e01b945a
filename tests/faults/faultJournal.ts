/** The journal as the fault programs use it: every entry carries a number of its own, so that doubles show by content. */
import { systemClock, systemRandom } from '../../electron/service/clock.ts';
import {
  type JournalContext,
  type JournalEntry,
  type JournalOptions,
  type JournalReader,
  openReader,
} from '../../electron/service/journal/index.ts';

export type FaultRow = { readonly job: string; readonly entries: number };

export const faultOptions: JournalOptions<FaultRow> = {
  checkPayload: (_type, _v, payload) =>
    typeof payload.n === 'number' || typeof payload.n === 'string' ? undefined : 'no number',
  commutes: (type) => type === 'readingRecorded',
  projection: {
    edition: 1,
    rowOf: (events) => ({ job: events[0]?.job ?? '', entries: events.length }),
    listingOf: ({ job }) => ({ waitsFor: '', search: [job], certificates: [] }),
  },
};

export function faultContext(): JournalContext {
  return {
    at: systemClock.now(),
    person: 'p1',
    device: 'bay-pc',
    app: 'fault-test',
    random: systemRandom,
  };
}

/** An entry known by `n`; every third has a personal text, `size` characters of ballast make it as large as wanted. */
export function numberedEntry(n: number, size: number): JournalEntry {
  const payload = { n, ballast: 'x'.repeat(size) };
  const type = n % 2 === 0 ? 'readingRecorded' : 'fieldRecorded';
  return {
    type,
    v: 1,
    payload: n % 3 === 0 ? { ...payload, remark: { personal: `remark ${n}` } } : payload,
  };
}

/**
 * The numbers of all entries in the store, in order; and in words everything that a verification finds. Of `jobs`, those
 * that have begun must have a row in the list.
 */
export function lookInto(
  folder: string,
  jobs: readonly string[] = [],
): {
  readonly numbers: readonly unknown[];
  readonly problems: readonly string[];
} {
  const opened = openReader(folder, faultOptions);
  if (!opened.ok) return { numbers: [], problems: [`cannot be read: ${JSON.stringify(opened.error)}`] };
  const reader = opened.value;
  try {
    return { numbers: numbersIn(reader), problems: problemsOf(reader, jobs) };
  } finally {
    reader.close();
  }
}

function numbersIn(reader: JournalReader<FaultRow>): readonly unknown[] {
  const streams = reader.streams();
  if (!streams.ok) return [];
  return streams.value.flatMap((job) => {
    const read = reader.readJob(job);
    const payloads = read.ok ? read.value.events.map(({ event }) => event.payload) : [];
    return payloads.map(({ n, text }) => n ?? text).filter((number) => number !== undefined);
  });
}

function problemsOf(reader: JournalReader<FaultRow>, jobs: readonly string[]): readonly string[] {
  const verified = reader.verify();
  if (!verified.ok) return [`cannot be verified: ${JSON.stringify(verified.error)}`];
  const { findings, damage } = verified.value;
  const rows = reader.listJobs();
  const streams = reader.streams();
  const listed = new Set(rows.ok ? rows.value.map((row) => row.job) : []);
  const begun = streams.ok ? jobs.filter((job) => streams.value.includes(job)) : jobs;
  return [
    ...findings.map((finding) => `chain: ${JSON.stringify(finding)}`),
    ...damage.map((line) => `damage: ${line}`),
    ...begun.filter((job) => !listed.has(job)).map((job) => `the job list has no row for ${job}`),
  ];
}
