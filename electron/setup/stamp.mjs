// A stamp says what a finished step was made from. It is written last, so an interrupted step has none and runs again.
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, relative } from 'node:path';

/** @param {string} path @returns {string[]} */
function filesUnder(path) {
  if (!existsSync(path)) return [];
  if (statSync(path).isFile()) return [path];
  return readdirSync(path)
    .sort()
    .flatMap((name) => filesUnder(join(path, name)));
}

/**
 * SHA-256 over names and contents of files and folders (a missing one counts as empty), plus any extra words.
 * @param {string} base names are taken relative to it, so a moved clone keeps its stamps
 * @param {readonly string[]} paths
 * @param {readonly string[]} [words]
 */
export function digestOf(base, paths, words = []) {
  const hash = createHash('sha256');
  for (const file of paths.flatMap(filesUnder)) {
    const content = readFileSync(file);
    hash.update(`${relative(base, file)}\0${content.length}\0`).update(content);
  }
  for (const word of words) hash.update(`\0${word}`);
  return hash.digest('hex');
}

/** @param {string} stampFile @param {string} digest */
export function isStamped(stampFile, digest) {
  return existsSync(stampFile) && readFileSync(stampFile, 'utf8').trim() === digest;
}

/** @param {string} stampFile @param {string} digest */
export function writeStamp(stampFile, digest) {
  mkdirSync(dirname(stampFile), { recursive: true });
  const part = `${stampFile}.${process.pid}.part`;
  writeFileSync(part, `${digest}\n`);
  renameSync(part, stampFile);
}
