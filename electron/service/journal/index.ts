/**
 * The journal: the append-only record of a shop, in one database file.
 *
 * `openJournal` gives the handle that writes, `openReader` one that only reads the same file, `openCopy` one on a copy of a
 * file that must not be touched (damaged, or of a newer edition).
 */
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import type { JsonObject } from '../../../core/canonical.ts';
import { GENESIS } from '../../../core/job/event.ts';
import { UUID_RANDOM_BYTES, uuidV7 } from '../../../core/job/ids.ts';
import type { JournalError } from '../../../core/job/journalError.ts';
import { err, ok, type Result } from '../../../core/result.ts';
import { prepareAppend } from './append.ts';
import { guarded } from './classify.ts';
import { openForReading, openForWriting, versionOf } from './connection.ts';
import { damagedPage } from './damage.ts';
import { copyStore, hasLog, inspect, makeFolder, notOurs, STORE_FILE } from './files.ts';
import type { ListTables } from './listTables.ts';
import { migrate, newestVersion } from './migrate.ts';
import { type Projector, prepareProjector } from './project.ts';
import { answerTo, headOf, personalText, prepareReads, type Reads, readJob, readJobAsFound } from './read.ts';
import { steps } from './schema.ts';
import type {
  Journal,
  JournalContext,
  JournalOptions,
  JournalReader,
  JournalReads,
  Projection,
} from './types.ts';
import { verifyAll } from './verify.ts';

export type * from './types.ts';
export { STORE_FILE };

/** How long to wait for another program's lock when nothing else is asked for. */
const BUSY_MS = 5_000;

/**
 * Opens the store in `folder` for writing, making it when there is none and raising it to the present format. `ctx` gives
 * time and randomness for the birth of a new store. A damaged or newer file is left untouched: see `openCopy`.
 */
export function openJournal<Row extends JsonObject>(
  folder: string,
  options: JournalOptions<Row>,
  ctx: Pick<JournalContext, 'at' | 'random'>,
): Result<Journal<Row>, JournalError> {
  const path = join(folder, STORE_FILE);
  const busyMs = options.busyMs ?? BUSY_MS;
  const opened = guarded(path, busyMs, (): Result<Journal<Row>, JournalError> => {
    makeFolder(folder);
    const usable = checkUsable(path, busyMs);
    if (!usable.ok) return usable;
    const db = openForWriting(path, busyMs, options.durability);
    try {
      const birth = {
        storeId: uuidV7(ctx.at.utcMs, ctx.random(UUID_RANDOM_BYTES)),
        utcMs: ctx.at.utcMs,
        genesis: GENESIS,
      };
      const damage = damagedPage(db);
      if (damage !== undefined) {
        db.close();
        return err({ code: 'journal/corrupt', details: { path, problem: damage } });
      }
      if (versionOf(db) === 0 && db.prepare('SELECT count(*) FROM sqlite_schema').pluck().get() !== 0) {
        db.close();
        return notOurs(path);
      }
      const migrated = migrate(db, path, steps, birth, busyMs);
      if (!migrated.ok) {
        db.close();
        return migrated;
      }
      const reads = identified(db, path);
      if (!reads.ok) {
        db.close();
        return reads;
      }
      return ok(writer(db, path, busyMs, reads.value, options));
    } catch (thrown) {
      db.close();
      throw thrown;
    }
  });
  return opened.ok ? opened.value : opened;
}

/** Opens the store in `folder` for reading beside a writer. It must exist and be of the present format. */
export function openReader<Row extends JsonObject>(
  folder: string,
  options: Pick<JournalOptions<Row>, 'projection' | 'busyMs'>,
): Result<JournalReader<Row>, JournalError> {
  const path = join(folder, STORE_FILE);
  const busyMs = options.busyMs ?? BUSY_MS;
  const opened = guarded(path, busyMs, (): Result<JournalReader<Row>, JournalError> => {
    const found = inspect(path, busyMs);
    if (!found.ok) return found;
    if (found.value.kind === 'none') return err({ code: 'journal/missing', details: { path } });
    const known = newestVersion(steps);
    if (found.value.version > known) {
      return err({ code: 'journal/newer', details: { path, found: found.value.version, known } });
    }
    return reader(path, busyMs, options.projection);
  });
  return opened.ok ? opened.value : opened;
}

/**
 * Copies database, log and index of the store in `folder` together into the folder `into` and opens the copy for reading:
 * the way to look into a file that is damaged or of a newer edition, without touching it.
 */
export function openCopy<Row extends JsonObject>(
  folder: string,
  into: string,
  options: Pick<JournalOptions<Row>, 'projection' | 'busyMs'>,
): Result<JournalReader<Row>, JournalError> {
  const path = join(folder, STORE_FILE);
  const busyMs = options.busyMs ?? BUSY_MS;
  const opened = guarded(path, busyMs, () =>
    reader(copyStore(path, into, busyMs), busyMs, options.projection),
  );
  return opened.ok ? opened.value : opened;
}

function checkUsable(path: string, busyMs: number): Result<undefined, JournalError> {
  const found = inspect(path, busyMs);
  if (!found.ok) return found;
  const known = newestVersion(steps);
  if (found.value.kind === 'ours' && found.value.version > known) {
    return err({ code: 'journal/newer', details: { path, found: found.value.version, known } });
  }
  const damage = found.value.kind === 'ours' ? damageUnderLog(path, busyMs) : undefined;
  return damage === undefined
    ? ok(undefined)
    : err({ code: 'journal/corrupt', details: { path, problem: damage } });
}

