/** The files of a store: where they are, whether they are ours and of which format, and how to copy all three together. */
import { copyFileSync, existsSync, mkdirSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { JournalError } from '../../../core/job/journalError.ts';
import { err, ok, type Result } from '../../../core/result.ts';
import { openForReading, versionOf } from './connection.ts';
import { flush } from './flush.ts';
import { APPLICATION_ID } from './format.ts';

/** The database's name inside the store's folder. */
export const STORE_FILE = 'datumline.db';

/** What a database and its log consist of. The log may hold everything: a copy without it can be empty. */
const SUFFIXES = ['', '-wal', '-shm', '-journal'] as const;

/** What lies at a path, found without writing to it. */
export type StoreFile = { readonly kind: 'none' } | { readonly kind: 'ours'; readonly version: number };

/**
 * Looks at the file without changing it. Fails with `journal/corrupt` when it is no database or not ours, and with
 * `journal/missing` when its log is there and it is not.
 */
export function inspect(path: string, busyMs: number): Result<StoreFile, JournalError> {
  if (!existsSync(path)) {
    const orphan = existsSync(`${path}-wal`) && statSync(`${path}-wal`).size > 0;
    return orphan ? err({ code: 'journal/missing', details: { path } }) : ok({ kind: 'none' });
  }
  if (statSync(path).size === 0) return ok({ kind: 'none' });
  const db = openForReading(path, busyMs);
  try {
    const application = db.pragma('application_id', { simple: true });
    const objects = db.prepare('SELECT count(*) FROM sqlite_schema').pluck().get();
    if (application === APPLICATION_ID) return ok({ kind: 'ours', version: versionOf(db) });
    if (application === 0 && objects === 0) return ok({ kind: 'none' });
    return err({
      code: 'journal/corrupt',
      details: { path, problem: 'this database was made by another program' },
    });
  } finally {
    db.close();
  }
}

/** Makes the folder, and asks the disk to keep its name. */
export function makeFolder(folder: string): void {
  if (existsSync(folder)) return;
  mkdirSync(folder, { recursive: true });
  flush(dirname(folder));
}

/**
 * Copies database, log and index together into another folder and returns the copy's path. A reader is held open on a
 * healthy database meanwhile, so that its log cannot start anew under the copy.
 */
export function copyStore(path: string, into: string, busyMs: number): string {
  mkdirSync(into, { recursive: true });
  const release = holdLog(path, busyMs);
  try {
    for (const suffix of SUFFIXES) {
      if (existsSync(path + suffix)) copyFileSync(path + suffix, join(into, basename(path) + suffix));
    }
    return join(into, basename(path));
  } finally {
    release();
  }
}

function holdLog(path: string, busyMs: number): () => void {
  try {
    const db = openForReading(path, busyMs);
    try {
      db.exec('BEGIN');
      db.prepare('SELECT count(*) FROM sqlite_schema').get();
      return () => db.close();
    } catch {
      db.close();
    }
  } catch {
    // A damaged file cannot be held; nobody writes to it either.
  }
  return () => undefined;
}
