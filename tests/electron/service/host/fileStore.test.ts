import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { createFileStore, mediaTypeOf } from '../../../../electron/service/host/fileStore.ts';

let folder = '';
const store = () => createFileStore(join(folder, 'files'));
const digestOf = (text: string) => createHash('sha256').update(text).digest('hex');
const dropped = (text: string) => {
  const path = join(folder, 'dropped.part');
  writeFileSync(path, text);
  return path;
};

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'files-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('bytes by their digest', () => {
  test('put, then located', async () => {
    const digest = await store().put(Buffer.from('%PDF-1.7'));
    expect(digest).toBe(digestOf('%PDF-1.7'));
    const found = await store().locate(digest);
    expect(found?.mediaType).toBe('application/pdf');
    expect(readFileSync(found?.path ?? '', 'utf8')).toBe('%PDF-1.7');
  });

  test('put twice is one file and nothing beside it', async () => {
    await store().put(Buffer.from('x'));
    await store().put(Buffer.from('x'));
    const files = readdirSync(join(folder, 'files'), { recursive: true, withFileTypes: true });
    expect(files.filter((entry) => entry.isFile()).map(({ name }) => name)).toEqual([digestOf('x')]);
  });

  test('a finished file is moved in', async () => {
    const path = dropped('y');
    expect(await store().adopt(path, digestOf('y'))).toBe(true);
    expect(existsSync(path)).toBe(false);
    expect((await store().locate(digestOf('y')))?.mediaType).toBe('application/octet-stream');
  });

  test('a file that is not what it is said to be is refused and removed', async () => {
    const path = dropped('y');
    expect(await store().adopt(path, digestOf('z'))).toBe(false);
    expect(existsSync(path)).toBe(false);
    expect(await store().locate(digestOf('z'))).toBeUndefined();
  });

  test.each(['', '..', '../../etc/passwd', 'A'.repeat(64), '0'.repeat(63), '0'.repeat(64)])(
    '"%s" is not there',
    async (digest) => {
      expect(await store().locate(digest)).toBeUndefined();
    },
  );

  test('a digest that is a path is not adopted', async () => {
    expect(await store().adopt(dropped('y'), '../y')).toBe(false);
  });
});

describe('issued certificates', () => {
  test('are found in their own folder', async () => {
    const digest = digestOf('%PDF-1.7 issued');
    writeFileSync(join(folder, `${digest}.pdf`), '%PDF-1.7 issued');
    const both = createFileStore(join(folder, 'files'), folder);
    expect(await both.locate(digest)).toEqual({
      path: join(folder, `${digest}.pdf`),
      mediaType: 'application/pdf',
    });
    expect(await store().locate(digest)).toBeUndefined();
  });
});

describe('what the first bytes prove', () => {
  test.each([
    ['%PDF-1.7', 'application/pdf'],
    ['\x89PNG\r\n\x1a\n....', 'image/png'],
    ['\xff\xd8\xff\xe0', 'image/jpeg'],
    ['<svg xmlns="http://www.w3.org/2000/svg">', 'application/octet-stream'],
    ['<!doctype html>', 'application/octet-stream'],
    [' %PDF-1.7', 'application/octet-stream'],
    ['%PDF', 'application/octet-stream'],
    ['', 'application/octet-stream'],
  ])('%j is %s', (text, type) => {
    expect(mediaTypeOf(Buffer.from(text, 'latin1'))).toBe(type);
  });
});
