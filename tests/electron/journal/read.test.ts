/** Changes made behind the program's back, in the file's bytes or with a database tool, are found and located. */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { eventHash } from '../../../core/job/event.ts';
import { STORE_FILE } from '../../../electron/service/journal/index.ts';
import {
  append,
  fact,
  freshFolder,
  id,
  must,
  openedJob,
  openedJournal,
  reading,
  request,
} from './shopFolder.ts';

/** Replaces bytes in the closed database file, keeping its length. */
function editFile(folder: string, from: string, to: string): void {
  const path = join(folder, STORE_FILE);
  const bytes = readFileSync(path);
  const index = bytes.indexOf(from);
  expect(index).toBeGreaterThan(0);
  expect(to).toHaveLength(from.length);
  bytes.write(to, index);
  writeFileSync(path, bytes);
}

/** Changes the store with a database tool whose user takes the triggers away first. */
function withTool(folder: string, work: (db: Database.Database) => void): void {
  const db = new Database(join(folder, STORE_FILE));
  const triggers = db
    .prepare<[], string>(`SELECT name FROM sqlite_schema WHERE type = 'trigger'`)
    .pluck()
    .all();
  for (const name of triggers) db.exec(`DROP TRIGGER ${name}`);
  work(db);
  db.close();
}

/** Two jobs by turns: the first job's readings are 1001, 1002, ... */
function twoJobs(folder: string) {
  const journal = openedJournal(folder);
  const [a, b] = [openedJob(journal, 0), openedJob(journal, 0)];
  for (let n = 1; n <= 4; n += 1) {
    append(journal, a, [reading(1000 + n)]);
    append(journal, b, [reading(2000 + n)]);
  }
  return { journal, a, b };
}

