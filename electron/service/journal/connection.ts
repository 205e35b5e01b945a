/**
 * Database connections with the settings that durability rests on: write-ahead log, every commit flushed to the disk
 * before it is answered, triggers that also see replacements.
 */
import Database from 'better-sqlite3';
import { invariant } from '../../../core/result.ts';

/**
 * `full`: a commit is on the disk when it returns. `notDurable` never flushes and exists for one purpose: to show that
 * the power-loss test notices the difference.
 */
export type Durability = 'full' | 'notDurable';

/** A connection that may write. */
export function openForWriting(
  path: string,
  busyMs: number,
  durability: Durability = 'full',
): Database.Database {
  const db = new Database(path, { timeout: busyMs });
  try {
    const mode = db.pragma('journal_mode = WAL', { simple: true });
    if (mode !== 'wal') throw new Database.SqliteError('no write-ahead log on this disk', 'SQLITE_IOERR');
    db.pragma(`synchronous = ${durability === 'full' ? 'FULL' : 'OFF'}`);
    db.pragma('fullfsync = ON');
    db.pragma('checkpoint_fullfsync = ON');
    settings(db);
    db.pragma('recursive_triggers = ON');
    db.pragma('secure_delete = ON');
    invariant(db.pragma('recursive_triggers', { simple: true }) === 1, 'replacements reach the triggers');
    return db;
  } catch (thrown) {
    db.close();
    throw thrown;
  }
}

/** A connection that cannot write; the file must exist. */
export function openForReading(path: string, busyMs: number): Database.Database {
  const db = new Database(path, { timeout: busyMs, readonly: true, fileMustExist: true });
  try {
    settings(db);
    db.pragma('query_only = ON');
    return db;
  } catch (thrown) {
    db.close();
    throw thrown;
  }
}

/** The version of the format a store is in; 0 for an empty file. */
export function versionOf(db: Database.Database): number {
  return Number(db.pragma('user_version', { simple: true }));
}

/** Kept of the file in memory, KiB: the texts of a list of a hundred thousand jobs, so that a search reads no disk. */
const CACHE_KIB = 65_536;

function settings(db: Database.Database): void {
  db.pragma(`cache_size = -${CACHE_KIB}`);
  db.pragma('foreign_keys = ON');
  db.pragma('trusted_schema = OFF');
  db.pragma('cell_size_check = ON');
  db.pragma('temp_store = MEMORY');
}
