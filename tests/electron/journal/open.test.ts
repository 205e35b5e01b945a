import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, onTestFinished, test } from 'vitest';
import { sha256Hex } from '../../../core/canonical.ts';
import { isUuidV7, uuidV7Time } from '../../../core/job/ids.ts';
import { openCopy, openJournal, openReader, STORE_FILE } from '../../../electron/service/journal/index.ts';
import {
  append,
  context,
  fact,
  freshFolder,
  id,
  must,
  openedJob,
  openedJournal,
  options,
} from './shopFolder.ts';

/** Digests of every file of a store, to show that nothing was written. */
function digests(folder: string): Readonly<Record<string, string>> {
  const files = readdirSync(folder).filter((name) => name === STORE_FILE || name === `${STORE_FILE}-wal`);
  return Object.fromEntries(files.map((name) => [name, sha256Hex(readFileSync(join(folder, name)))]));
}

/** Copies a store as a dying machine leaves it: with its log, while it is open. */
function snapshotInto(folder: string): string {
  const copy = freshFolder();
  for (const suffix of ['', '-wal']) {
    copyFileSync(join(folder, STORE_FILE + suffix), join(copy, STORE_FILE + suffix));
  }
  return copy;
}

function setVersion(folder: string, version: number): void {
  const db = new Database(join(folder, STORE_FILE));
  db.pragma(`user_version = ${version}`);
  db.close();
}

describe('a new store', () => {
  test('is made with its folder, and has an identity that stays', () => {
    const folder = join(freshFolder(), 'harbour', 'shop');
    const ctx = context();
    const journal = must(openJournal(folder, options, ctx));
    expect(isUuidV7(journal.storeId)).toBe(true);
    expect(uuidV7Time(journal.storeId)).toBe(ctx.at.utcMs);
    journal.close();
    expect(openedJournal(folder).storeId).toBe(journal.storeId);
  });

  test('says whose it is in its first bytes: magic number and format', () => {
    const folder = freshFolder();
    openedJournal(folder);
    const bytes = readFileSync(join(folder, STORE_FILE));
    expect(bytes.subarray(0, 15).toString()).toBe('SQLite format 3');
    expect(bytes.subarray(68, 72).toString()).toBe('DtLj');
    expect(bytes.readUInt32BE(60)).toBe(20);
  });

  test('whose making was interrupted is made again: an empty file holds nothing', () => {
    const folder = freshFolder();
    writeFileSync(join(folder, STORE_FILE), '');
    const journal = openedJournal(folder);
    openedJob(journal, 1);
    expect(must(journal.verify())).toMatchObject({ events: 2, findings: [], damage: [] });
  });

  test('everything recorded and drafted is there when it is opened again', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const job = openedJob(journal, 5);
    must(journal.saveDraft(job, 'vin', 'WHB', 7));
    const before = must(journal.readJob(job));
    journal.close();
    const again = openedJournal(folder);
    expect(must(again.readJob(job))).toEqual(before);
    expect(must(again.drafts(job))).toEqual([{ field: 'vin', text: 'WHB', savedAtUtcMs: 7 }]);
  });
});

describe('a file of a newer edition', () => {
  test('is refused for writing and reading, and not one byte of it is written', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    openedJob(journal, 2);
    journal.close();
    setVersion(folder, 30);
    const before = digests(folder);
    const error = {
      code: 'journal/newer',
      details: { path: join(folder, STORE_FILE), found: 30, known: 20 },
    };
    expect(openJournal(folder, options, context())).toEqual({ ok: false, error });
    expect(openReader(folder, options)).toEqual({ ok: false, error });
    expect(digests(folder)).toEqual(before);
  });

  test('is told by its log too, when the main file still shows the old format', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    openedJob(journal, 2);
    const db = new Database(join(folder, STORE_FILE));
    onTestFinished(() => {
      db.close();
    });
    db.pragma('user_version = 30');
    const copy = snapshotInto(folder);
    expect(readFileSync(join(copy, STORE_FILE)).readUInt32BE(60)).toBe(20);
    const before = digests(copy);
    expect(openJournal(copy, options, context())).toMatchObject({
      error: { code: 'journal/newer', details: { found: 30 } },
    });
    expect(digests(copy)).toEqual(before);
  });

  test('can be read on a copy of all its files', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const job = openedJob(journal, 4);
    const recorded = must(journal.readJob(job));
    const db = new Database(join(folder, STORE_FILE));
    db.pragma('user_version = 30');
    const into = join(freshFolder(), 'copy');
    const copied = must(openCopy(folder, into, options));
    onTestFinished(() => copied.close());
    expect(must(copied.readJob(job))).toEqual(recorded);
    expect(must(copied.listJobs())).toHaveLength(1);
    db.close();
  });
});

