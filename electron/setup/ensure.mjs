// The set-up as one call: every step looks first and works only when something is missing or changed.
import { join } from 'node:path';
import { run } from './child.mjs';
import { withLock } from './lock.mjs';
import { ensureModules } from './modules.mjs';
import { ensurePackages, testPackages, windowPackages } from './packages.mjs';
import { cacheFolder, pathWithPinnedNode, pinnedNode, root } from './paths.mjs';
import { ensureRuntime } from './runtime.mjs';
import { SetupError, say } from './say.mjs';
import { digestOf, isStamped, writeStamp } from './stamp.mjs';

const OLDEST_NODE = 18;

/** What the bundles and the window are made from; tests and the command line are not in it. */
const buildInputs = [
  'assets',
  'core',
  'electron/main',
  'electron/preload.ts',
  'electron/service',
  'electron/setup/build.mjs',
  'package-lock.json',
  'package.json',
  'renderer',
  'vite.config.ts',
];
const buildOutputs = ['electron/build', 'renderer/build'];

async function ensureBuild() {
  const stampFile = join(cacheFolder, 'build.stamp');
  const inputs = buildInputs.map((path) => join(root, path));
  const outputs = buildOutputs.map((path) => join(root, path));
  // Outputs are in the digest too: a build folder deleted or edited by hand is made again.
  const digest = () => digestOf(root, [...inputs, ...outputs]);
  if (isStamped(stampFile, digest())) return;
  say('building the window, the main process and the service ...');
  const { code, output } = await run(pinnedNode, [join(root, 'electron', 'setup', 'build.mjs')], {
    env: environment(),
    quiet: true,
  });
  if (code !== 0) throw new SetupError(`the build failed:\n${output}`);
  writeStamp(stampFile, digest());
}

/** The environment everything is started with: the pinned Node first on PATH. */
export function environment() {
  return { ...process.env, PATH: pathWithPinnedNode() };
}

/**
 * Brings the folder to where the named parts work, and returns the Electron executable when there is a window.
 * @param {'modules' | 'window' | 'tests'} scope modules: command line only; window: plus runtime and build
 */
export async function ensure(scope) {
  const major = Number.parseInt(process.versions.node, 10);
  if (major < OLDEST_NODE)
    throw new SetupError(`Node ${OLDEST_NODE} or later starts the set-up; this is ${major}`);
  return withLock(join(cacheFolder, 'setup.lock'), 'set-up', async () => {
    if (scope !== 'modules')
      await ensurePackages(scope === 'tests' ? [...windowPackages, ...testPackages] : windowPackages);
    await ensureModules();
    if (scope === 'modules') return '';
    const executable = await ensureRuntime();
    await ensureBuild();
    return executable;
  });
}
