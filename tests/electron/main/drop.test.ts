import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { receiveDrop } from '../../../electron/main/drop.ts';

let folder = '';
const inbox = () => join(folder, 'inbox');
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'drop-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function* chunks(...texts: string[]) {
  for (const text of texts) yield Buffer.from(text);
}

test('chunks become one file with the digest of all', async () => {
  const received = await receiveDrop(chunks('one ', 'two'), inbox(), 7);
  if (!received.ok) throw new Error(received.error);
  expect(readFileSync(received.value.path, 'utf8')).toBe('one two');
  expect(received.value).toMatchObject({
    digest: createHash('sha256').update('one two').digest('hex'),
    sizeBytes: 7,
  });
});

test('one byte too many is refused while it arrives and leaves nothing', async () => {
  let asked = 0;
  async function* endless() {
    for (;;) {
      asked += 1;
      yield Buffer.from('1234');
    }
  }
  expect(await receiveDrop(endless(), inbox(), 7)).toEqual({ ok: false, error: 'file/tooLarge' });
  expect(asked).toBe(2);
  expect(readdirSync(inbox())).toEqual([]);
});

test('nothing is refused and leaves nothing', async () => {
  expect(await receiveDrop(chunks(), inbox())).toEqual({ ok: false, error: 'file/empty' });
  expect(readdirSync(inbox())).toEqual([]);
});

test('a stream that breaks leaves nothing', async () => {
  async function* broken() {
    yield Buffer.from('1');
    throw new Error('the window is gone');
  }
  await expect(receiveDrop(broken(), inbox())).rejects.toThrow('the window is gone');
  expect(readdirSync(inbox())).toEqual([]);
});

test('two at once do not meet', async () => {
  const both = await Promise.all([receiveDrop(chunks('a'), inbox()), receiveDrop(chunks('a'), inbox())]);
  const paths = both.map((one) => (one.ok ? one.value.path : ''));
  expect(new Set(paths).size).toBe(2);
  expect(paths.every((path) => existsSync(path))).toBe(true);
});
