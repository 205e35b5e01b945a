// `npm start`: set up what is missing, then open the application; without a display, run the demo job headless.
import { join } from 'node:path';
import { endChildrenWithThisProcess, run } from './child.mjs';
import { hasDisplay } from './display.mjs';
import { ensure, environment } from './ensure.mjs';
import { pinnedNode, root } from './paths.mjs';
import { sandboxArguments, tellAboutSandbox } from './sandbox.mjs';
import { runEntry, say } from './say.mjs';

async function openWindow() {
  const executable = await ensure('window');
  tellAboutSandbox();
  const extra = process.argv.slice(2);
  const { code } = await run(executable, [...sandboxArguments(), root, ...extra], { env: environment() });
  return code;
}

async function runDemo() {
  say('no display here (DISPLAY and WAYLAND_DISPLAY are empty): running the demo job headless instead.');
  await ensure('modules');
  const demo = [join(root, 'electron', 'cli', 'main.ts'), 'demo'];
  const { code } = await run(pinnedNode, demo, { env: environment() });
  return code;
}

endChildrenWithThisProcess();
await runEntry(() => (hasDisplay() ? openWindow() : runDemo()));
