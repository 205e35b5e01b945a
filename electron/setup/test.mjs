// `npm test`: the same set-up as `npm start`, then types, lint, vitest, and Playwright in the real window on a display
// of its own. The last line on stdout is the sum of all runners.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { endChildrenWithThisProcess, run } from './child.mjs';
import { startDisplay } from './display.mjs';
import { ensure, environment } from './ensure.mjs';
import { withLock } from './lock.mjs';
import { cacheFolder, outputFolder, pinnedNode, root } from './paths.mjs';
import { complaints, lastLine, playwrightTotals, runnerTotals, sum, vitestTotals } from './reports.mjs';
import { tellAboutSandbox } from './sandbox.mjs';
import { runEntry, SetupError, say } from './say.mjs';
import { lint, typecheck } from './staticChecks.mjs';

const report = {
  vitest: join(outputFolder, 'vitest.json'),
  playwright: join(outputFolder, 'playwright.json'),
};

/** @param {string[]} tool path below node_modules @param {string[]} args @param {NodeJS.ProcessEnv} env */
async function runTool(tool, args, env) {
  return (await run(pinnedNode, [join(root, 'node_modules', ...tool), ...args], { env })).code;
}

/** @param {NodeJS.ProcessEnv} env */
async function runVitest(env) {
  const args = ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report.vitest}`];
  const code = await runTool(['vitest', 'vitest.mjs'], args, env);
  return runnerTotals(report.vitest, code, vitestTotals);
}

/** @param {NodeJS.ProcessEnv} env */
async function runPlaywright(env) {
  const display = process.platform === 'linux' ? await startDisplay() : undefined;
  try {
    const shown = { ...env, ...(display ? { DISPLAY: display.display, WAYLAND_DISPLAY: '' } : {}) };
    const withReport = { ...shown, PLAYWRIGHT_JSON_OUTPUT_FILE: report.playwright };
    const code = await runTool(
      ['@playwright', 'test', 'cli.js'],
      ['test', '--reporter=list,json'],
      withReport,
    );
    return runnerTotals(report.playwright, code, playwrightTotals);
  } finally {
    display?.stop();
  }
}

async function testAll() {
  const executable = await ensure('tests');
  rmSync(outputFolder, { recursive: true, force: true });
  mkdirSync(outputFolder, { recursive: true });
  tellAboutSandbox();
  const env = { ...environment(), DATUMLINE_ELECTRON: executable };
  const fixed = { passed: 0, failed: (await typecheck()) + (await lint()), skipped: 0 };
  const vitest = await runVitest(env);
  const playwright = await runPlaywright(env);
  say(
    `vitest: ${lastLine(vitest)}; Playwright: ${lastLine(playwright)}; types and lint: ${fixed.failed} failed`,
  );
  return sum([fixed, vitest, playwright]);
}

async function main() {
  const totals = await withLock(join(cacheFolder, 'test.lock'), 'test run', testAll).catch((error) => {
    if (!(error instanceof SetupError)) throw error;
    say(error.message);
    return { passed: 0, failed: 1, skipped: 0 };
  });
  const { passed: floor } = JSON.parse(readFileSync(join(root, 'tests', 'floor.json'), 'utf8'));
  const list = complaints(totals, floor);
  for (const complaint of list) say(complaint);
  process.stdout.write(`${lastLine(totals)}\n`);
  return list.length === 0 ? 0 : 1;
}

endChildrenWithThisProcess();
await runEntry(main);
