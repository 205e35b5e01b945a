// Starts the real application on a data folder of its own.
import type { ChildProcess } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Electron, ElectronApplication, Page } from '@playwright/test';
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

export interface Launched {
  readonly app: ElectronApplication;
  /** The main process; Playwright forgets it once the application is closed. */
  readonly mainProcess: ChildProcess;
  readonly page: Page;
  readonly trouble: Trouble;
}

export function freshDataFolder(): Promise<string> {
  return mkdtemp(join(tmpdir(), 'datumline-e2e-'));
}

export function removeDataFolder(folder: string): Promise<void> {
  return rm(folder, { recursive: true, force: true, maxRetries: 5 });
}

export function appArguments(): string[] {
  return [appFolder, ...sandboxArguments()];
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

/** Launches and waits until the first page has been loaded. */
export async function launch(electron: Electron, dataFolder: string): Promise<Launched> {
  const app = await electron.launch({
    executablePath: executablePath(),
    args: appArguments(),
    env: appVariables(dataFolder),
  });
  const trouble = new Trouble();
  app.context().on('console', (message) => {
    if (message.type() === 'error') trouble.add(`console: ${message.text()}`);
  });
  app.context().on('weberror', (error) => trouble.add(`page error: ${error.error().message}`));
  const page = await app.firstWindow();
  await page.waitForLoadState('load');
  await page.addInitScript(reportViolations);
  await page.evaluate(reportViolations);
  return { app, mainProcess: app.process(), page, trouble };
}
