// Builds what the window is made of: the main process and the preload (one CommonJS file each), the page, and the
// service. Core and service also run as written (tests, command line); from one file the service is up in a third of
// the time, for reading two thousand small ones costs more than all the rest. Runs under the pinned Node: `build.mjs`.
import { existsSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { build as bundle } from 'esbuild';
import { build as buildWindow } from 'vite';
import { root } from './paths.mjs';
import { runEntry } from './say.mjs';

const mainFolder = join(root, 'electron', 'build');
const windowFolder = join(root, 'renderer', 'build');

/** Where a build is made; it takes the place of the last one when it is whole, so that nothing ever runs half of one. */
const part = (/** @type {string} */ folder) => `${folder}.part`;

/** @param {string} folder */
function putInPlace(folder) {
  const old = `${folder}.old`;
  rmSync(old, { recursive: true, force: true });
  if (existsSync(folder)) renameSync(folder, old);
  renameSync(part(folder), folder);
  rmSync(old, { recursive: true, force: true });
}

/**
 * Main and preload need the contract's names and limits only. Replacing that one module by its value keeps the
 * schema library out of both: the window opens sooner, and the preload has nothing to misuse.
 * @type {import('esbuild').Plugin}
 */
const contractNamesOnly = {
  name: 'contract-names-only',
  setup(build) {
    build.onLoad({ filter: /[\\/]electron[\\/]main[\\/]callTable\.ts$/ }, async () => {
      const table = await import('../main/callTable.ts');
      const lines = Object.entries(table).map(
        ([name, value]) => `export const ${name} = Object.freeze(${JSON.stringify(value)});`,
      );
      return { contents: lines.join('\n'), loader: 'js' };
    });
  },
};

/** Old CommonJS packages inside an ES module ask for `require`. */
const requireInModule =
  "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);";

function bundleService() {
  return bundle({
    absWorkingDir: root,
    // One folder down, as the sources are: paths to assets hold in both.
    entryPoints: {
      'service/main': 'electron/service/host/main.ts',
      'service/printThread': 'electron/service/printing/printThread.ts',
    },
    outdir: part(mainFolder),
    outExtension: { '.js': '.mjs' },
    bundle: true,
    platform: 'node',
    target: 'node24',
    format: 'esm',
    // Two with a binary, and a package that reads files of its own beside itself.
    external: ['better-sqlite3', 'pdfkit', 'serialport'],
    banner: { js: requireInModule },
    sourcemap: true,
    logLevel: 'warning',
  });
}

/** @param {string} path */
const json = (path) => JSON.parse(readFileSync(join(root, path), 'utf8'));

async function main() {
  rmSync(part(mainFolder), { recursive: true, force: true });
  await bundle({
    absWorkingDir: root,
    entryPoints: { main: 'electron/main/main.ts', preload: 'electron/preload.ts' },
    outdir: part(mainFolder),
    outExtension: { '.js': '.cjs' },
    bundle: true,
    platform: 'node',
    // The oldest runtime it must load in: the stand-in's.
    target: 'node20',
    format: 'cjs',
    external: ['electron'],
    define: { PINNED_ELECTRON: JSON.stringify(json('package.json').devDependencies.electron) },
    plugins: [contractNamesOnly],
    sourcemap: true,
    logLevel: 'warning',
  });
  await bundleService();
  await buildWindow({
    configFile: join(root, 'vite.config.ts'),
    logLevel: 'warn',
    build: { outDir: part(windowFolder) },
  });
  putInPlace(mainFolder);
  putInPlace(windowFolder);
  return 0;
}

await runEntry(main);
