// Where things are. Set-up scripts run before anything is installed: nothing but Node's own modules here.
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds package.json. */
export const root = resolve(fileURLToPath(new URL('../../', import.meta.url)));

/** Everything fetched or derived outside node_modules; may be deleted at any time. */
export const cacheFolder = join(root, '.cache');

/** Reports, traces and pictures of the last test run. */
export const outputFolder = join(root, 'tests', 'output');

const windows = process.platform === 'win32';

/** The pinned Node 24 that runs everything except the set-up itself. */
export const pinnedNode = join(root, 'node_modules', 'node', 'bin', windows ? 'node.exe' : 'node');

const binFolder = join(root, 'node_modules', '.bin');
const separator = windows ? ';' : ':';

/**
 * PATH with the pinned Node first, so that a `#!/usr/bin/env node` tool such as npm runs under it.
 * @param {string} [path]
 */
export function pathWithPinnedNode(path = process.env.PATH ?? '') {
  return [binFolder, pathWithoutProject(path)].join(separator);
}

/**
 * PATH without any node_modules folder: for `npm ci`, which deletes the very folder npm put there.
 * @param {string} [path]
 */
export function pathWithoutProject(path = process.env.PATH ?? '') {
  return path
    .split(separator)
    .filter((entry) => !entry.includes('node_modules'))
    .join(separator);
}
