/**
 * The job list: one row a job, made from its events. It says of which store head and which edition of the code it was
 * made. Recording does not touch it: whoever looks at the list first brings it up to date, for the jobs that have moved on
 * since. So an entry costs no solution, and a row never shows less than the record.
 *
 * A list that was made from another record, or by another edition, is made anew.
 */
import Database from 'better-sqlite3';
import type { JsonObject } from '../../../core/canonical.ts';
import { eventHash, GENESIS } from '../../../core/job/event.ts';
import type { ChainLink } from '../../../core/job/eventChain.ts';
import { versionOf } from './connection.ts';
import { type ListedJob, type ListTables, prepareListTables } from './listTables.ts';
import { newestVersion } from './migrate.ts';
import { headOf, type Reads } from './read.ts';
import { LIST_TABLES, steps } from './schema.ts';
import type { Projection } from './types.ts';

/** The projection over one connection. All of it runs inside the caller's transaction. */
export type Projector<Row extends JsonObject> = ReturnType<typeof prepareProjector<Row>>;

/** Prepares the projection's statements. */
export function prepareProjector<Row extends JsonObject>(
  db: Database.Database,
  reads: Reads,
  projection: Projection<Row>,
) {
  // A copy of a store of another format has not our tables, or others of their names.
  const kept = versionOf(db) === newestVersion(steps) ? prepareListTables<Row>(db) : undefined;
  let beside: ListTables<Row> | undefined;

  function isCurrentIn(tables: ListTables<Row>, head: ChainLink): boolean {
    const from = tables.state();
    return from?.edition === projection.edition && from.seq === head.seq && from.hash === head.hash;
  }

  /** Whether the list was made by this edition from a beginning of this very record. */
  function isOfThisRecord(tables: ListTables<Row>): boolean {
    const from = tables.state();
    if (from === undefined || from.edition !== projection.edition) return false;
    const text = reads.textAt.get(from.seq);
    return (text === undefined ? GENESIS : eventHash(text)) === from.hash;
  }

  function putJob(tables: ListTables<Row>, job: string): boolean {
    const listed = listedJob(job);
    if (listed === undefined) return false;
    tables.put(listed);
    return true;
  }

  /** A damaged event is reported by `readJob` and `verify`; the list shows what can be read. */
  function listedJob(job: string): ListedJob<Row> | undefined {
    const texts = reads.byJob.all(job);
    const last = texts.at(-1);
    const events = texts.flatMap(({ text }) => {
      const { parsed } = reads.openText(text);
      return parsed.ok ? [parsed.value] : [];
    });
    const row = projection.rowOf(events);
    if (last === undefined || row === undefined) return undefined;
    const hash = reads.openText(last.text).hash;
    return { id: last.id, job, seq: last.seq, hash, row, listing: projection.listingOf(row) };
  }

  function rebuildIn(tables: ListTables<Row>): number {
    tables.clear();
    const count = reads.streams.all().filter((job) => putJob(tables, job)).length;
    tables.setState(projection.edition, headOf(reads));
    return count;
  }

  function catchUpIn(tables: ListTables<Row>): void {
    const head = headOf(reads);
    if (isCurrentIn(tables, head)) return;
    if (!isOfThisRecord(tables)) {
      rebuildIn(tables);
      return;
    }
    for (const job of reads.jobsSince.all(tables.state()?.seq ?? 0)) putJob(tables, job);
    tables.setState(projection.edition, head);
  }

  /** The tables to read now: those of the store, or, where they are behind and cannot be written, a list in memory. */
  function tables(): ListTables<Row> {
    if (kept !== undefined && isCurrentIn(kept, headOf(reads))) return kept;
    beside ??= listInMemory();
    catchUpIn(beside);
    return beside;
  }

  /** A list that nobody keeps, for a store that cannot be written now. It begins with what is kept, if that is worth anything. */
  function listInMemory(): ListTables<Row> {
    const memory = new Database(':memory:');
    memory.exec(LIST_TABLES);
    const fresh = prepareListTables<Row>(memory);
    if (kept !== undefined && isOfThisRecord(kept)) fresh.copyFrom(kept);
    return fresh;
  }

  return {
    isCurrent: () => kept !== undefined && isCurrentIn(kept, headOf(reads)),
    /** Brings the store's own list up to date. */
    catchUp(): void {
      if (kept !== undefined) catchUpIn(kept);
    },
    /** Makes the store's own list anew and answers how many rows it has. */
    rebuild: () => (kept === undefined ? 0 : rebuildIn(kept)),
    tables,
  } as const;
}
