/**
 * The job list: one row a job, made from its events. It can be thrown away at any time. It says of which store head and
 * which edition of the code it was made; when either differs, it is made anew.
 */
import type Database from 'better-sqlite3';
import { canonicalJson, type JsonObject } from '../../../core/canonical.ts';
import { type EventEnvelope, eventHash, parseEvent } from '../../../core/job/event.ts';
import type { ChainLink } from '../../../core/job/eventChain.ts';
import { headOf, type Reads } from './read.ts';
import type { Projection, StoredEvent } from './types.ts';

/** How many jobs' events are kept in memory between appends: those being worked on in the bays. */
const REMEMBERED_JOBS = 8;

/** A job's events up to the one with this hash. A hash that does not fit what comes next makes it worthless. */
type Remembered = { readonly hash: string; readonly events: readonly EventEnvelope[] };

type ComputedRow<Row> = {
  readonly seq: number;
  readonly hash: string;
  readonly updatedUtcMs: number;
  readonly row: Row;
};

/** The projection over one connection. All of it runs inside the caller's transaction. */
export type Projector<Row extends JsonObject> = ReturnType<typeof prepareProjector<Row>>;

/** Prepares the projection's statements. */
export function prepareProjector<Row extends JsonObject>(
  db: Database.Database,
  reads: Reads,
  projection: Projection<Row>,
) {
  const state = db.prepare<[], { readonly edition: number; readonly seq: number; readonly hash: string }>(
    'SELECT edition, storeSeq AS seq, hash FROM projection',
  );
  const put = db.prepare<[string, number, string, number, string]>(
    `INSERT INTO job_row (job, seq, hash, updatedUtcMs, row) VALUES (?, ?, ?, ?, ?)
     ON CONFLICT (job) DO UPDATE SET seq = excluded.seq, hash = excluded.hash,
       updatedUtcMs = excluded.updatedUtcMs, row = excluded.row`,
  );
  const clear = db.prepare('DELETE FROM job_row');
  const made = db.prepare<[number, number, string]>(
    `INSERT INTO projection (one, edition, storeSeq, hash) VALUES (1, ?, ?, ?)
     ON CONFLICT (one) DO UPDATE SET edition = excluded.edition, storeSeq = excluded.storeSeq, hash = excluded.hash`,
  );
  const rows = db.prepare<[], string>('SELECT row FROM job_row ORDER BY updatedUtcMs DESC, job DESC').pluck();

  const remembered = new Map<string, Remembered>();

  /** Whether the rows were made from exactly this head by exactly this code. */
  function isCurrent(head: ChainLink): boolean {
    const from = state.get();
    return from?.edition === projection.edition && from.seq === head.seq && from.hash === head.hash;
  }

  /** Makes one job's row again after an append of `events`. */
  function follow(job: string, events: readonly StoredEvent[], before: ChainLink, after: ChainLink): void {
    if (!isCurrent(before)) {
      rebuild();
      return;
    }
    putRow(job, computedFrom(extended(job, events)));
    made.run(projection.edition, after.seq, after.hash);
  }

  /** The job's events with the new ones, without reading the old ones again when they are the ones remembered. */
  function extended(job: string, added: readonly StoredEvent[]): Remembered {
    const known = remembered.get(job);
    const hash = added.at(-1)?.hash ?? '';
    const whole =
      known !== undefined && known.hash === added[0]?.event.prevInJob
        ? { hash, events: [...known.events, ...added.map((each) => each.event)] }
        : readAll(job);
    remembered.delete(job);
    remembered.set(job, whole);
    if (remembered.size > REMEMBERED_JOBS) remembered.delete(remembered.keys().next().value ?? '');
    return whole;
  }

  /** Makes all rows again; returns how many there are. */
  function rebuild(): number {
    clear.run();
    const count = reads.streams.all().filter((job) => putRow(job, computedFrom(readAll(job)))).length;
    const head = headOf(reads);
    made.run(projection.edition, head.seq, head.hash);
    return count;
  }

  function putRow(job: string, computed: ComputedRow<Row> | undefined): boolean {
    if (computed === undefined) return false;
    const { seq, hash, updatedUtcMs, row } = computed;
    put.run(job, seq, hash, updatedUtcMs, canonicalJson(row));
    return true;
  }

  function readAll(job: string): Remembered {
    const texts = reads.jobTexts.all(job);
    return { hash: eventHash(texts.at(-1) ?? ''), events: texts.flatMap(readable) };
  }

  function computedFrom({ hash, events }: Remembered): ComputedRow<Row> | undefined {
    const last = events.at(-1);
    const row = projection.rowOf(events);
    if (last === undefined || row === undefined) return undefined;
    return { seq: last.seq, hash, updatedUtcMs: last.at.utcMs, row };
  }

  /** The list, from the table when it is current, else computed without writing. */
  function list(): readonly Row[] {
    if (isCurrent(headOf(reads))) return rows.all().map((row) => JSON.parse(row));
    return reads.streams
      .all()
      .flatMap((job) => {
        const computed = computedFrom(readAll(job));
        return computed === undefined ? [] : [{ ...computed, job }];
      })
      .sort((a, b) => b.updatedUtcMs - a.updatedUtcMs || (a.job < b.job ? 1 : -1))
      .map(({ row }) => row);
  }

  return { isCurrent, follow, rebuild, list } as const;
}

/** A damaged event is reported by `readJob` and `verify`; the list shows what can be read. */
function readable(text: string): readonly EventEnvelope[] {
  const parsed = parseEvent(text);
  return parsed.ok ? [parsed.value] : [];
}
