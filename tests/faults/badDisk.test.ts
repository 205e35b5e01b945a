import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { newId } from '../../electron/service/clock.ts';
import {
  limitedFile,
  makeUnwritable,
  makeWritable,
  openFolder,
  problemsAfter,
  problemsAfterTwo,
  tellUntilTrouble,
  turns,
  twoWriters,
} from './badDisk.ts';
import { lookInto } from './faultJournal.ts';

function folderForTest(): string {
  const folder = openFolder('datumline-bad-disk-');
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

describe('a file that may not grow any more', () => {
  test.each([250_000, 500_000])(
    'at %i bytes: the trouble has a name, nothing is lost, work goes on',
    (bytes) => {
      const folder = folderForTest();
      const job = newId();
      const told = limitedFile(folder, job, bytes);
      expect(told.troubles[0]).toMatch(/^append journal\/(io|full)$/);
      expect(told.answered.length).toBeGreaterThan(3);
      expect(problemsAfter(folder, job, told)).toEqual([]);
    },
    60_000,
  );

  test('too small for a store to be born: the trouble has a name, and a store can be made there later', () => {
    const folder = folderForTest();
    const job = newId();
    const told = limitedFile(folder, job, 10_000);
    expect(told.troubles).toEqual([expect.stringMatching(/^open journal\/(io|full)$/)]);
    expect(problemsAfter(folder, job, told)).toEqual([]);
  }, 60_000);
});

describe('a place that cannot be written', () => {
  test('a new store in a folder of somebody else', () => {
    const folder = folderForTest();
    makeUnwritable(folder);
    expect(tellUntilTrouble([], [folder, newId()], true)).toEqual({
      answered: [],
      troubles: ['open journal/readOnly'],
    });
    expect(tellUntilTrouble([], [join(folder, 'shop'), newId()], true).troubles).toEqual([
      'open journal/readOnly',
    ]);
    makeWritable(folder);
  }, 60_000);

  test('a store whose files became read-only keeps everything and works again afterwards', () => {
    const folder = join(folderForTest(), 'shop');
    mkdirSync(folder);
    const job = newId();
    const before = tellUntilTrouble([], [folder, job, '12']);
    expect(before).toMatchObject({ troubles: [], answered: { length: 12 } });
    makeUnwritable(folder);
    expect(tellUntilTrouble([], [folder, job, '5', '100'], true)).toEqual({
      answered: [],
      troubles: ['open journal/readOnly'],
    });
    makeWritable(folder);
    expect(problemsAfter(folder, job, before)).toEqual([]);
  }, 60_000);
});

describe('two processes that write one store at the same time', () => {
  test('take turns; every entry is there once, both chains are whole', async () => {
    const folder = folderForTest();
    const told = await twoWriters(folder, newId(), 60);
    expect(problemsAfterTwo(folder, told, 60)).toEqual([]);
    expect(turns(lookInto(folder).numbers, 60)).toBeGreaterThan(2);
  }, 60_000);
});
