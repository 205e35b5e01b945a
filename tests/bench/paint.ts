/**
 * From a streamed reading to the repainted plan, in the real window: an instrument of another process sends sixty values a
 * second, each line with the moment it left; the window reads it, solves the placement with it, draws the plan anew. The
 * moment of the picture is the first task after the frame in which the plan changed. Both processes read one machine's
 * clock. A value that a newer one overtakes before its picture is not drawn and not counted; how many were drawn is told.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { _electron, type Page } from '@playwright/test';
import { freshDataFolder, openWithPage, removeDataFolder } from '../e2e/launch.ts';
import { goTo, stepIndex, WHOLE } from '../e2e/preparedShop.ts';
import { prepareStore } from '../e2e/preparedStore.ts';
import { recordStream, TAPE_FORMAT } from '../e2e/sendingTape.ts';
import { type Timing, timingOf } from './timing.ts';

/** 95th percentile, ms: two frames at sixty a second. */
const LIMIT_MS = 33;
const WARM_UP_MS = 3_000;
const MEASURED_MS = 10_000;
const SLOT = 'bar.sameL';
const TAPE = 'tape-1';

async function startInstrument(
  aroundMm: number,
): Promise<{ readonly port: number; readonly child: ChildProcess }> {
  const child = fork(new URL('./paintingInstrument.ts', import.meta.url), [String(aroundMm)]);
  const port = await new Promise<number>((resolve) => child.once('message', (told) => resolve(Number(told))));
  return { port, child };
}

interface Painted {
  /** Of each new picture of the plan: milliseconds since its value left the instrument. */
  readonly sinceLeftMs: readonly number[];
  /** Of each new picture: milliseconds since the window heard of its value. */
  readonly sinceHeardMs: readonly number[];
  /** Between one frame and the next. */
  readonly framesMs: readonly number[];
}

/** Watches the plan for a time. Runs in the page. */
function watchPlan(ms: number): Promise<Painted> {
  const sheet = document.querySelector('.plan-sheet');
  const live = document.querySelector('[data-testid="live"]');
  if (sheet === null || live === null) throw new Error('no plan or no live value');
  const [sinceLeftMs, sinceHeardMs, framesMs]: [number[], number[], number[]] = [[], [], []];
  const heardAt = new Map<string, number>();
  const now = (): number => performance.timeOrigin + performance.now();
  const stop = window.datumline.on('instrument.value', ({ line }) => heardAt.set(line, now()));
  const afterPicture = new MessageChannel();
  afterPicture.port1.onmessage = ({ data }: MessageEvent<string>) => {
    const at = now();
    const left = Number(data.split(' ').at(-1));
    const heard = heardAt.get(data);
    sinceLeftMs.push(at - left);
    if (heard !== undefined) sinceHeardMs.push(at - heard);
  };
  const watcher = new MutationObserver(() => {
    const line = live.getAttribute('data-line') ?? '';
    // The next frame's callback would be too late by a frame: this change is already part of the one under way.
    afterPicture.port2.postMessage(line);
  });
  watcher.observe(sheet, { subtree: true, childList: true, attributes: true, characterData: true });
  let last = performance.now();
  let running = true;
  const frame = (): void => {
    const at = performance.now();
    framesMs.push(at - last);
    last = at;
    if (running) requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
  return new Promise((resolve) =>
    setTimeout(() => {
      running = false;
      watcher.disconnect();
      stop();
      resolve({ sinceLeftMs, sinceHeardMs, framesMs });
    }, ms),
  );
}

async function measure(page: Page, job: string): Promise<Painted> {
  await goTo(page, `#/job/${job}/placement`, '.desk');
  await page.locator(`.lap [data-slot="${SLOT}"]`).click();
  await page.locator('[data-testid="plan"][data-preview]').waitFor();
  await page.waitForTimeout(WARM_UP_MS);
  return page.evaluate(watchPlan, MEASURED_MS);
}

/** Opens the real window on a fixture that is measured but not moved yet, with its first distance streaming in. */
export async function benchPaint(): Promise<readonly Timing[]> {
  const folder = await freshDataFolder();
  const moved = stepIndex((step) => step.do === 'moved');
  const first = WHOLE.steps.find((step) => step.do === 'reading' && step.quantity === SLOT);
  const aroundMm = Number((first?.do === 'reading' ? first.text : '').replace(',', '.'));
  const { port, child } = await startInstrument(aroundMm);
  try {
    const job = await prepareStore(folder, WHOLE, WHOLE.steps.slice(0, moved));
    const source = { kind: 'tcp' as const, host: '127.0.0.1', port };
    await recordStream(folder, TAPE, { source, format: TAPE_FORMAT });
    const { app, page } = await openWithPage(_electron, folder);
    try {
      const { sinceLeftMs, sinceHeardMs, framesMs } = await measure(page, job);
      const perSecond = (sinceLeftMs.length / MEASURED_MS) * 1000;
      console.log(`plan drawn anew ${perSecond.toFixed(1)} times a second`);
      if (sinceLeftMs.length < 10) throw new Error('the plan does not follow the instrument');
      return [
        timingOf('streamed reading to repainted plan, since it left the instrument', LIMIT_MS, sinceLeftMs),
        timingOf('streamed reading to repainted plan, since the window heard of it', null, sinceHeardMs),
        timingOf('between two frames meanwhile', null, framesMs),
      ];
    } finally {
      await app.close();
    }
  } finally {
    child.kill();
    await removeDataFolder(folder);
  }
}
