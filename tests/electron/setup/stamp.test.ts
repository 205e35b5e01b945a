import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { digestOf, isStamped, writeStamp } from '../../../electron/setup/stamp.mjs';

let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'stamp-'));
  mkdirSync(join(folder, 'a', 'b'), { recursive: true });
  writeFileSync(join(folder, 'a', 'one.txt'), 'one');
  writeFileSync(join(folder, 'a', 'b', 'two.txt'), 'two');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const digest = (words: string[] = []) =>
  digestOf(folder, [join(folder, 'a'), join(folder, 'missing')], words);

describe('what a step was made from', () => {
  test('the same files have the same digest', () => {
    expect(digest()).toBe(digest());
    expect(digest()).toMatch(/^[0-9a-f]{64}$/);
  });

  test('a moved folder keeps its digest', () => {
    const before = digest();
    const moved = mkdtempSync(join(tmpdir(), 'stamp-moved-'));
    cpSync(folder, moved, { recursive: true });
    expect(digestOf(moved, [join(moved, 'a')])).toBe(before);
    rmSync(moved, { recursive: true });
  });

  const changes: [string, () => void][] = [
    ['a changed file', () => writeFileSync(join(folder, 'a', 'b', 'two.txt'), 'twp')],
    ['a new file', () => writeFileSync(join(folder, 'a', 'three.txt'), '')],
    ['a removed file', () => rmSync(join(folder, 'a', 'one.txt'))],
    ['a missing file that appears', () => writeFileSync(join(folder, 'missing'), '')],
    [
      'bytes moved from one file to the next',
      () => {
        writeFileSync(join(folder, 'a', 'b', 'two.txt'), 'twoo');
        writeFileSync(join(folder, 'a', 'one.txt'), 'ne');
      },
    ],
  ];
  test.each(changes)('%s changes it', (_name, change) => {
    const before = digest();
    change();
    expect(digest()).not.toBe(before);
  });

  test('words beside the files change it', () => {
    expect(digest(['linux', 'x64'])).not.toBe(digest(['linux', 'arm64']));
    expect(digest(['ab', 'c'])).not.toBe(digest(['a', 'bc']));
  });
});

describe('the stamp', () => {
  test('is there only after it was written, and only for its digest', () => {
    const stamp = join(folder, 'new', 'stamp');
    expect(isStamped(stamp, 'x')).toBe(false);
    writeStamp(stamp, 'x');
    expect(isStamped(stamp, 'x')).toBe(true);
    expect(isStamped(stamp, 'y')).toBe(false);
    writeStamp(stamp, 'y');
    expect(isStamped(stamp, 'y')).toBe(true);
  });
});
