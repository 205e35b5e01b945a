import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, onTestFinished, test } from 'vitest';
import { GENESIS } from '../../core/job/event.ts';
import { openForWriting, versionOf } from '../../electron/service/journal/connection.ts';
import type { Birth, MigrationStep } from '../../electron/service/journal/format.ts';
import { firstDifference, migrate, newestVersion } from '../../electron/service/journal/migrate.ts';
import { steps } from '../../electron/service/journal/schema.ts';

const birth: Birth = { storeId: 'store', utcMs: 1_795_600_000_000, genesis: GENESIS };
const addNote: MigrationStep = { version: 30, run: (db) => db.exec('CREATE TABLE note (text TEXT) STRICT') };
const addColour: MigrationStep = { version: 40, run: (db) => db.exec('ALTER TABLE note ADD colour TEXT') };
const breaks: MigrationStep = {
  version: 40,
  run(db) {
    db.exec('CREATE TABLE half (a TEXT) STRICT');
    throw new Error('a step went wrong');
  },
};

function store() {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-migrate-'));
  const path = join(folder, 'datumline.db');
  const db = openForWriting(path, 100);
  onTestFinished(() => {
    db.close();
    rmSync(folder, { recursive: true, force: true });
  });
  return { folder, path, db, run: (list: readonly MigrationStep[]) => migrate(db, path, list, birth, 100) };
}

/** Some rows in every table. */
function fill(db: Database.Database): void {
  db.exec(`
    INSERT INTO command VALUES ('c1', 'j1', 1);
    INSERT INTO event (id, text) VALUES (1, '{"job":"j1","seq":1,"storeSeq":1,"type":"t","at":{"utcMs":5},"commandId":"c1"}');
    INSERT INTO personal VALUES ('p1', 'j1', zeroblob(32), 'Ada Buoy');
    INSERT INTO draft VALUES ('j1', 'vin', 'WHB', 7);
  `);
}

function tables(db: Database.Database): readonly unknown[] {
  return db.prepare(`SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name`).pluck().all();
}

describe('the released steps', () => {
  test('rise by tens', () => {
    expect(newestVersion(steps)).toBe(20);
  });

  test('10 makes the tables, identity and head of an empty store, without a copy', () => {
    const { db, run, folder } = store();
    expect(run(steps.slice(0, 1))).toEqual({ ok: true, value: { from: 0, to: 10 } });
    expect(tables(db)).toEqual([
      'command',
      'draft',
      'event',
      'head',
      'job_row',
      'personal',
      'projection',
      'store',
    ]);
    expect(db.prepare('SELECT * FROM store').get()).toEqual({
      one: 1,
      magic: 'datumline-journal',
      id: 'store',
      createdUtcMs: birth.utcMs,
    });
    expect(db.prepare('SELECT storeSeq, hash FROM head').get()).toEqual({ storeSeq: 0, hash: GENESIS });
    expect(readdirSync(folder).filter((name) => name.startsWith('before'))).toEqual([]);
  });

  test('every table is strict: a text in a number column is refused', () => {
    const { db, run } = store();
    run(steps);
    const loose = db.prepare(`SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table'
      AND strict = 0 AND name NOT LIKE 'sqlite_%'`);
    expect(loose.all()).toEqual([]);
    expect(() => db.exec(`INSERT INTO draft VALUES ('j', 'f', 't', 'soon')`)).toThrow(/cannot store TEXT/);
  });
});

describe('steps out of order', () => {
  const step = (version: number): MigrationStep => ({ version, run: () => undefined });

  test.each([
    ['not by tens', [step(10), step(15)]],
    ['the same twice', [step(10), step(10)]],
    ['backwards', [step(20), step(10)]],
    ['from nothing', [step(0)]],
  ])('%s are a bug', (_name, list) => {
    expect(() => newestVersion(list)).toThrow(/does not rise by tens/);
  });
});

