import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, onTestFinished, test } from 'vitest';
import { openForWriting, versionOf } from '../../electron/service/journal/connection.ts';
import { openCopy, STORE_FILE } from '../../electron/service/journal/index.ts';
import { migrate } from '../../electron/service/journal/migrate.ts';
import { steps } from '../../electron/service/journal/schema.ts';
import {
  append,
  freshFolder,
  must,
  openedJob,
  openedJournal,
  options,
  reading,
} from '../electron/journal/shopFolder.ts';

/** A store as format 10 left it: the record of `folder` in the tables of that time, with a job list of its own. */
function storeOfFormat10(folder: string): string {
  const old = mkdtempSync(join(tmpdir(), 'datumline-format-10-'));
  onTestFinished(() => rmSync(old, { recursive: true, force: true }));
  const path = join(old, STORE_FILE);
  const db = openForWriting(path, 100);
  migrate(db, path, steps.slice(0, 1), { storeId: 'x', utcMs: 1, genesis: '0' }, 100);
  db.exec(`
    ATTACH '${join(folder, STORE_FILE)}' AS now;
    DROP TRIGGER store_no_delete;
    DELETE FROM store; INSERT INTO store SELECT * FROM now.store;
    INSERT INTO command SELECT * FROM now.command;
    INSERT INTO event (id, text) SELECT id, text FROM now.event ORDER BY id;
    DELETE FROM head; INSERT INTO head SELECT * FROM now.head;
    INSERT INTO job_row (job, seq, hash, updatedUtcMs, row) VALUES ('gone', 1, 'h', 5, '{"job":"gone"}');
    INSERT INTO projection SELECT 1, 1, storeSeq, hash FROM head;
    CREATE TRIGGER store_no_delete BEFORE DELETE ON store
      BEGIN SELECT RAISE (ABORT, 'a store keeps its identity'); END;
    DETACH now;
  `);
  db.close();
  return old;
}

function recordedFolder() {
  const folder = freshFolder();
  const journal = openedJournal(folder);
  const a = openedJob(journal, 2, 'QUAY 61');
  const b = openedJob(journal, 1, 'HB-DL 7');
  append(journal, a, [reading(9)]);
  const record = must(journal.readJob(a));
  journal.close();
  return { folder, a, b, record };
}

describe('format 20, the searchable job list', () => {
  test('is made from a store of format 10: the record as it was, the list anew', () => {
    const { folder, a, b, record } = recordedFolder();
    const old = storeOfFormat10(folder);
    const journal = openedJournal(old);
    expect(must(journal.readJob(a))).toEqual(record);
    expect(must(journal.verify())).toMatchObject({ findings: [], damage: [] });
    expect(must(journal.listJobs()).map((row) => row.job)).toEqual([a, b]);
    expect(must(journal.findJobs({ search: 'hbdl7', offset: 0, limit: 5 }))).toMatchObject({
      total: 1,
      rows: [{ job: b }],
    });
  });

  test('is empty until somebody looks at it', () => {
    const { folder } = recordedFolder();
    const old = storeOfFormat10(folder);
    openedJournal(old).close();
    const db = new Database(join(old, STORE_FILE), { readonly: true });
    onTestFinished(() => {
      db.close();
    });
    expect(versionOf(db)).toBe(20);
    expect(db.prepare('SELECT count(*) FROM job_row').pluck().get()).toBe(0);
  });

  test('a copy of a store of format 10 can be looked at without raising it', () => {
    const { folder, a, b } = recordedFolder();
    const old = storeOfFormat10(folder);
    const reader = must(openCopy(old, freshFolder(), options));
    onTestFinished(() => reader.close());
    expect(must(reader.listJobs()).map((row) => row.job)).toEqual([a, b]);
    expect(must(reader.findJobs({ search: 'quay', offset: 0, limit: 5 })).total).toBe(1);
  });
});
