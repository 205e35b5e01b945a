/**
 * The tables of the job list over one connection: one row a job, the folded text it is found by, and the numbers of its
 * certificates. All of it can be thrown away and made again from the events.
 *
 * A row's `id` is the number of its job's last event in the store. So "last changed first" is "highest first", in the
 * table and in the text index alike, and no search ever has to be sorted. A stepped clock does not disturb it.
 */
import type Database from 'better-sqlite3';
import { canonicalJson, type JsonObject } from '../../../core/canonical.ts';
import type { ChainLink } from '../../../core/job/eventChain.ts';
import { foldedText, SHORTEST_INDEXED, searchTerms } from './searchText.ts';
import type { JobFilter, Listing, RowPage, WaitingCount } from './types.ts';

/** One job's row as it is put: `id` and `hash` are those of the job's last event. */
export type ListedJob<Row extends JsonObject> = {
  readonly id: number;
  readonly job: string;
  readonly seq: number;
  readonly hash: string;
  readonly row: Row;
  readonly listing: Listing;
};

type StoredRow = {
  readonly id: number;
  readonly job: string;
  readonly seq: number;
  readonly hash: string;
  readonly waitsFor: string;
  readonly search: string;
  readonly row: string;
};
type StoredCertificate = {
  readonly number: string;
  readonly edition: number;
  readonly job: string;
  readonly issued: number;
};
type ProjectionState = ChainLink & { readonly edition: number };
/** A whole list as it is stored. */
type StoredList = {
  readonly rows: Iterable<StoredRow>;
  readonly certificates: Iterable<StoredCertificate>;
  readonly state: ProjectionState | undefined;
};

/** The list's tables, to be used inside the caller's transaction. */
export type ListTables<Row extends JsonObject> = ReturnType<typeof prepareListTables<Row>>;

/**
 * The query for the ids of the rows that fit. Texts without a wanted state are looked up in the index of pieces; with one,
 * or with a piece too short for that index, all folded texts of the states are read off an index that holds them.
 */
function idsThatFit(
  states: readonly string[],
  terms: readonly string[],
): { readonly ids: string; readonly values: readonly string[] } {
  if (states.length === 0 && terms.length > 0 && terms.every((term) => term.length >= SHORTEST_INDEXED)) {
    const match = terms.map((term) => `"${term}"`).join(' ');
    return { ids: 'SELECT rowid FROM job_text WHERE job_text MATCH ?', values: [match] };
  }
  const holds = terms.map(() => 'instr(search, ?) > 0');
  const waits = states.length === 0 ? [] : [`waitsFor IN (${states.map(() => '?').join(', ')})`];
  const index = states.length === 0 ? 'job_row_by_text' : 'job_row_by_waiting';
  const where = [...waits, ...holds].join(' AND ') || 'TRUE';
  return { ids: `SELECT id FROM job_row INDEXED BY ${index} WHERE ${where}`, values: [...states, ...terms] };
}

