/**
 * Raises a store to the present format. All steps run in one transaction together with the version number, after a copy
 * of the old store has been made, read back and compared. Either the new format is there whole, or the old one is.
 */
import { mkdirSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type Database from 'better-sqlite3';
import type { JournalError } from '../../../core/job/journalError.ts';
import { err, invariant, ok, type Result } from '../../../core/result.ts';
import { openForReading, versionOf } from './connection.ts';
import { flush } from './flush.ts';
import { APPLICATION_ID, type Birth, type MigrationStep } from './format.ts';

/** What was done: the versions before and after, and the copy made when a store was changed. */
export type Migration = { readonly from: number; readonly to: number; readonly copy?: string };

/** The newest version that these steps lead to. Steps out of order are a bug and throw. */
export function newestVersion(steps: readonly MigrationStep[]): number {
  let last = 0;
  for (const { version } of steps) {
    invariant(version % 10 === 0 && version > last, `step ${version} after ${last} does not rise by tens`);
    last = version;
  }
  return last;
}

/**
 * Runs the steps that the store at `path` lacks. `db` is a writing connection. Fails with `journal/newer` without a
 * change when the file is of a later edition, and with `journal/copyFailed` when the copy does not verify.
 */
export function migrate(
  db: Database.Database,
  path: string,
  steps: readonly MigrationStep[],
  birth: Birth,
  busyMs: number,
): Result<Migration, JournalError> {
  const known = newestVersion(steps);
  if (versionOf(db) === known) return ok({ from: known, to: known });
  const run = db.transaction((): Result<Migration, JournalError> => {
    const from = versionOf(db);
    if (from > known) return err({ code: 'journal/newer', details: { path, found: from, known } });
    const copied = from === 0 ? ok(undefined) : copyOf(path, from, birth.utcMs, busyMs);
    if (!copied.ok) return copied;
    for (const step of steps.filter((each) => each.version > from)) {
      step.run(db, birth);
      db.pragma(`user_version = ${step.version}`);
    }
    db.pragma(`application_id = ${APPLICATION_ID}`);
    const done = { from, to: known };
    return ok(copied.value === undefined ? done : { ...done, copy: copied.value });
  });
  const migrated = run.immediate();
  // From here on the main file alone says whose it is, also when its log is lost.
  if (migrated.ok) db.pragma('wal_checkpoint(TRUNCATE)');
  return migrated;
}

/**
 * Copies the committed state through a second connection while the caller holds the write lock, so that nothing can
 * come between copy and change.
 */
function copyOf(path: string, from: number, utcMs: number, busyMs: number): Result<string, JournalError> {
  const folder = join(dirname(path), 'before-upgrade');
  const copy = join(folder, `format-${from}-${utcMs}.db`);
  mkdirSync(folder, { recursive: true });
  rmSync(copy, { force: true });
  const source = openForReading(path, busyMs);
  try {
    source.pragma('query_only = OFF');
    source.prepare('VACUUM INTO ?').run(copy);
    flush(copy);
    flush(folder);
    flush(dirname(folder));
    const problem = firstDifference(source, copy, busyMs);
    return problem === undefined
      ? ok(copy)
      : err({ code: 'journal/copyFailed', details: { path: copy, problem } });
  } finally {
    source.close();
  }
}

/** Compares every row of every table of a copy with its source; undefined when they are equal. */
export function firstDifference(
  source: Database.Database,
  copyPath: string,
  busyMs: number,
): string | undefined {
  const copy = openForReading(copyPath, busyMs);
  try {
    const damage = copy.pragma('integrity_check(1)', { simple: true });
    if (damage !== 'ok') return String(damage);
    if (versionOf(copy) !== versionOf(source)) return 'another version';
    const objects = 'SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY type, name';
    const ours = source.prepare(objects).all();
    if (JSON.stringify(ours) !== JSON.stringify(copy.prepare(objects).all())) return 'another set of tables';
    const other = tablesOf(source).find((name) => !sameRows(source, copy, name));
    return other === undefined ? undefined : `other rows in ${other}`;
  } finally {
    copy.close();
  }
}

function tablesOf(db: Database.Database): readonly string[] {
  return db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
    .pluck()
    .all();
}

function sameRows(source: Database.Database, copy: Database.Database, table: string): boolean {
  const rows = `SELECT * FROM "${table.replaceAll('"', '""')}"`;
  const theirs = copy.prepare(rows).raw().iterate();
  try {
    for (const ours of source.prepare(rows).raw().iterate()) {
      const other = theirs.next();
      if (other.done === true || JSON.stringify(ours) !== JSON.stringify(other.value)) return false;
    }
    return theirs.next().done === true;
  } finally {
    theirs.return?.();
  }
}
