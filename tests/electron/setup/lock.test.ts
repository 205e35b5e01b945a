import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { isStale, withLock } from '../../../electron/setup/lock.mjs';

let folder = '';
const lock = () => join(folder, 'deep', 'a.lock');

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lock-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('whether a holder is gone', () => {
  const alive = () => true;
  const dead = () => false;

  test('a living holder that touches its file holds', () => {
    expect(isStale('123 mark', 1_000, alive)).toBe(false);
  });

  test('a dead holder does not', () => {
    expect(isStale('123 mark', 1_000, dead)).toBe(true);
  });

  test('a number in use again by another process does not hold: nobody touches the file', () => {
    expect(isStale('123 mark', 31_000, alive)).toBe(true);
  });

  test('a file just created and not yet written holds until it is old', () => {
    expect(isStale('', 10, dead)).toBe(false);
    expect(isStale('', 31_000, alive)).toBe(true);
  });
});

describe('holding the lock', () => {
  test('the work runs inside, its answer comes out, the file is gone afterwards', async () => {
    const answer = await withLock(lock(), 'test', async () => {
      expect(readFileSync(lock(), 'utf8')).toMatch(new RegExp(`^${process.pid} `));
      return 42;
    });
    expect(answer).toBe(42);
    expect(existsSync(lock())).toBe(false);
  });

  test('a failure comes out too, and the file is gone', async () => {
    const work = withLock(lock(), 'test', () => Promise.reject(new Error('no')));
    await expect(work).rejects.toThrow('no');
    expect(existsSync(lock())).toBe(false);
  });

  test('eight at once never overlap', async () => {
    let inside = 0;
    let most = 0;
    const work = async () => {
      inside += 1;
      most = Math.max(most, inside);
      await new Promise((resolve) => setTimeout(resolve, 5));
      inside -= 1;
    };
    await Promise.all(Array.from({ length: 8 }, () => withLock(lock(), 'test', work)));
    expect(most).toBe(1);
  });

  test('a lock left by a killed process is taken over', async () => {
    const script = `import { withLock } from ${JSON.stringify(import.meta.resolve('../../../electron/setup/lock.mjs'))};
      await withLock(${JSON.stringify(lock())}, 'test', () => { console.log('held'); return new Promise(() => setInterval(() => {}, 1e6)); });`;
    const holder = spawn(process.execPath, ['--input-type=module', '-e', script], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    await new Promise((resolve) => holder.stdout.once('data', resolve));
    const gone = new Promise((resolve) => holder.once('exit', resolve));
    holder.kill('SIGKILL');
    await gone;
    expect(existsSync(lock())).toBe(true);
    expect(await withLock(lock(), 'test', async () => 'mine')).toBe('mine');
  });

  test('an old lock of a number that is in use again is taken over', async () => {
    await withLock(lock(), 'test', async () => undefined);
    writeFileSync(lock(), `${process.pid} from an earlier boot`);
    const longAgo = new Date(Date.now() - 60_000);
    utimesSync(lock(), longAgo, longAgo);
    expect(await withLock(lock(), 'test', async () => 'mine')).toBe('mine');
  });

  test('the holder does not remove a lock that is no longer its own', async () => {
    await withLock(lock(), 'test', async () => writeFileSync(lock(), 'someone else'));
    expect(readFileSync(lock(), 'utf8')).toBe('someone else');
  });
});
