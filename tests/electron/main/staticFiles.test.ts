import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fileInFolder, mediaTypeOfName } from '../../../electron/main/staticFiles.ts';

let outer = '';
let folder = '';

beforeAll(() => {
  outer = realpathSync(mkdtempSync(join(tmpdir(), 'static-')));
  folder = join(outer, 'build');
  mkdirSync(join(folder, 'assets'), { recursive: true });
  mkdirSync(`${folder}-secret`);
  writeFileSync(join(folder, 'index.html'), 'page');
  writeFileSync(join(folder, 'assets', 'a b.js'), 'script');
  writeFileSync(join(`${folder}-secret`, 'key'), 'secret');
  writeFileSync(join(outer, 'package.json'), '{}');
  symlinkSync(join(outer, 'package.json'), join(folder, 'link.json'));
  symlinkSync(outer, join(folder, 'up'));
});
afterAll(() => rmSync(outer, { recursive: true, force: true }));

describe('a path names a file of the folder', () => {
  test.each([
    ['/index.html', 'index.html'],
    ['/assets/a%20b.js', 'assets/a b.js'],
    ['/assets/../index.html', 'index.html'],
    ['index.html', 'index.html'],
  ])('%s', async (path, file) => {
    expect(await fileInFolder(folder, path)).toBe(join(folder, file));
  });
});

describe('a path that leads elsewhere names nothing', () => {
  test.each([
    '/../package.json',
    '/..%2fpackage.json',
    '/%2e%2e/package.json',
    '/assets/../../package.json',
    '/..%5cpackage.json',
    '/../build-secret/key',
    '/link.json',
    '/up/package.json',
    '/index.html%00.png',
    '/%zz',
    '/nowhere.html',
    '/',
    '',
    '//etc/passwd',
  ])('%s', async (path) => {
    expect(await fileInFolder(folder, path)).toBeUndefined();
  });
});

describe('the type a file is served as', () => {
  test('comes from a list', () => {
    expect(mediaTypeOfName('/x/index.html')).toBe('text/html; charset=utf-8');
    expect(mediaTypeOfName('/x/font.ttf')).toBe('font/ttf');
  });

  test.each(['/x/notes.txt', '/x/main.ts', '/x/html', '/x/.html/x', '/x/a.HTML'])(
    '%s is not served',
    (path) => {
      expect(mediaTypeOfName(path)).toBeUndefined();
    },
  );
});
