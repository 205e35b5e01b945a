// What every test in the window gets: its own data folder and the running application. A test fails on any policy
// violation or console error it did not announce; of a failure the trace, a picture and the service's log are kept.
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { test as base, type Electron, expect, type Page, type TestInfo } from '@playwright/test';
import {
  appFolder,
  freshDataFolder,
  type Launched,
  openWithPage,
  removeDataFolder,
  type Started,
  type Trouble,
} from './launch.ts';

/** The running application of a test that starts and ends it itself (restarts, kills). */
export interface Bench {
  readonly dataFolder: string;
  /** Starts the application on this test's data folder; the newest one is watched and closed at the end. `switches` are Chromium's. */
  start(switches?: readonly string[]): Promise<Launched>;
}

interface Fixtures {
  readonly bench: Bench;
  readonly launched: Launched;
  readonly page: Page;
  readonly trouble: Trouble;
}

function failed(info: TestInfo): boolean {
  return info.status !== info.expectedStatus;
}

async function keepPicture({ app }: Started, info: TestInfo, name: string): Promise<void> {
  const trace = info.outputPath(`${name}.trace.zip`);
  await app.context().tracing.stop({ path: trace });
  await info.attach(`${name} trace`, { path: trace });
  const body = await app.windows()[0]?.screenshot({ timeout: 10_000 });
  if (!body) return;
  await info.attach(`${name} window`, { body, contentType: 'image/png' });
}

async function keepLog(dataFolder: string, info: TestInfo): Promise<void> {
  const log = await readFile(join(dataFolder, 'logs', 'service.log'), 'utf8').catch(() => 'no service log');
  await info.attach('service log', { body: log, contentType: 'text/plain' });
}

/** Closes an application that may be closed, killed or hung already. */
async function close({ app, mainProcess }: Started): Promise<void> {
  if (mainProcess.exitCode !== null || mainProcess.signalCode !== null) return;
  await app.close().catch(() => mainProcess.kill('SIGKILL'));
}

async function runBench(
  electron: Electron,
  info: TestInfo,
  use: (bench: Bench) => Promise<void>,
): Promise<void> {
  const dataFolder = await freshDataFolder();
  const all: Started[] = [];
  await use({
    dataFolder,
    async start(switches) {
      const launched = await openWithPage(electron, dataFolder, appFolder, switches);
      all.push(launched);
      // A picture of every frame would cost more than all the rest; a failure keeps its own picture below.
      await launched.app.context().tracing.start({ screenshots: false, snapshots: true });
      return launched;
    },
  });
  const unexpected = all.flatMap(({ trouble }) => trouble.unexpected);
  for (const [index, started] of all.entries()) {
    // A killed application has nothing left to show.
    if (failed(info) || unexpected.length > 0) {
      await keepPicture(started, info, `run ${index + 1}`).catch(() => undefined);
    }
    await close(started);
  }
  if (failed(info) || unexpected.length > 0) await keepLog(dataFolder, info);
  await removeDataFolder(dataFolder);
  expect(unexpected, 'console errors and policy violations').toEqual([]);
}

export const test = base.extend<Fixtures>({
  bench: ({ playwright }, use, info) => runBench(playwright._electron, info, use),
  launched: async ({ bench }, use) => use(await bench.start()),
  page: ({ launched }, use) => use(launched.page),
  trouble: ({ launched }, use) => use(launched.trouble),
});

export { expect };