/** Prepares the list's statements. */
export function prepareListTables<Row extends JsonObject>(db: Database.Database) {
  const state = db.prepare<[], ProjectionState>('SELECT edition, storeSeq AS seq, hash FROM projection');
  const setState = db.prepare<[number, number, string]>(
    `INSERT INTO projection (one, edition, storeSeq, hash) VALUES (1, ?, ?, ?)
     ON CONFLICT (one) DO UPDATE SET edition = excluded.edition, storeSeq = excluded.storeSeq, hash = excluded.hash`,
  );
  const addRow = db.prepare<[StoredRow]>(
    `INSERT INTO job_row (id, job, seq, hash, waitsFor, search, row)
     VALUES (:id, :job, :seq, :hash, :waitsFor, :search, :row)`,
  );
  const addText = db.prepare<[number, string]>('INSERT INTO job_text (rowid, search) VALUES (?, ?)');
  const dropText = db.prepare<[number, string]>(
    `INSERT INTO job_text (job_text, rowid, search) VALUES ('delete', ?, ?)`,
  );
  const dropRow = db.prepare<[string], { readonly id: number; readonly search: string }>(
    'DELETE FROM job_row WHERE job = ? RETURNING id, search',
  );
  const addCertificate = db.prepare<[StoredCertificate]>(
    `INSERT OR REPLACE INTO certificate_row (number, edition, job, issued)
     VALUES (:number, :edition, :job, :issued)`,
  );
  const storedRows = db.prepare<[], StoredRow>(
    'SELECT id, job, seq, hash, waitsFor, search, row FROM job_row ORDER BY id',
  );
  const storedCertificates = db.prepare<[], StoredCertificate>(
    'SELECT number, edition, job, issued FROM certificate_row',
  );
  const dropCertificates = db.prepare<[string]>('DELETE FROM certificate_row WHERE job = ?');
  const allRows = db.prepare<[], string>('SELECT row FROM job_row ORDER BY id DESC').pluck();
  const oneRow = db.prepare<[string], string>('SELECT row FROM job_row WHERE job = ?').pluck();
  const waiting = db.prepare<[], WaitingCount>(
    'SELECT waitsFor, count(*) AS jobs FROM job_row GROUP BY waitsFor ORDER BY waitsFor',
  );
  const unissued = db
    .prepare<[], string>('SELECT DISTINCT job FROM certificate_row WHERE issued = 0 ORDER BY job')
    .pluck();
  const rowsOfNumber = db
    .prepare<[string], string>(
      'SELECT row FROM job_row WHERE job IN (SELECT job FROM certificate_row WHERE number = ?) ORDER BY id DESC',
    )
    .pluck();
  const greatest = db
    .prepare<[number, string, string], number | null>(
      'SELECT max(CAST(substr(number, ?) AS INTEGER)) FROM certificate_row WHERE number >= ? AND number < ?',
    )
    .pluck();

  let counted: { readonly of: string; readonly counts: readonly WaitingCount[] } | undefined;

  function clear(): void {
    counted = undefined;
    db.exec(`DELETE FROM job_row; DELETE FROM certificate_row;
      INSERT INTO job_text (job_text) VALUES ('delete-all');`);
  }

  function remove(job: string): void {
    const before = dropRow.get(job);
    if (before !== undefined) dropText.run(before.id, before.search);
    dropCertificates.run(job);
  }

  function add(stored: StoredRow): void {
    counted = undefined;
    addRow.run(stored);
    addText.run(stored.id, stored.search);
  }

  /** Puts a job's row in the place of the one there was. */
  function put({ id, job, seq, hash, row, listing }: ListedJob<Row>): void {
    remove(job);
    const search = foldedText(listing.search);
    add({ id, job, seq, hash, waitsFor: listing.waitsFor, search, row: canonicalJson(row) });
    for (const { number, edition, issued } of listing.certificates) {
      addCertificate.run({ number, edition, job, issued: issued ? 1 : 0 });
    }
  }

  /** Takes over the list of another store as it stands. */
  function copyFrom(other: { readonly stored: () => StoredList }): void {
    const { rows, certificates, state } = other.stored();
    clear();
    for (const row of rows) add(row);
    for (const certificate of certificates) addCertificate.run(certificate);
    if (state !== undefined) setState.run(state.edition, state.seq, state.hash);
  }

  /** Rows that hold every term, in the wanted states, last changed first; and how many there are in all. */
  function page(filter: JobFilter, terms: readonly string[]): RowPage<Row> {
    const { ids, values } = idsThatFit(filter.waitsFor ?? [], terms);
    const { limit, offset } = filter;
    const rows = db
      .prepare<unknown[], string>(
        `SELECT row FROM job_row WHERE id IN (${ids} ORDER BY 1 DESC LIMIT ? OFFSET ?) ORDER BY id DESC`,
      )
      .pluck()
      .all(...values, limit, offset);
    const parsed = rows.map((row) => JSON.parse(row));
    if (terms.length === 0) return { total: waitingIn(filter.waitsFor ?? []), rows: parsed };
    // A page that is not full is the last one: nothing has to be counted.
    if (rows.length < limit && (rows.length > 0 || offset === 0)) {
      return { total: offset + rows.length, rows: parsed };
    }
    const count = db.prepare<unknown[], number>(`SELECT count(*) FROM (${ids})`).pluck();
    return { total: count.get(...values) ?? 0, rows: parsed };
  }

  /** How many jobs wait for what; counted once for each state of the list. */
  function countsNow(): readonly WaitingCount[] {
    const { edition = 0, seq = 0, hash = '' } = state.get() ?? {};
    const of = `${edition} ${seq} ${hash}`;
    if (counted === undefined || counted.of !== of) counted = { of, counts: waiting.all() };
    return counted.counts;
  }

  function waitingIn(states: readonly string[]): number {
    return countsNow()
      .filter(({ waitsFor }) => states.length === 0 || states.includes(waitsFor))
      .reduce((sum, { jobs }) => sum + jobs, 0);
  }

  /** First the text as one piece; where that is nowhere, all of its words, wherever they stand. */
  function find(filter: JobFilter): RowPage<Row> {
    const { whole, words } = searchTerms(filter.search);
    const found = page(filter, whole);
    return found.total === 0 && words.length > 1 ? page(filter, words) : found;
  }

  return {
    state: () => state.get(),
    setState: (edition: number, head: ChainLink) => setState.run(edition, head.seq, head.hash),
    clear,
    put,
    copyFrom,
    stored: (): StoredList => ({
      rows: storedRows.iterate(),
      certificates: storedCertificates.iterate(),
      state: state.get(),
    }),
    find,
    all: (): readonly Row[] => allRows.all().map((row) => JSON.parse(row)),
    row(job: string): Row | undefined {
      const row = oneRow.get(job);
      return row === undefined ? undefined : JSON.parse(row);
    },
    waiting: countsNow,
    unissued: () => unissued.all(),
    rowsOfNumber: (number: string): readonly Row[] => rowsOfNumber.all(number).map((row) => JSON.parse(row)),
    /** The greatest counter of the certificate numbers that begin with `start`, 0 where there is none. */
    lastCounter: (start: string) => greatest.get(start.length + 1, start, `${start}\u{10FFFF}`) ?? 0,
  } as const;
}
