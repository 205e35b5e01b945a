// Starts the real application on a data folder of its own.
import type { ChildProcess } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, resolve, sep } from 'node:path';
import { type Electron, type ElectronApplication, expect, type Page } from '@playwright/test';
import { findRuntime } from '../../electron/setup/runtime.mjs';
import { sandboxArguments } from '../../electron/setup/sandbox.mjs';

export const appFolder = resolve(import.meta.dirname, '..', '..');

/** Console errors, page errors and policy violations of one run of the application, from its first script on. */
export class Trouble {
  readonly #lines: string[] = [];
  readonly #expected: string[] = [];

  add(line: string): void {
    this.#lines.push(line);
  }

  /** Declares that lines containing this text belong to the test: an attack that is meant to be refused. */
  expect(text: string): void {
    this.#expected.push(text);
  }

  get lines(): readonly string[] {
    return this.#lines;
  }

  get unexpected(): readonly string[] {
    return this.#lines.filter((line) => !this.#expected.some((text) => line.includes(text)));
  }
}

/** A running application, perhaps still without a page. */
export interface Started {
  readonly app: ElectronApplication;
  /** The main process; Playwright forgets it once the application is closed. */
  readonly mainProcess: ChildProcess;
  readonly trouble: Trouble;
}

export interface Launched extends Started {
  readonly page: Page;
}

export function freshDataFolder(): Promise<string> {
  return mkdtemp(join(tmpdir(), 'datumline-e2e-'));
}

export function removeDataFolder(folder: string): Promise<void> {
  return rm(folder, { recursive: true, force: true, maxRetries: 5 });
}

export function appArguments(folder = appFolder): string[] {
  return [folder, ...sandboxArguments()];
}

/** The executable `npm test` prepared, or the one a set-up has left. Without one the test fails; it never skips. */
export function executablePath(): string {
  const path = process.env.DATUMLINE_ELECTRON || findRuntime();
  if (!path) throw new Error('no Electron runtime: run npm run setup');
  return path;
}

export function appVariables(dataFolder: string): Record<string, string> {
  const kept = Object.entries(process.env).filter(
    (entry): entry is [string, string] => entry[1] !== undefined,
  );
  return { ...Object.fromEntries(kept), DATUMLINE_DATA: dataFolder };
}

/** Reports policy violations as console errors: those of the past through the buffer, those to come as they happen. */
function reportViolations(): void {
  const observer = new ReportingObserver(
    (reports) => {
      for (const { body } of reports) console.error(`policy violation: ${JSON.stringify(body)}`);
    },
    { types: ['csp-violation'], buffered: true },
  );
  observer.observe();
}

/** Longer than any step of a start takes on a machine busy with other things; a step that hangs is then named. */
const STEP_LIMIT_MS = 25_000;

async function step<T>(name: string, work: Promise<T>): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const limit = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(() => reject(new Error(`hung at: ${name}`)), STEP_LIMIT_MS);
  });
  try {
    return await Promise.race([work, limit]);
  } finally {
    clearTimeout(timer);
  }
}

/**
 * Playwright holds an application back until it is connected only where it finds the runtime itself, through the
 * electron package; given a path to an executable it races the first window, and now and then hangs.
 */
function showRuntimeToPlaywright(): void {
  const own = join(appFolder, 'node_modules', 'electron', 'dist');
  const path = executablePath();
  if (!path.startsWith(own + sep)) process.env.ELECTRON_OVERRIDE_DIST_PATH = dirname(path);
}

/** Starts the application's process; what its pages complain about is collected from the first script on. */
async function openApplication(
  electron: Electron,
  dataFolder: string,
  folder: string,
  switches: readonly string[],
): Promise<Started> {
  showRuntimeToPlaywright();
  const app = await electron.launch({
    args: [...appArguments(folder), ...switches],
    env: appVariables(dataFolder),
    timeout: STEP_LIMIT_MS,
  });
  const trouble = new Trouble();
  app.context().on('console', (message) => {
    if (message.type() === 'error') trouble.add(`console: ${message.text()}`);
  });
  app.context().on('weberror', (error) => trouble.add(`page error: ${error.error().message}`));
  return { app, mainProcess: app.process(), trouble };
}

/** Asks the document itself: the event of a page that loaded before Playwright attached to it never comes again. */
async function loaded(page: Page): Promise<void> {
  await expect
    .poll(() => page.evaluate(() => (document.URL === 'about:blank' ? 'blank' : document.readyState)), {
      timeout: STEP_LIMIT_MS,
    })
    .toBe('complete');
}

/** Waits until the first page has been loaded and watches it for policy violations. */
async function firstPage({ app }: Started): Promise<Page> {
  const page = await step('first window', app.firstWindow({ timeout: STEP_LIMIT_MS }));
  await step('load', loaded(page));
  await step('watch later pages', page.addInitScript(reportViolations));
  await step('watch this page', page.evaluate(reportViolations));
  // A display has a pointer of its own, lying somewhere over the window: the moment the display reports it, what a test
  // holds down is let go. Playwright's own pointer does not come this way.
  const letThrough = app.evaluate(({ BrowserWindow }) => {
    for (const window of BrowserWindow.getAllWindows()) window.setIgnoreMouseEvents(true);
  });
  await step("keep the display's own pointer out", letThrough);
  return page;
}

/** How often the application is started until Playwright has hold of its first page. */
const ATTEMPTS = 3;

async function killed({ mainProcess }: Started): Promise<void> {
  if (mainProcess.exitCode !== null || mainProcess.signalCode !== null) return;
  const gone = new Promise<void>((resolve) => mainProcess.once('exit', () => resolve()));
  mainProcess.kill('SIGKILL');
  await gone;
}

/**
 * Starts the application and takes hold of its first page. About one start in twenty Playwright is told of the page and
 * never gets a context to ask anything in it (seen with the fallback runtime, busy machine or not; the application itself
 * has come up). Nothing has been tested by then: that start is ended, said so, and made again.
 */
export async function openWithPage(
  electron: Electron,
  dataFolder: string,
  folder = appFolder,
  switches: readonly string[] = [],
): Promise<Launched> {
  for (let attempt = 1; ; attempt += 1) {
    const started = await openApplication(electron, dataFolder, folder, switches);
    try {
      return { ...started, page: await firstPage(started) };
    } catch (fault) {
      await killed(started);
      if (attempt === ATTEMPTS) throw fault;
      console.log(
        `start ${attempt} ended: Playwright got no hold of the page (${String(fault).split('\n')[0]})`,
      );
    }
  }
}
