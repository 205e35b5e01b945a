import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, onTestFinished, test } from 'vitest';
import type { JournalError } from '../../../core/job/journalError.ts';
import type { Result } from '../../../core/result.ts';
import { openReader, STORE_FILE } from '../../../electron/service/journal/index.ts';
import { folded, foldedText, searchTerms } from '../../../electron/service/journal/searchText.ts';
import type { Listing, RowPage } from '../../../electron/service/journal/types.ts';
import {
  append,
  freshFolder,
  must,
  openedJob,
  openedJournal,
  options,
  type Row,
  reading,
} from './shopFolder.ts';

const all = { search: '', offset: 0, limit: 200 };

/** A journal whose rows are listed as `listingOf` says. */
function journalListing(listingOf: (row: Row) => Listing, folder = freshFolder()) {
  return openedJournal(folder, { projection: { ...options.projection, listingOf } });
}

function plates(found: Result<RowPage<Row>, JournalError>): readonly string[] {
  return must(found).rows.map((row) => row.plate);
}

describe('folding', () => {
  test.each([
    ['hh-ab 123', 'HHAB123'],
    ['  ', ''],
    ['Škoda é', 'SKODAE'],
    ['ß', 'SS'],
    ['КАТЕР 5', 'КАТЕР5'],
    ['"; DROP|TABLE', 'DROPTABLE'],
  ])('%s is %s', (text, wanted) => {
    expect(folded(text)).toBe(wanted);
  });

  test('keeps parts apart, so that no word is found across two', () => {
    expect(foldedText(['HB 1', '', '2-2026'])).toBe('HB1|22026');
  });

  test('a search is one piece, and its words', () => {
    expect(searchTerms(' hb 12  hb ')).toEqual({ whole: ['HB12HB'], words: ['HB', '12'] });
    expect(searchTerms(' - ')).toEqual({ whole: [], words: [] });
  });
});

describe('searching the job list', () => {
  test.each([
    ['hb', ['HB-DL 77', 'HB 1204']],
    ['B', ['HB-DL 77', 'HB 1204']],
    ['hb1204', ['HB 1204']],
    ['hb-12 04', ['HB 1204']],
    ['DL 7', ['HB-DL 77']],
    ['77 hb', ['HB-DL 77']],
    ['UAY', ['QUAY 6']],
    ['', ['HB-DL 77', 'QUAY 6', 'HB 1204']],
    ['1 2 0 4 quay', []],
    ['XYZ', []],
    ['%', ['HB-DL 77', 'QUAY 6', 'HB 1204']],
    ['"HB', ['HB-DL 77', 'HB 1204']],
    ['HB OR QUAY', []],
    ['NEAR(HB)', []],
  ])('for %j finds %j, last changed first', (search, wanted) => {
    const journal = openedJournal();
    for (const plate of ['HB 1204', 'QUAY 6', 'HB-DL 77']) openedJob(journal, 1, plate);
    expect(plates(journal.findJobs({ ...all, search }))).toEqual(wanted);
    expect(must(journal.findJobs({ ...all, search })).total).toBe(wanted.length);
  });

  test('an entry moves its job to the top, and its new text replaces the old one', () => {
    const journal = journalListing((row) => ({
      waitsFor: '',
      search: [row.plate, `entries ${row.entries}`],
      certificates: [],
    }));
    const a = openedJob(journal, 1, 'A');
    openedJob(journal, 1, 'B');
    expect(plates(journal.findJobs({ ...all, search: 'entries 2' }))).toEqual(['B', 'A']);
    append(journal, a, [reading(2)]);
    expect(plates(journal.findJobs(all))).toEqual(['A', 'B']);
    expect(plates(journal.findJobs({ ...all, search: 'entries 2' }))).toEqual(['B']);
    expect(plates(journal.findJobs({ ...all, search: 'entries 3' }))).toEqual(['A']);
  });

  test('a clock that was put back does not disturb the order', () => {
    const journal = openedJournal();
    const a = openedJob(journal, 1, 'A');
    openedJob(journal, 1, 'B');
    const at = { utcMs: 5, offsetMin: 0, zone: 'Etc/UTC', monoMs: 0 };
    const past = { person: 'p1', device: 'd', app: 'a', random: () => new Uint8Array(32) };
    append(journal, a, [reading(1)], { ctx: { at, ...past } });
    expect(plates(journal.findJobs(all))).toEqual(['A', 'B']);
  });

  test('comes in pages that join without a gap, each with the whole count', () => {
    const journal = openedJournal();
    for (let n = 0; n < 7; n += 1) openedJob(journal, 0, `HB ${n}`);
    const page = (offset: number) => journal.findJobs({ search: 'hb', offset, limit: 3 });
    expect([0, 3, 6, 9].map((offset) => plates(page(offset)).length)).toEqual([3, 3, 1, 0]);
    expect([0, 3, 6].flatMap((offset) => plates(page(offset)))).toEqual(
      [6, 5, 4, 3, 2, 1, 0].map((n) => `HB ${n}`),
    );
    expect(must(page(9)).total).toBe(7);
  });

  test('can be narrowed to what jobs wait for, alone and with a text; and counts every state', () => {
    const journal = openedJournal();
    openedJob(journal, 1, 'HB 1');
    openedJob(journal, 5, 'HB 2');
    openedJob(journal, 5, 'QUAY 3');
    expect(plates(journal.findJobs({ ...all, waitsFor: ['office'] }))).toEqual(['QUAY 3', 'HB 2']);
    expect(plates(journal.findJobs({ ...all, search: 'hb', waitsFor: ['office'] }))).toEqual(['HB 2']);
    expect(plates(journal.findJobs({ ...all, search: 'h', waitsFor: ['bay', 'office'] }))).toEqual([
      'HB 2',
      'HB 1',
    ]);
    expect(plates(journal.findJobs({ ...all, waitsFor: ['nobody'] }))).toEqual([]);
    expect(must(journal.waiting())).toEqual([
      { waitsFor: 'bay', jobs: 1 },
      { waitsFor: 'office', jobs: 2 },
    ]);
  });
});

