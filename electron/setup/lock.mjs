// One set-up at a time. The lock is a file made with `wx`; its holder touches it every few seconds, so that a
// lock left by a killed process (or by an earlier boot whose process number is in use again) goes stale by itself.
import {
  linkSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { say } from './say.mjs';

const HEARTBEAT_MS = 2_000;
const STALE_MS = 30_000;
const POLL_MS = 250;

/** @param {number} pid */
function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return /** @type {NodeJS.ErrnoException} */ (error).code === 'EPERM';
  }
}

/**
 * Whether a lock's holder is gone: its process does not exist, or it stopped touching the file.
 * @param {string} content process number and a random mark
 * @param {number} ageMs since the last touch
 * @param {(pid: number) => boolean} [alive]
 */
export function isStale(content, ageMs, alive = isAlive) {
  const pid = Number.parseInt(content, 10);
  if (ageMs > STALE_MS) return true;
  // An empty file is a holder between creating and writing: only its age can tell.
  if (!Number.isInteger(pid) || pid <= 0) return false;
  return !alive(pid);
}

/** @param {string} path @param {string} content */
function tryCreate(path, content) {
  try {
    writeFileSync(path, content, { flag: 'wx' });
    return true;
  } catch (error) {
    if (/** @type {NodeJS.ErrnoException} */ (error).code === 'EEXIST') return false;
    throw error;
  }
}

/**
 * Takes a stale lock away. Two may try: the loser finds that it moved a fresh lock and puts it back.
 * @param {string} path
 */
function removeIfStale(path) {
  const aside = `${path}.${process.pid}.stale`;
  try {
    const content = readFileSync(path, 'utf8');
    if (!isStale(content, Date.now() - statSync(path).mtimeMs)) return;
    renameSync(path, aside);
    if (readFileSync(aside, 'utf8') !== content) linkSync(aside, path);
  } catch (error) {
    const code = /** @type {NodeJS.ErrnoException} */ (error).code;
    if (code !== 'ENOENT' && code !== 'EEXIST') throw error;
  } finally {
    rmSync(aside, { force: true });
  }
}

/** @param {string} path */
function touch(path) {
  try {
    const now = new Date();
    utimesSync(path, now, now);
  } catch {
    // Deleted under us (someone emptied .cache): the next run makes a new one.
  }
}

/**
 * Runs `work` while holding the lock; waits for another holder and says so once.
 * @template T
 * @param {string} path
 * @param {string} what shown while waiting
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function withLock(path, what, work) {
  mkdirSync(dirname(path), { recursive: true });
  const content = `${process.pid} ${process.hrtime.bigint()}`;
  let told = false;
  while (!tryCreate(path, content)) {
    removeIfStale(path);
    if (!told) say(`waiting: another ${what} is running (${path})`);
    told = true;
    await sleep(POLL_MS);
  }
  const heartbeat = setInterval(() => touch(path), HEARTBEAT_MS);
  const release = () => {
    clearInterval(heartbeat);
    try {
      if (readFileSync(path, 'utf8') === content) rmSync(path, { force: true });
    } catch {
      // Already gone.
    }
  };
  process.once('exit', release);
  try {
    return await work();
  } finally {
    process.removeListener('exit', release);
    release();
  }
}
