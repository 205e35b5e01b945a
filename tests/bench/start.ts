/**
 * Start to interactive: from the launch of the runtime until the first button can be pressed, our window against a bare
 * window of the same runtime that loads one page with one button. Aim: at most 2 times.
 */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { _electron } from '@playwright/test';
import { sandboxArguments } from '../../electron/setup/sandbox.mjs';
import {
  appArguments,
  appVariables,
  executablePath,
  freshDataFolder,
  removeDataFolder,
} from '../e2e/launch.ts';
import { type Comparison, compare } from './compare.ts';

const bareMain = `const { app, BrowserWindow } = require('electron');
app.whenReady().then(() => {
  const window = new BrowserWindow({ width: 1366, height: 768 });
  window.loadFile('index.html');
});
`;
const barePage = '<!doctype html><meta charset="utf-8"><title>bare</title><button>ready</button>';

async function bareApp(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'datumline-bare-'));
  await writeFile(join(folder, 'package.json'), '{ "name": "bare", "version": "1.0.0", "main": "main.cjs" }');
  await writeFile(join(folder, 'main.cjs'), bareMain);
  await writeFile(join(folder, 'index.html'), barePage);
  return folder;
}

/** A start of which Playwright got no hold takes longer than any start: it is ended and not counted. */
const ATTACH_LIMIT_MS = 15_000;

/** Milliseconds from launch until the first button is there and enabled. */
async function startTime(args: readonly string[], env: Record<string, string>): Promise<number> {
  for (;;) {
    const start = performance.now();
    const app = await _electron.launch({ executablePath: executablePath(), args: [...args], env });
    try {
      const page = await app.firstWindow();
      await page.locator('button:enabled').first().waitFor({ timeout: ATTACH_LIMIT_MS });
      const took = performance.now() - start;
      await app.close();
      return took;
    } catch (fault) {
      app.process().kill('SIGKILL');
      console.log(`a start is not counted: ${String(fault).split('\n')[0]}`);
    }
  }
}

/** Runs the comparison; each of our starts is a first start on a data folder of its own. */
export async function benchStart(): Promise<Comparison> {
  const bare = await bareApp();
  try {
    return await compare({
      name: 'start',
      aim: 2,
      ours: async () => {
        const folder = await freshDataFolder();
        try {
          return await startTime(appArguments(), appVariables(folder));
        } finally {
          await removeDataFolder(folder);
        }
      },
      theirs: () => startTime([bare, ...sandboxArguments()], appVariables(bare)),
    });
  } finally {
    await rm(bare, { recursive: true, force: true });
  }
}