describe('the numbers of certificates', () => {
  const sealed = (row: Row): Listing => ({
    waitsFor: '',
    search: [row.plate],
    certificates: [
      { number: row.plate, edition: 1, issued: row.entries > 2 },
      ...(row.entries > 3 ? [{ number: row.plate, edition: 2, issued: true }] : []),
    ],
  });

  test('count up by their greatest counter, beyond four digits too, each beginning for itself', () => {
    const journal = journalListing(sealed);
    for (const plate of ['Q-1-2026-0009', 'Q-1-2026-10002', 'Q-2-2026-0004', 'Q-1-2025-0077'])
      openedJob(journal, 0, plate);
    const counters = ['Q-1-2026-', 'Q-2-2026-', 'Q-1-2025-', 'Q-1-2024-'].map((start) =>
      must(journal.lastCounter(start)),
    );
    expect(counters).toEqual([10002, 4, 77, 0]);
  });

  test('lead to their jobs, and tell which are sealed and not issued', () => {
    const journal = journalListing(sealed);
    const a = openedJob(journal, 1, 'N1');
    const b = openedJob(journal, 3, 'N2');
    expect(must(journal.rowsOfNumber('N2')).map((row) => row.job)).toEqual([b]);
    expect(must(journal.rowsOfNumber('N3'))).toEqual([]);
    expect(must(journal.unissuedJobs())).toEqual([a]);
    append(journal, a, [reading(2)]);
    expect(must(journal.unissuedJobs())).toEqual([]);
  });

  test('events are counted by type', () => {
    const journal = openedJournal();
    openedJob(journal, 3);
    openedJob(journal, 2);
    expect(must(journal.countOfType('jobOpened'))).toBe(2);
    expect(must(journal.countOfType('readingRecorded'))).toBe(5);
    expect(must(journal.countOfType('nothing'))).toBe(0);
  });
});

describe('a list that cannot be written', () => {
  test('is made in memory, from the kept one and what has come since, and follows the record', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    openedJob(journal, 1, 'HB 1');
    openedJob(journal, 4, 'HB 2');
    must(journal.listJobs());
    const c = openedJob(journal, 1, 'HB 3');
    const asked: number[] = [];
    const rowOf: typeof options.projection.rowOf = (events) => {
      asked.push(events.length);
      return options.projection.rowOf(events);
    };
    const reader = must(openReader(folder, { projection: { ...options.projection, rowOf } }));
    onTestFinished(() => reader.close());
    expect(plates(reader.findJobs({ ...all, search: 'hb' }))).toEqual(['HB 3', 'HB 2', 'HB 1']);
    expect(asked).toEqual([2]);
    append(journal, c, [reading(3)]);
    expect(must(reader.jobRow(c))).toMatchObject({ entries: 3 });
    expect(must(reader.waiting())).toEqual(must(journal.waiting()));
    expect(asked).toEqual([2, 3]);
  });

  test('a writer that finds the store held by another program lists from memory, too', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder, { busyMs: 1 });
    openedJob(journal, 1, 'HB 1');
    const other = new Database(join(folder, STORE_FILE));
    onTestFinished(() => {
      other.close();
    });
    other.exec('BEGIN IMMEDIATE');
    expect(plates(journal.findJobs(all))).toEqual(['HB 1']);
    expect(other.prepare('SELECT count(*) FROM job_row').pluck().get()).toBe(0);
    other.exec('ROLLBACK');
    expect(plates(journal.findJobs(all))).toEqual(['HB 1']);
    expect(other.prepare('SELECT count(*) FROM job_row').pluck().get()).toBe(1);
  });
});
