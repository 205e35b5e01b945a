// Types and lint: the two checks that run no code of ours.
import { join } from 'node:path';
import { run } from './child.mjs';
import { environment } from './ensure.mjs';
import { pinnedNode, root } from './paths.mjs';
import { say } from './say.mjs';

/** One per place where code may run, and one for the tests. */
const projects = ['core', 'electron', 'renderer', 'tests'];

/** @param {...string} parts */
const tool = (...parts) => join(root, 'node_modules', ...parts);

/** @returns {Promise<number>} how many of the projects do not typecheck */
export async function typecheck() {
  let failed = 0;
  for (const project of projects) {
    const args = [tool('typescript', 'bin', 'tsc'), '-p', join(root, `tsconfig.${project}.json`)];
    const { code } = await run(pinnedNode, args, { env: environment() });
    say(`types, ${project}: ${code === 0 ? 'in order' : 'FAILED'}`);
    if (code !== 0) failed += 1;
  }
  return failed;
}

/** @returns {Promise<number>} 0 or 1 */
export async function lint() {
  const args = [tool('@biomejs', 'biome', 'bin', 'biome'), 'check', '--error-on-warnings', '.'];
  const { code } = await run(pinnedNode, args, { env: environment() });
  say(`lint: ${code === 0 ? 'in order' : 'FAILED'}`);
  return code === 0 ? 0 : 1;
}