describe('the check of a copy', () => {
  test.each([
    ['a changed row', `UPDATE draft SET text = 'WHC'`, 'other rows in draft'],
    ['a row less', 'DELETE FROM personal', 'other rows in personal'],
    ['a row more', `INSERT INTO draft VALUES ('j1', 'zz', '', 1)`, 'other rows in draft'],
    ['a table less', 'DROP TABLE certificate_row', 'another set of tables'],
    ['another version', 'PRAGMA user_version = 30', 'another version'],
    ['nothing', 'SELECT 1', undefined],
  ])('sees %s', (_name, sql, difference) => {
    const { db, folder, run } = store();
    run(steps);
    fill(db);
    const copy = join(folder, 'copy.db');
    db.prepare('VACUUM INTO ?').run(copy);
    const other = new Database(copy);
    other.exec(sql);
    other.close();
    expect(firstDifference(db, copy, 100)).toBe(difference);
  });
});

describe('raising a store that holds a record', () => {
  test('runs what is lacking, once, and keeps every row', () => {
    const { db, run } = store();
    run(steps);
    fill(db);
    expect(run([...steps, addNote, addColour])).toMatchObject({ ok: true, value: { from: 20, to: 40 } });
    expect(versionOf(db)).toBe(40);
    expect(db.prepare('SELECT text FROM personal').pluck().all()).toEqual(['Ada Buoy']);
    expect(run([...steps, addNote, addColour])).toEqual({ ok: true, value: { from: 40, to: 40 } });
  });

  test('makes a copy first, equal to the old store, that can be opened by the old edition', () => {
    const { db, run } = store();
    run(steps);
    fill(db);
    const raised = run([...steps, addNote]);
    const copy = raised.ok ? (raised.value.copy ?? '') : '';
    const old = new Database(copy, { readonly: true });
    onTestFinished(() => {
      old.close();
    });
    expect(versionOf(old)).toBe(20);
    expect(old.pragma('application_id', { simple: true })).toBe(0x44744c6a);
    for (const table of ['command', 'event', 'personal', 'draft', 'store', 'head']) {
      const rows = `SELECT * FROM ${table}`;
      expect(old.prepare(rows).all()).toEqual(db.prepare(rows).all());
    }
    expect(tables(old)).not.toContain('note');
  });

  test('holds what only the log held until then', () => {
    const { db, path, run } = store();
    run(steps);
    fill(db);
    expect(readFileSync(path).includes('Ada Buoy')).toBe(false);
    const raised = run([...steps, addNote]);
    expect(raised.ok && readFileSync(raised.value.copy ?? '').includes('Ada Buoy')).toBe(true);
  });

  test('a step that fails leaves the old format whole, with version and rows', () => {
    const { db, run } = store();
    run(steps);
    fill(db);
    const before = db.serialize();
    expect(() => run([...steps, addNote, breaks])).toThrow('a step went wrong');
    expect(versionOf(db)).toBe(20);
    expect(tables(db)).not.toContain('note');
    expect(tables(db)).not.toContain('half');
    expect(db.serialize()).toEqual(before);
  });

  test('without room for the copy nothing is changed', () => {
    const { db, folder, run } = store();
    run(steps);
    fill(db);
    writeFileSync(join(folder, 'before-upgrade'), 'a file where the folder should be');
    expect(() => run([...steps, addNote])).toThrow(/EEXIST|ENOTDIR/);
    expect(versionOf(db)).toBe(20);
    expect(tables(db)).not.toContain('note');
  });

  test('two programs that raise at once do it once', () => {
    const { db, path, run } = store();
    run(steps);
    fill(db);
    const other = openForWriting(path, 100);
    onTestFinished(() => {
      other.close();
    });
    expect(migrate(other, path, [...steps, addNote], birth, 100)).toMatchObject({
      value: { from: 20, to: 30 },
    });
    expect(run([...steps, addNote])).toEqual({ ok: true, value: { from: 30, to: 30 } });
  });

  test('a newer store is refused and keeps its version', () => {
    const { db, path, run } = store();
    run([...steps, addNote]);
    expect(run(steps)).toEqual({
      ok: false,
      error: { code: 'journal/newer', details: { path, found: 30, known: 20 } },
    });
    expect(versionOf(db)).toBe(30);
  });
});
