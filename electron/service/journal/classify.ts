/**
 * Where trouble with the disk and the database file is met and sorted. What is listed here becomes a `JournalError`;
 * everything else is a bug of ours and goes on as an exception.
 */
import { accessSync, constants, existsSync, statfsSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import type { JournalError } from '../../../core/job/journalError.ts';
import { err, ok, type Result } from '../../../core/result.ts';

/** Below this a failed write is put down to the disk being full, whatever the system call said. */
const NO_ROOM_BYTES = 1_048_576;

/** Runs `work` on the store at `path`; trouble with the outside world comes back as an error. */
export function guarded<T>(path: string, waitedMs: number, work: () => T): Result<T, JournalError> {
  try {
    return ok(work());
  } catch (thrown) {
    const error = classify(thrown, path, waitedMs);
    if (error === undefined) throw thrown;
    return err(error);
  }
}

/** The error that a thrown thing stands for, or undefined when it is none of the outside world's. */
export function classify(thrown: unknown, path: string, waitedMs: number): JournalError | undefined {
  if (thrown instanceof Database.SqliteError) return classifySqlite(thrown, path, waitedMs);
  if (thrown instanceof Error && 'syscall' in thrown && 'code' in thrown) {
    return classifySystem(String(thrown.code), thrown.message, path);
  }
  return undefined;
}

function classifySqlite(
  thrown: { readonly code: string; readonly message: string },
  path: string,
  waitedMs: number,
): JournalError | undefined {
  const is = (...kinds: readonly string[]) =>
    kinds.some((kind) => thrown.code === kind || thrown.code.startsWith(`${kind}_`));
  if (is('SQLITE_BUSY', 'SQLITE_LOCKED')) return { code: 'journal/busy', details: { waitedMs } };
  if (is('SQLITE_FULL')) return { code: 'journal/full', details: { path, freeBytes: freeBytes(path) } };
  if (is('SQLITE_CORRUPT', 'SQLITE_NOTADB', 'SQLITE_IOERR_CORRUPTFS', 'SQLITE_IOERR_DATA')) {
    return { code: 'journal/corrupt', details: { path, problem: thrown.message } };
  }
  if (is('SQLITE_READONLY', 'SQLITE_PERM')) return { code: 'journal/readOnly', details: { path } };
  if (is('SQLITE_CANTOPEN', 'SQLITE_IOERR', 'SQLITE_NOLFS')) {
    return whyNotReached(path, `${thrown.code}: ${thrown.message}`);
  }
  return undefined;
}

function classifySystem(code: string, message: string, path: string): JournalError {
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return { code: 'journal/full', details: { path, freeBytes: freeBytes(path) } };
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return { code: 'journal/readOnly', details: { path } };
    case 'ENOENT':
      return { code: 'journal/missing', details: { path } };
    default:
      return { code: 'journal/io', details: { path, problem: message } };
  }
}

/** The database says only that a file could not be opened or written: look at disk and folder for the reason. */
function whyNotReached(path: string, problem: string): JournalError {
  const folder = dirname(path);
  if (!existsSync(folder)) return { code: 'journal/missing', details: { path } };
  if (!writable(folder) || (existsSync(path) && !writable(path))) {
    return { code: 'journal/readOnly', details: { path } };
  }
  const free = freeBytes(path);
  if (free < NO_ROOM_BYTES) return { code: 'journal/full', details: { path, freeBytes: free } };
  return { code: 'journal/io', details: { path, problem } };
}

function writable(path: string): boolean {
  try {
    accessSync(path, constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

function freeBytes(path: string): number {
  try {
    const { bavail, bsize } = statfsSync(dirname(path));
    return bavail * bsize;
  } catch {
    return Number.MAX_SAFE_INTEGER;
  }
}
