/** The files of a store: where they are, whether they are ours and of which format, and how to copy all three together. */
import { closeSync, copyFileSync, existsSync, mkdirSync, openSync, readSync, statSync } from 'node:fs';
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
 * Where the first bytes of a database file say what it is (the published SQLite file format, sections 1.3 and 1.6).
 * `tables` is the number of entries in the page that lists the tables.
 */
const HEADER = { bytes: 108, magic: 'SQLite format 3\0', version: 60, application: 68, tables: 103 } as const;

/** A store being born is one page until its first commit. */
const ONE_PAGE = 4_096;

/**
 * Looks at the file without changing it. Fails with `journal/corrupt` when it is no database or not ours, and with
 * `journal/missing` when its log is there and it is not.
 */
export function inspect(path: string, busyMs: number): Result<StoreFile, JournalError> {
  const size = sizeOf(path);
  if (size === 0 && !existsSync(path) && hasLog(path))
    return err({ code: 'journal/missing', details: { path } });
  if (size === 0) return ok({ kind: 'none' });
  // A rollback journal exists only while a store is born: opening takes that back, and it is made again.
  if (size <= ONE_PAGE && sizeOf(`${path}-journal`) > 0) return ok({ kind: 'none' });
  // With nothing in the log the file speaks for itself, and no connection leaves files beside it.
  return hasLog(path) ? inspectThroughLog(path, busyMs) : inspectHeader(path);
}

function inspectHeader(path: string): Result<StoreFile, JournalError> {
  const header = Buffer.alloc(HEADER.bytes);
  const handle = openSync(path, 'r');
  try {
    readSync(handle, header, 0, HEADER.bytes, 0);
  } finally {
    closeSync(handle);
  }
  if (header.toString('latin1', 0, HEADER.magic.length) !== HEADER.magic) {
    return err({ code: 'journal/corrupt', details: { path, problem: 'this is no database' } });
  }
  const application = header.readUInt32BE(HEADER.application);
  if (application === APPLICATION_ID) {
    return ok({ kind: 'ours', version: header.readUInt32BE(HEADER.version) });
  }
  return application === 0 && header.readUInt16BE(HEADER.tables) === 0 ? ok({ kind: 'none' }) : notOurs(path);
}

function inspectThroughLog(path: string, busyMs: number): Result<StoreFile, JournalError> {
  const db = openForReading(path, busyMs);
  try {
    const application = db.pragma('application_id', { simple: true });
    const objects = db.prepare('SELECT count(*) FROM sqlite_schema').pluck().get();
    if (application === APPLICATION_ID) return ok({ kind: 'ours', version: versionOf(db) });
    return application === 0 && objects === 0 ? ok({ kind: 'none' }) : notOurs(path);
  } finally {
    db.close();
  }
}

/** What is said of a database that another program made. */
export function notOurs(path: string): Result<never, JournalError> {
  return err({
    code: 'journal/corrupt',
    details: { path, problem: 'this database was made by another program' },
  });
}

/** Whether a stop has left something in the log of this database. */
export function hasLog(path: string): boolean {
  return sizeOf(`${path}-wal`) > 0;
}

function sizeOf(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.size ?? 0;
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
  if (!existsSync(`${path}-wal`)) return () => undefined;
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