/**
 * A connection that may write moves a log left by a stop into the file when it closes, damaged or not. So the pages under
 * a log are examined by one that cannot write; where there is no log, the writing one has nothing to move.
 */
function damageUnderLog(path: string, busyMs: number): string | undefined {
  if (!hasLog(path)) return undefined;
  const db = openForReading(path, busyMs);
  try {
    return damagedPage(db);
  } finally {
    db.close();
  }
}

function reader<Row extends JsonObject>(
  path: string,
  busyMs: number,
  projection: Projection<Row>,
): Result<JournalReader<Row>, JournalError> {
  const db = openForReading(path, busyMs);
  try {
    const reads = identified(db, path);
    if (!reads.ok) {
      db.close();
      return reads;
    }
    const projector = prepareProjector(db, reads.value, projection);
    return ok({ kind: 'reader', ...readingMethods(db, path, busyMs, reads.value, projector) });
  } catch (thrown) {
    db.close();
    throw thrown;
  }
}

/** Statements prepared on a store of ours; a file of a format that has not our tables is told, not thrown. */
function identified(db: Database.Database, path: string): Result<Reads, JournalError> {
  const needed = ['event', 'command', 'head', 'personal', 'draft', 'store'];
  const have = new Set(db.prepare<[], string>('SELECT name FROM sqlite_schema').pluck().all());
  const missing = needed.filter((name) => !have.has(name));
  if (missing.length === 0) return ok(prepareReads(db));
  return err({
    code: 'journal/corrupt',
    details: { path, problem: `format ${versionOf(db)} without ${missing.join(', ')}` },
  });
}

function readingMethods<Row extends JsonObject>(
  db: Database.Database,
  path: string,
  busyMs: number,
  reads: Reads,
  projector: Projector<Row>,
  bringUpToDate: () => void = () => undefined,
): JournalReads<Row> {
  const storeId = reads.storeId.get() ?? '';
  /** One consistent moment, and the outside world's trouble sorted. */
  function look<T>(work: () => T): Result<T, JournalError> {
    return guarded(path, busyMs, () => db.transaction(work).deferred());
  }
  function lookInto<T>(work: () => Result<T, JournalError>): Result<T, JournalError> {
    const looked = look(work);
    return looked.ok ? looked.value : looked;
  }
  function lookUp<T>(work: (list: ListTables<Row>) => T): Result<T, JournalError> {
    bringUpToDate();
    return look(() => work(projector.tables()));
  }
  return {
    storeId,
    readJob: (job) => lookInto(() => readJob(reads, job)),
    readJobAsFound: (job) => look(() => readJobAsFound(reads, job)),
    listJobs: () => lookUp((list) => list.all()),
    findJobs: (filter) => lookUp((list) => list.find(filter)),
    jobRow: (job) => lookUp((list) => list.row(job)),
    waiting: () => lookUp((list) => list.waiting()),
    unissuedJobs: () => lookUp((list) => list.unissued()),
    rowsOfNumber: (number) => lookUp((list) => list.rowsOfNumber(number)),
    lastCounter: (start) => lookUp((list) => list.lastCounter(start)),
    countOfType: (type) => look(() => reads.countOfType.get(type) ?? 0),
    streams: () => look(() => reads.streams.all()),
    drafts: (job) => look(() => reads.drafts.all(job)),
    personal: (id) =>
      look(() => {
        const row = reads.personal.get(id);
        return row === undefined ? undefined : personalText(row);
      }),
    answerTo: (commandId) => look(() => answerTo(reads, commandId)),
    head: () => look(() => headOf(reads)),
    verify: (anchors = []) => look(() => verifyAll(db, reads, storeId, anchors)),
    close: () => db.close(),
  };
}

function writer<Row extends JsonObject>(
  db: Database.Database,
  path: string,
  busyMs: number,
  reads: Reads,
  options: JournalOptions<Row>,
): Journal<Row> {
  const projector = prepareProjector(db, reads, options.projection);
  function change<T>(work: () => T): Result<T, JournalError> {
    return guarded(path, busyMs, () => db.transaction(work).immediate());
  }
  /** Where the disk is full or another program holds the store, the list is made in memory: it can still be looked at. */
  function bringUpToDate(): void {
    const behind = guarded(path, busyMs, () => !projector.isCurrent());
    if (behind.ok && behind.value) change(() => projector.catchUp());
  }
  const methods = readingMethods(db, path, busyMs, reads, projector, bringUpToDate);
  const append = prepareAppend(db, reads, methods.storeId, options);
  const putDraft = db.prepare<[string, string, string, number]>(
    `INSERT INTO draft (job, field, text, savedAtUtcMs) VALUES (?, ?, ?, ?)
     ON CONFLICT (job, field) DO UPDATE SET text = excluded.text, savedAtUtcMs = excluded.savedAtUtcMs`,
  );
  const dropDraft = db.prepare<[string, string]>('DELETE FROM draft WHERE job = ? AND field = ?');
  return {
    ...methods,
    kind: 'writer',
    append(request) {
      const appended = change(() => append(request));
      return appended.ok ? appended.value : appended;
    },
    saveDraft: (job, field, text, utcMs) =>
      change(() => {
        putDraft.run(job, field, text, utcMs);
        return undefined;
      }),
    dropDraft: (job, field) =>
      change(() => {
        dropDraft.run(job, field);
        return undefined;
      }),
    rebuildProjections: () => change(() => projector.rebuild()),
  };
}
