import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, onTestFinished, test } from 'vitest';
import { openReader, STORE_FILE } from '../../../electron/service/journal/index.ts';
import {
  append,
  fact,
  freshFolder,
  must,
  openedJob,
  openedJournal,
  options,
  reading,
  request,
} from './shopFolder.ts';

/** How often the projection was asked, and for how many events in all. */
function counting() {
  const asked = { times: 0, events: 0 };
  const projection: typeof options.projection = {
    ...options.projection,
    rowOf(events) {
      asked.times += 1;
      asked.events += events.length;
      return options.projection.rowOf(events);
    },
  };
  return { asked, projection };
}

function editTable(folder: string, sql: string): void {
  const db = new Database(join(folder, STORE_FILE));
  db.exec(sql);
  db.close();
}

describe('the job list', () => {
  test('has a row for each job, last changed first, and none for other streams', () => {
    const journal = openedJournal();
    const a = openedJob(journal, 1, 'A');
    const b = openedJob(journal, 1, 'B');
    append(journal, 'shop', [fact({ name: 'Harbour' }, 'shopRecorded')]);
    append(journal, a, [reading(9)]);
    expect(must(journal.listJobs())).toEqual([
      { job: a, plate: 'A', entries: 3 },
      { job: b, plate: 'B', entries: 2 },
    ]);
    expect(must(journal.streams())).toEqual([a, b, 'shop']);
  });

  test('made step by step equals the list made anew', () => {
    const journal = openedJournal();
    const jobs = Array.from({ length: 12 }, (_, n) => openedJob(journal, n % 3, `P${n}`));
    for (const job of jobs.toReversed()) append(journal, job, [reading(1), fact()]);
    const stepwise = must(journal.listJobs());
    expect(must(journal.rebuildProjections())).toBe(12);
    expect(must(journal.listJobs())).toEqual(stepwise);
    expect(stepwise).toHaveLength(12);
  });

  test('costs recording nothing, and looking at it once per job that has moved on', () => {
    const { asked, projection } = counting();
    const journal = openedJournal(freshFolder(), { projection });
    const a = openedJob(journal, 5, 'A');
    const b = openedJob(journal, 2, 'B');
    expect(asked.times).toBe(0);
    must(journal.listJobs());
    expect(asked).toEqual({ times: 2, events: 6 + 3 });
    append(journal, a, [reading(7)]);
    append(journal, a, [reading(8)]);
    expect(must(journal.jobRow(a))).toEqual({ job: a, plate: 'A', entries: 8 });
    expect(must(journal.jobRow(b))).toEqual({ job: b, plate: 'B', entries: 3 });
    expect(asked).toEqual({ times: 3, events: 9 + 8 });
  });

  test('is right also when another program appended in between', () => {
    const folder = freshFolder();
    const [one, two] = [openedJournal(folder), openedJournal(folder)];
    const job = openedJob(one, 1);
    append(two, job, [reading(2)]);
    append(one, job, [reading(3)]);
    expect(must(one.listJobs())).toEqual([{ job, plate: 'HB-DL 1', entries: 4 }]);
    expect(must(two.listJobs())).toEqual(must(one.listJobs()));
  });

  test('does not keep what a failed command would have changed', () => {
    const journal = openedJournal();
    const job = openedJob(journal, 1);
    expect(journal.append(request(job, [reading(1), fact({ bad: 1 })])).ok).toBe(false);
    append(journal, job, [reading(2)]);
    expect(must(journal.listJobs())).toEqual([{ job, plate: 'HB-DL 1', entries: 3 }]);
  });
});

describe('a list that was not made from this record', () => {
  test.each([
    ['emptied', 'DELETE FROM job_row; DELETE FROM projection'],
    ['of another head', 'UPDATE projection SET storeSeq = storeSeq - 1'],
    ['of another digest', `UPDATE projection SET hash = 'x'`],
    ['of another edition', 'UPDATE projection SET edition = 0'],
  ])('%s, is made anew on opening, and computed by a reader', (_name, sql) => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    openedJob(journal, 2, 'A');
    openedJob(journal, 1, 'B');
    const right = must(journal.listJobs());
    journal.close();
    editTable(folder, `UPDATE job_row SET row = '{"job":"x","plate":"wrong","entries":0}'; ${sql}`);
    const reader = must(openReader(folder, options));
    onTestFinished(() => reader.close());
    expect(must(reader.listJobs())).toEqual(right);
    expect(must(openedJournal(folder).listJobs())).toEqual(right);
  });

  test('is made anew at the next look when it went wrong while open', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const job = openedJob(journal, 2, 'A');
    must(journal.listJobs());
    editTable(folder, `UPDATE job_row SET row = '{}'; UPDATE projection SET hash = 'x'`);
    append(journal, job, [reading(1)]);
    expect(must(journal.listJobs())).toEqual([{ job, plate: 'A', entries: 4 }]);
  });

  test('of an older edition of the code is made anew by the newer', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    openedJob(journal, 2, 'A');
    journal.close();
    const projection = {
      ...options.projection,
      edition: 2,
      rowOf: () => ({ job: 'j', plate: 'second edition', entries: 0 }),
    };
    expect(must(openedJournal(folder, { projection }).listJobs())).toEqual([
      { job: 'j', plate: 'second edition', entries: 0 },
    ]);
  });

  test('carries the hash of the last event each row came from', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const job = openedJob(journal, 2, 'A');
    const last = must(journal.readJob(job)).head;
    must(journal.listJobs());
    const db = new Database(join(folder, STORE_FILE), { readonly: true });
    onTestFinished(() => {
      db.close();
    });
    expect(db.prepare('SELECT seq, hash FROM job_row').get()).toEqual(last);
  });
});
