import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { classify, guarded } from '../../../electron/service/journal/classify.ts';

function sqlite(code: string): Error {
  return new Database.SqliteError('what the database says', code);
}

function system(code: string): Error {
  return Object.assign(new Error(`${code}: what the system says`), { code, syscall: 'open' });
}

describe('trouble of the outside world', () => {
  const path = join(tmpdir(), 'datumline.db');

  test.each([
    ['SQLITE_BUSY', 'journal/busy'],
    ['SQLITE_BUSY_SNAPSHOT', 'journal/busy'],
    ['SQLITE_LOCKED', 'journal/busy'],
    ['SQLITE_FULL', 'journal/full'],
    ['SQLITE_CORRUPT', 'journal/corrupt'],
    ['SQLITE_CORRUPT_VTAB', 'journal/corrupt'],
    ['SQLITE_NOTADB', 'journal/corrupt'],
    ['SQLITE_READONLY', 'journal/readOnly'],
    ['SQLITE_READONLY_DIRECTORY', 'journal/readOnly'],
    ['SQLITE_IOERR_WRITE', 'journal/io'],
    ['SQLITE_IOERR_FSYNC', 'journal/io'],
    ['SQLITE_CANTOPEN', 'journal/io'],
  ])('%s is %s', (code, expected) => {
    expect(classify(sqlite(code), path, 5_000)).toMatchObject({ code: expected });
  });

  test.each([
    ['ENOSPC', 'journal/full'],
    ['EDQUOT', 'journal/full'],
    ['EACCES', 'journal/readOnly'],
    ['EROFS', 'journal/readOnly'],
    ['ENOENT', 'journal/missing'],
    ['EIO', 'journal/io'],
  ])('%s is %s', (code, expected) => {
    expect(classify(system(code), path, 5_000)).toMatchObject({ code: expected });
  });

  test('a file that cannot be opened in a folder that is gone is missing', () => {
    expect(classify(sqlite('SQLITE_CANTOPEN'), join(path, 'gone', 'x.db'), 1)).toMatchObject({
      code: 'journal/missing',
    });
  });
});

describe('bugs', () => {
  test.each(['SQLITE_CONSTRAINT_TRIGGER', 'SQLITE_ERROR', 'SQLITE_MISUSE', 'SQLITE_READ'])(
    '%s stays an exception',
    (code) => {
      const thrown = sqlite(code);
      expect(() =>
        guarded('/nowhere', 1, () => {
          throw thrown;
        }),
      ).toThrow(thrown);
    },
  );

  test('so does everything else', () => {
    expect(() =>
      guarded('/nowhere', 1, () => {
        throw new TypeError('a bug');
      }),
    ).toThrow('a bug');
  });

  test('what works is passed on', () => {
    expect(guarded('/nowhere', 1, () => 7)).toEqual({ ok: true, value: 7 });
  });
});