describe('a copy', () => {
  test('takes the log with it: without the log the newest entries would not be there', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const job = openedJob(journal, 4);
    const lone = freshFolder();
    copyFileSync(join(folder, STORE_FILE), join(lone, STORE_FILE));
    const without = must(openReader(lone, options));
    onTestFinished(() => without.close());
    expect(without.readJob(job)).toMatchObject({ error: { code: 'journal/noJob' } });
    const copied = must(openCopy(folder, join(freshFolder(), 'copy'), options));
    onTestFinished(() => copied.close());
    expect(must(copied.readJob(job)).events).toHaveLength(5);
  });
});

describe('a damaged file', () => {
  const spoils: readonly (readonly [string, (bytes: Buffer) => Buffer])[] = [
    ['a torn beginning', (bytes) => Buffer.concat([Buffer.alloc(100), bytes.subarray(100)])],
    ['a few bytes only', (bytes) => bytes.subarray(0, 60)],
    ['half of it', (bytes) => bytes.subarray(0, Math.floor(bytes.length / 2 / 4096) * 4096)],
    [
      'a torn page of tables',
      (bytes) => Buffer.concat([bytes.subarray(0, 100), Buffer.alloc(3996, 0x55), bytes.subarray(4096)]),
    ],
    ['something else', () => Buffer.from('Dear all, attached is the list.'.repeat(200))],
  ];

  test.each(spoils)('%s is told plainly, and not one byte of it is written', (_name, spoil) => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    for (let n = 0; n < 20; n += 1) openedJob(journal, 10);
    journal.close();
    const path = join(folder, STORE_FILE);
    writeFileSync(path, spoil(readFileSync(path)));
    const before = digests(folder);
    const opened = openJournal(folder, options, context());
    if (opened.ok) opened.value.close();
    expect(opened).toMatchObject({ ok: false, error: { code: 'journal/corrupt' } });
    expect(digests(folder)).toEqual(before);
  });

  test('under a log that a stop has left, neither file nor log is written', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    for (let n = 0; n < 40; n += 1) openedJob(journal, 10);
    journal.close();
    const after = openedJournal(folder);
    openedJob(after, 1);
    const copy = snapshotInto(folder);
    const path = join(copy, STORE_FILE);
    const bytes = readFileSync(path);
    const log = readFileSync(`${path}-wal`);
    // The published file format, section 4: a header of 32 bytes, then frames of 24 bytes and a page each.
    const logged = new Set<number>();
    for (let at = 32; at < log.length; at += 24 + 4096) logged.add(log.readUInt32BE(at));
    const pages = Array.from({ length: bytes.length / 4096 }, (_, index) => index + 1);
    const page = pages.filter((each) => each > 1 && !logged.has(each)).at(-1) ?? 0;
    bytes.fill(0xa5, (page - 1) * 4096, page * 4096);
    writeFileSync(path, bytes);
    const before = digests(copy);
    expect(Object.keys(before)).toHaveLength(2);
    expect(openJournal(copy, options, context())).toMatchObject({ error: { code: 'journal/corrupt' } });
    expect(digests(copy)).toEqual(before);
  });

  test('can be copied and looked at as far as it goes; what cannot be read is an error, not a crash', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const jobs = Array.from({ length: 30 }, () => openedJob(journal, 20));
    journal.close();
    const path = join(folder, STORE_FILE);
    const bytes = readFileSync(path);
    const page = Math.floor(bytes.length / 4096 / 2) * 4096;
    bytes.fill(0x55, page, page + 4096);
    writeFileSync(path, bytes);
    const before = digests(folder);
    expect(openJournal(folder, options, context())).toMatchObject({ error: { code: 'journal/corrupt' } });
    const copied = must(openCopy(folder, join(freshFolder(), 'copy'), options));
    onTestFinished(() => copied.close());
    const reads = jobs.map((job) => copied.readJob(job));
    expect(reads.filter((read) => read.ok).length).toBeGreaterThan(0);
    const failed = reads.flatMap((read) => (read.ok ? [] : [read.error.code]));
    expect(failed.length).toBeGreaterThan(0);
    expect(new Set([...failed, 'journal/corrupt', 'journal/altered']).size).toBe(2);
    expect(digests(folder)).toEqual(before);
  });
});

