// npm's packages, exactly as locked.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { run } from './child.mjs';
import { pathWithoutProject, pinnedNode, root } from './paths.mjs';
import { SetupError, say } from './say.mjs';
import { digestOf, isStamped, writeStamp } from './stamp.mjs';

const lockFile = join(root, 'package-lock.json');
const installedFile = join(root, 'node_modules', '.package-lock.json');
// Inside node_modules: whoever deletes the folder deletes the stamp.
const stampFile = join(root, 'node_modules', '.datumline-stamp');

/** @typedef {{ packages?: Record<string, { version?: string, optional?: boolean }> }} LockFile */

/**
 * Whether npm's own list of what it installed has every locked package in its locked version. Optional packages
 * (binaries for other platforms) may be absent. npm writes that list last, so an interrupted install has none.
 * @param {LockFile} locked package-lock.json
 * @param {LockFile} installed node_modules/.package-lock.json
 */
export function isInstalled(locked, installed) {
  const wanted = Object.entries(locked.packages ?? {}).filter(([path]) => path !== '');
  if (wanted.length === 0) return false;
  return wanted.every(([path, { version, optional }]) => {
    const found = installed.packages?.[path];
    return found ? found.version === version : optional === true;
  });
}

/** @param {string} file @returns {LockFile} */
function readLock(file) {
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {};
}

const windows = process.platform === 'win32';

/**
 * Runs npm under the machine's own Node: npm ci deletes the pinned one before it brings it back.
 * @param {string[]} args
 */
async function npm(...args) {
  const { code, output } = await run(windows ? 'npm.cmd' : 'npm', args, {
    env: { ...process.env, PATH: pathWithoutProject(), NODE_ENV: 'development' },
    quiet: true,
    shell: windows,
  });
  if (code !== 0)
    throw new SetupError(`npm ${args[0]} failed; run this again when the cause is gone.\n${output}`);
  return output;
}

/** Installs when node_modules is missing, incomplete, or made from another lock file. */
export async function ensureModules() {
  const digest = digestOf(root, [lockFile], [process.platform, process.arch]);
  if (existsSync(pinnedNode)) {
    if (isStamped(stampFile, digest)) return;
    if (isInstalled(readLock(lockFile), readLock(installedFile))) return writeStamp(stampFile, digest);
  }
  say('installing packages (npm ci), about half a minute ...');
  // No package needs its install script except the one that brings Node. better-sqlite3 carries its binary, and
  // its script would ask a bare machine for a compiler.
  const installed = await npm('ci', '--ignore-scripts', '--no-audit', '--no-fund');
  const rebuilt = await npm('rebuild', 'node');
  if (!existsSync(pinnedNode))
    throw new SetupError(`npm left no Node at ${pinnedNode}\n${installed}${rebuilt}`);
  writeStamp(stampFile, digest);
}
