// `npm run NAME`: sets up what the named command needs and runs it under the pinned Node.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { endChildrenWithThisProcess, run } from './child.mjs';
import { ensure, environment } from './ensure.mjs';
import { ensurePackages, testPackages, windowPackages } from './packages.mjs';
import { pinnedNode, root } from './paths.mjs';
import { runEntry, SetupError } from './say.mjs';
import { lint, typecheck } from './staticChecks.mjs';

/** @typedef {{ scope: 'modules' | 'window' | 'tests', script: string }} ScriptCommand */

/** @type {Record<string, ScriptCommand>} */
const scripts = {
  cli: { scope: 'modules', script: 'electron/cli/main.ts' },
  bench: { scope: 'tests', script: 'tests/bench/main.ts' },
  faults: { scope: 'tests', script: 'tests/faults/main.ts' },
  gallery: { scope: 'tests', script: 'tests/gallery/main.ts' },
};

/** @param {ScriptCommand} command @param {string[]} args */
async function runScript({ scope, script }, args) {
  const path = join(root, script);
  if (!existsSync(path)) throw new SetupError(`${script} is not there yet`);
  const executable = await ensure(scope);
  const env = { ...environment(), ...(executable ? { DATUMLINE_ELECTRON: executable } : {}) };
  // File names are the person's: taken from the folder the command was typed in.
  const cwd = process.env.INIT_CWD ?? process.cwd();
  return (await run(pinnedNode, [path, ...args], { env, cwd })).code;
}

async function main() {
  const [name = '', ...args] = process.argv.slice(2);
  const command = scripts[name];
  if (command) return runScript(command, args);
  if (name === 'setup') return ensure('tests').then(() => 0);
  if (name === 'packages') return ensurePackages([...windowPackages, ...testPackages]).then(() => 0);
  if (name === 'lint' || name === 'typecheck') {
    await ensure('modules');
    return name === 'lint' ? lint() : typecheck();
  }
  throw new SetupError(
    `run.mjs NAME, with NAME one of: ${[...Object.keys(scripts), 'lint', 'typecheck', 'setup', 'packages'].join(', ')}`,
  );
}

endChildrenWithThisProcess();
await runEntry(main);