describe('what is no store of ours', () => {
  test('a database of another program is not touched', () => {
    const folder = freshFolder();
    const db = new Database(join(folder, STORE_FILE));
    db.exec('CREATE TABLE song (title TEXT)');
    db.close();
    const before = digests(folder);
    expect(openJournal(folder, options, context())).toMatchObject({ error: { code: 'journal/corrupt' } });
    expect(digests(folder)).toEqual(before);
  });

  test('a log whose database is gone is not written over', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    openedJob(journal, 2);
    const copy = snapshotInto(folder);
    rmSync(join(copy, STORE_FILE));
    const before = digests(copy);
    expect(openJournal(copy, options, context())).toMatchObject({ error: { code: 'journal/missing' } });
    expect(digests(copy)).toEqual(before);
    expect(existsSync(join(copy, STORE_FILE))).toBe(false);
  });

  test('a reader finds nothing where nothing is, and makes nothing', () => {
    const folder = freshFolder();
    expect(openReader(folder, options)).toMatchObject({ error: { code: 'journal/missing' } });
    expect(openReader(join(folder, 'none'), options)).toMatchObject({ error: { code: 'journal/missing' } });
    expect(readdirSync(folder)).toEqual([]);
  });

  test('a folder where the file should be', () => {
    const folder = freshFolder();
    mkdirSync(join(folder, STORE_FILE));
    const opened = openJournal(folder, options, context());
    expect(opened.ok).toBe(false);
  });
});

describe('a reader', () => {
  test('sees what the writer records, at once, and cannot write', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const reader = must(openReader(folder, options));
    onTestFinished(() => reader.close());
    const job = openedJob(journal, 2);
    expect(must(reader.readJob(job)).events).toHaveLength(3);
    append(journal, job, [fact()]);
    expect(must(reader.readJob(job)).events).toHaveLength(4);
    expect(must(reader.listJobs())).toEqual([{ job, plate: 'HB-DL 1', entries: 4 }]);
    expect(reader.kind).toBe('reader');
    expect('append' in reader || 'saveDraft' in reader || 'rebuildProjections' in reader).toBe(false);
  });

  test('cannot be handed over where a writer is wanted', () => {
    const folder = freshFolder();
    openedJournal(folder);
    const reader = must(openReader(folder, options));
    onTestFinished(() => reader.close());
    const wantsWriter = (journal: ReturnType<typeof openedJournal>) => journal.kind;
    // @ts-expect-error a reader is no writer
    expect(wantsWriter(reader)).toBe('reader');
  });

  test('another program that holds the lock is waited for, then told', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder, { busyMs: 50 });
    const other = new Database(join(folder, STORE_FILE));
    onTestFinished(() => {
      other.close();
    });
    other.exec('BEGIN IMMEDIATE');
    const job = id();
    expect(journal.append({ job, commandId: id(), entries: [fact()], ctx: context() })).toEqual({
      ok: false,
      error: { code: 'journal/busy', details: { waitedMs: 50 } },
    });
    expect(journal.saveDraft(job, 'vin', 'W', 1)).toMatchObject({ error: { code: 'journal/busy' } });
    other.exec('ROLLBACK');
    expect(append(journal, job, [fact()]).events).toHaveLength(1);
  });
});
