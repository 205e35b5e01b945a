/** What the database says about its own pages. */
import Database from 'better-sqlite3';

/** At most this many complaints are asked for. */
const MAX_COMPLAINTS = 100;

/** Complaints about what a row says, not about pages: such a change is found, and located better, by the chains. */
const ABOUT_CONTENT = /^(CHECK constraint failed|NULL value|[A-Za-z-]+ value in )/;

/**
 * Examines the pages, with `integrity_check` the indexes too. A text that is no JSON any more ends the examination with
 * an error of its own, which is the complaint then.
 */
export function damageOf(db: Database.Database, how: 'quick_check' | 'integrity_check'): readonly string[] {
  try {
    const lines = db.prepare<[], string>(`PRAGMA ${how}(${MAX_COMPLAINTS})`).pluck().all();
    return lines.filter((line) => line !== 'ok');
  } catch (thrown) {
    if (thrown instanceof Database.SqliteError && thrown.code === 'SQLITE_ERROR') return [thrown.message];
    throw thrown;
  }
}

/** The first complaint about a page, after which nothing may be written to this file. */
export function damagedPage(db: Database.Database): string | undefined {
  const malformedText = 'malformed JSON';
  return damageOf(db, 'quick_check').find((line) => line !== malformedText && !ABOUT_CONTENT.test(line));
}