describe('a byte changed in the file', () => {
  test('is found when the job is read and located at its event; the other job is whole', () => {
    const folder = freshFolder();
    const { journal, a, b } = twoJobs(folder);
    journal.close();
    editFile(folder, '"value":1002', '"value":1902');
    const again = openedJournal(folder);
    const finding = { chain: 'job', job: a, finding: { what: 'changed', seq: 3 } };
    expect(again.readJob(a)).toEqual({
      ok: false,
      error: { code: 'journal/altered', details: { findings: [finding] } },
    });
    expect(again.readJob(b).ok).toBe(true);
    expect(must(again.verify())).toMatchObject({
      damage: [],
      findings: [{ chain: 'store', finding: { what: 'changed', seq: 5 } }, finding],
    });
    const found = must(again.readJobAsFound(a));
    expect(found.findings).toEqual([finding]);
    expect(found.texts[2]).toContain('"value":1902');
  });

  test('in the last event of a job, for which only the other job vouches', () => {
    const folder = freshFolder();
    const { journal, a } = twoJobs(folder);
    journal.close();
    editFile(folder, '"value":1004', '"value":1904');
    const again = openedJournal(folder);
    const altered = {
      error: {
        code: 'journal/altered',
        details: { findings: [{ chain: 'job', job: a, finding: { what: 'changed', seq: 5 } }] },
      },
    };
    expect(again.readJob(a)).toMatchObject(altered);
    expect(again.append(request(a, [reading(1)]))).toMatchObject(altered);
  });

  test('in the very last event, for which only the head vouches: nothing is chained onto it', () => {
    const folder = freshFolder();
    const { journal, a, b } = twoJobs(folder);
    journal.close();
    editFile(folder, '"value":2004', '"value":2904');
    const again = openedJournal(folder);
    expect(again.readJob(b)).toMatchObject({
      error: { details: { findings: [{ job: b, finding: { what: 'changed', seq: 5 } }] } },
    });
    const altered = {
      error: {
        code: 'journal/altered',
        details: { findings: [{ chain: 'store', finding: { what: 'changed', seq: 10 } }] },
      },
    };
    expect(again.append(request(a, [reading(1)]))).toMatchObject(altered);
    expect(again.append(request(id(), [fact()]))).toMatchObject(altered);
    expect(again.readJob(a).ok).toBe(true);
  });

  test('in a link between jobs is found at its event and does not put blame on its neighbour', () => {
    const folder = freshFolder();
    const { journal, a, b } = twoJobs(folder);
    const last = must(journal.readJob(a)).events.at(-1);
    journal.close();
    const named = `"prevInStore":"${last?.hash}"`;
    editFile(folder, named, named.replace(/[0-9a-f]{8}"$/, '00000000"'));
    const again = openedJournal(folder);
    expect(again.readJob(a).ok).toBe(true);
    expect(again.readJob(b)).toMatchObject({
      error: { details: { findings: [{ finding: { what: 'changed', seq: 5 } }] } },
    });
  });

  test('that leaves no JSON behind', () => {
    const folder = freshFolder();
    const { journal, a } = twoJobs(folder);
    journal.close();
    editFile(folder, '"value":1002', '"value"~1002');
    const again = openedJournal(folder);
    expect(again.readJob(a)).toMatchObject({
      error: { details: { findings: [{ finding: { what: 'unreadable', seq: 3 } }] } },
    });
    const verified = must(again.verify());
    expect(verified.damage).toEqual(['malformed JSON']);
    expect(verified.findings).toContainEqual({
      chain: 'store',
      finding: { what: 'unreadable', seq: 5, problem: 'the text is not JSON' },
    });
    expect(must(again.listJobs())).toHaveLength(2);
  });

  test.each(['seq', 'storeSeq'])("in an event's %s: the store still opens, and the place is told", (name) => {
    const folder = freshFolder();
    const { journal, a, b } = twoJobs(folder);
    journal.close();
    editFile(folder, `"${name}":4`, `"${name}":9`);
    const again = openedJournal(folder);
    const findings = must(again.verify()).findings;
    expect(findings.map((each) => ('finding' in each ? each.finding.what : each.what))).toEqual([
      'changed',
      'changed',
    ]);
    expect([again.readJob(a).ok, again.readJob(b).ok].filter((whole) => whole)).toHaveLength(1);
  });

  test('in a personal text is found by its commitment', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const job = id();
    const { personal } = append(journal, job, [fact({ name: { personal: 'Ada Buoy, Quay 4' } })]);
    journal.close();
    editFile(folder, 'Ada Buoy, Quay 4', 'Eve Buoy, Quay 4');
    const again = openedJournal(folder);
    const finding = { chain: 'personal', job, personalId: personal[0]?.id, what: 'changed' };
    expect(again.readJob(job)).toMatchObject({ error: { details: { findings: [finding] } } });
    expect(must(again.verify()).findings).toEqual([finding]);
  });
});

describe('a change made with a database tool', () => {
  test('a personal text deleted without an event that says so is missing', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const job = id();
    append(journal, job, [fact({ name: { personal: 'Ada Buoy' } })]);
    journal.close();
    withTool(folder, (db) => db.exec('DELETE FROM personal'));
    expect(openedJournal(folder).readJob(job)).toMatchObject({
      error: { details: { findings: [{ chain: 'personal', what: 'missing' }] } },
    });
  });

  test('a deleted event is a gap in both chains', () => {
    const folder = freshFolder();
    const { journal, a } = twoJobs(folder);
    journal.close();
    withTool(folder, (db) => db.exec('DELETE FROM event WHERE id = 5'));
    const again = openedJournal(folder);
    expect(must(again.verify()).findings).toEqual([
      { chain: 'store', finding: { what: 'gap', fromSeq: 5, toSeq: 5 } },
      { chain: 'job', job: a, finding: { what: 'gap', fromSeq: 3, toSeq: 3 } },
    ]);
    expect(again.readJob(a)).toMatchObject({ error: { code: 'journal/altered' } });
  });

  test('a job deleted whole is a gap in the store, although no trace of it is left', () => {
    const folder = freshFolder();
    const { journal, a, b } = twoJobs(folder);
    journal.close();
    withTool(folder, (db) => {
      db.prepare('DELETE FROM event WHERE job = ?').run(b);
      db.prepare('DELETE FROM command WHERE job = ?').run(b);
      db.prepare('DELETE FROM job_row WHERE job = ?').run(b);
    });
    const again = openedJournal(folder);
    expect(again.readJob(a).ok).toBe(true);
    expect(again.readJob(b)).toMatchObject({ error: { code: 'journal/noJob' } });
    const gaps = must(again.verify()).findings;
    expect(gaps.map(({ chain }) => chain)).toEqual(Array.from({ length: gaps.length }, () => 'store'));
    expect(gaps).toContainEqual({ chain: 'store', finding: { what: 'gap', fromSeq: 2, toSeq: 2 } });
    expect(again.append(request(a, [reading(1)]))).toMatchObject({
      error: { details: { findings: [{ finding: { what: 'gap', fromSeq: 10, toSeq: 10 } }] } },
    });
  });

  test('a whole chain written anew with a matching head agrees with itself; an anchor kept elsewhere tells', () => {
    const folder = freshFolder();
    const { journal } = twoJobs(folder);
    const anchor = must(journal.head());
    journal.close();
    withTool(folder, forgeFromFive);
    const again = openedJournal(folder);
    expect(must(again.verify()).findings).toEqual([]);
    expect(must(again.verify([anchor])).findings).toEqual([
      { chain: 'store', finding: { what: 'changed', seq: 10 } },
    ]);
  });
});

/** Changes event 5 and chains everything after it anew, as somebody would who knows the program. */
function forgeFromFive(db: Database.Database): void {
  const rows = db.prepare<[], { id: number; text: string }>('SELECT id, text FROM event ORDER BY id').all();
  const newHash = new Map<string, string>();
  for (const row of rows) {
    const before = eventHash(row.text);
    let text = row.id === 5 ? row.text.replace('"value":1002', '"value":1902') : row.text;
    for (const [from, to] of newHash) text = text.replaceAll(from, to);
    db.prepare('UPDATE event SET text = ? WHERE id = ?').run(text, row.id);
    if (text !== row.text) newHash.set(before, eventHash(text));
    db.prepare('UPDATE head SET hash = ?').run(eventHash(text));
  }
}

describe('a job that is not here', () => {
  test('is told, not an empty job', () => {
    expect(openedJournal().readJob('01a21209-0551-74e3-8ca7-000000000000')).toEqual({
      ok: false,
      error: { code: 'journal/noJob', details: { job: '01a21209-0551-74e3-8ca7-000000000000' } },
    });
  });
});
