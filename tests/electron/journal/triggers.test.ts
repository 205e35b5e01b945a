/** The triggers stop mistakes of our own code: each is tried with the very statement it is there for. */

import { join } from 'node:path';
import Database from 'better-sqlite3';
import { beforeEach, describe, expect, onTestFinished, test } from 'vitest';
import { openForWriting } from '../../../electron/service/journal/connection.ts';
import { STORE_FILE } from '../../../electron/service/journal/index.ts';
import { append, fact, freshFolder, id, must, openedJob, openedJournal } from './shopFolder.ts';

let db: Database.Database;
let folder: string;

beforeEach(() => {
  folder = freshFolder();
  const journal = openedJournal(folder);
  const job = openedJob(journal, 2);
  append(journal, job, [fact({ name: { personal: 'Ada Buoy' } })]);
  journal.close();
  db = openForWriting(join(folder, STORE_FILE), 100);
  onTestFinished(() => {
    db.close();
  });
});

const attempts: readonly (readonly [string, string, string])[] = [
  ['an update', `UPDATE event SET text = replace(text, '1', '2')`, 'never changed'],
  ['an update of one row', `UPDATE event SET text = '{}' WHERE id = 1`, 'never changed'],
  ['an update that replaces', `UPDATE OR REPLACE event SET id = 1 WHERE id = 2`, 'never changed'],
  ['a delete', 'DELETE FROM event', 'never deleted'],
  ['a delete of the last', 'DELETE FROM event WHERE id = (SELECT max(id) FROM event)', 'never deleted'],
  [
    'a replacement',
    `INSERT OR REPLACE INTO event (id, text) SELECT id, text FROM event WHERE id = 2`,
    'exists|must follow|has been recorded',
  ],
  [
    'a replacement in words',
    `REPLACE INTO event (id, text) SELECT id, json_set(text, '$.v', 2) FROM event WHERE id = 2`,
    'exists|must follow|has been recorded',
  ],
  [
    'an upsert',
    `INSERT INTO event (id, text) SELECT id, text FROM event WHERE id = 2
       ON CONFLICT DO UPDATE SET text = excluded.text`,
    'exists|must follow|has been recorded',
  ],
  ['a command taken back', 'DELETE FROM command', 'never deleted'],
  ['a command changed', 'UPDATE command SET entries = entries + 1', 'never changed'],
  [
    'a command replaced',
    'INSERT OR REPLACE INTO command SELECT commandId, job, entries + 1 FROM command LIMIT 1',
    'has been recorded',
  ],
  ['another identity', `UPDATE store SET id = 'other'`, 'keeps its identity'],
  ['no identity', 'DELETE FROM store', 'keeps its identity'],
  ['a changed personal text', `UPDATE personal SET text = 'Eve'`, 'never changed'],
  [
    'a replaced personal text',
    `INSERT OR REPLACE INTO personal SELECT id, job, salt, 'Eve' FROM personal`,
    'exists',
  ],
];

describe('refused', () => {
  test.each(attempts)('%s', (_name, sql, message) => {
    const rows = () => JSON.stringify(db.prepare('SELECT * FROM event, command, personal, store').all());
    const before = rows();
    expect(() => db.exec(sql)).toThrow(new RegExp(message));
    expect(rows()).toBe(before);
  });

  test('an event that leaves a gap, in the store or in its job', () => {
    const insert = db.prepare(
      `INSERT INTO event (id, text)
       SELECT @id, json_set(text, '$.storeSeq', @id, '$.seq', @seq, '$.commandId', 'c') FROM event WHERE id = 4`,
    );
    db.exec(`INSERT INTO command VALUES ('c', 'j', 5)`);
    expect(() => insert.run({ id: 6, seq: 5 })).toThrow(/must follow/);
    expect(() => insert.run({ id: 5, seq: 6 })).toThrow(/must follow/);
    expect(insert.run({ id: 5, seq: 5 }).changes).toBe(1);
  });

  test('an event without a command, and one more than its command had', () => {
    const next = `INSERT INTO event (id, text)
      SELECT id + 1, json_set(text, '$.storeSeq', id + 1, '$.seq', 5, '$.commandId', 'c') FROM event WHERE id = 4`;
    expect(() => db.exec(next)).toThrow(/FOREIGN KEY/);
    const more = next.replace(`, '$.commandId', 'c'`, '');
    expect(() => db.exec(more)).toThrow(/has been recorded/);
  });

  test('a text that is no JSON, or whose number is not its place', () => {
    expect(() => db.exec(`INSERT INTO event (id, text) VALUES (5, 'x')`)).toThrow();
    const misplaced = `INSERT INTO event (id, text) SELECT 5, text FROM event WHERE id = 4`;
    expect(() => db.exec(misplaced)).toThrow();
  });
});

describe('the settings that the triggers need', () => {
  test('without recursive triggers a replacement would slip past the delete trigger', () => {
    const bare = new Database(join(folder, STORE_FILE));
    onTestFinished(() => {
      bare.close();
    });
    bare.pragma('recursive_triggers = OFF');
    bare.exec(
      'DROP TRIGGER event_no_existing_key; DROP TRIGGER event_no_gap; DROP TRIGGER event_command_complete',
    );
    const replace = `INSERT OR REPLACE INTO event (id, text) SELECT id, text FROM event WHERE id = 4`;
    expect(bare.prepare(replace).run().changes).toBe(1);
    bare.pragma('recursive_triggers = ON');
    expect(() => bare.exec(replace)).toThrow(/never deleted/);
  });

  test('every commit is flushed, and erased text is overwritten', () => {
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(db.pragma('synchronous', { simple: true })).toBe(2);
    expect(db.pragma('recursive_triggers', { simple: true })).toBe(1);
    expect(db.pragma('foreign_keys', { simple: true })).toBe(1);
    expect(db.pragma('secure_delete', { simple: true })).toBe(1);
  });

  test('columns are made from the text: nothing else can be said of an event', () => {
    const job = id();
    const journal = openedJournal();
    append(journal, job, [fact({ a: 1 })]);
    expect(must(journal.streams())).toEqual([job]);
    expect(() =>
      db.exec(`INSERT INTO event (id, text, job) SELECT 5, text, 'x' FROM event WHERE id = 4`),
    ).toThrow(/generated column/);
  });
});
