// A shop's day as it stands in the store: several jobs, each stopped where its screens are worth looking at, played by
// the service itself before the window opens. The window then goes to any of them by its address.

import type { Page } from '@playwright/test';
import { localHost } from '../../electron/cli/demo.ts';
import type { DemoScript } from '../../electron/cli/demoScript.ts';
import { callOrThrow, playScript, readScript } from '../../electron/cli/playScript.ts';
import { newId } from '../../electron/service/clock.ts';
import { startService } from '../../electron/service/handlers/index.ts';
import { createDispatch } from '../../electron/service/host/dispatch.ts';
import { expect } from './pages/expect.ts';

export const WHOLE = readScript(new URL('../../assets/demo/demo-job.json', import.meta.url));

/** Where in the demo job a job of this shop stopped. */
export interface Stop {
  readonly plate: string;
  /** How many steps are played; a step's own text may be changed on the way. */
  readonly steps: number;
  readonly changed?: (text: string, index: number) => string;
}

/** The first step of this kind from `from` on. */
export function stepIndex(wanted: (step: DemoScript['steps'][number]) => boolean, from = 0): number {
  const index = WHOLE.steps.findIndex((step, at) => at >= from && wanted(step));
  if (index < 0) throw new Error('the demo job has no such step');
  return index;
}

const reading = (quantity: string): number =>
  stepIndex((step) => step.do === 'reading' && step.quantity === quantity);

const firstMove = stepIndex((step) => step.do === 'moved');
const firstSlide = reading('slide');

/** A diagonal read 40 mm too short: the readings contradict each other. */
const misread = (text: string, index: number): string => (index === reading('diagonal.LR') ? '5100,5' : text);

/** The first step that answers this field. */
const answered = (field: string): number => stepIndex((step) => step.do === 'field' && step.field === field);

export const STOPS = {
  taken: { plate: 'TAKEN 0', steps: answered('prechecks.codesBefore') },
  checked: { plate: 'HALF 1', steps: answered('prechecks.pressureFL') },
  opened: { plate: 'NEW 1', steps: reading('floor.FL') },
  lap: { plate: 'LAP 2', steps: reading('behind.R') },
  carKnown: { plate: 'NEAR 8', steps: reading('bar.sameL') },
  unmoved: { plate: 'MOVE 3', steps: firstMove },
  placed: { plate: 'SET 4', steps: stepIndex((step) => step.do === 'show', firstMove) },
  suspect: { plate: 'ODD 5', steps: firstMove, changed: misread },
  sliding: { plate: 'SLIDE 6', steps: stepIndex((step) => step.do === 'capture', firstSlide) },
  ready: { plate: 'SIGN 7', steps: WHOLE.steps.length - 1 },
  signed: { plate: 'QUAY 61', steps: WHOLE.steps.length },
} as const satisfies Readonly<Record<string, Stop>>;

export type StopName = keyof typeof STOPS;

function scriptOf({ plate, steps, changed }: Stop): DemoScript {
  const played = WHOLE.steps.slice(0, steps).map((step, index) => {
    if (step.do === 'field' && step.field === 'intake.plate') return { ...step, text: plate };
    if (step.do === 'reading' && changed !== undefined) return { ...step, text: changed(step.text, index) };
    return step;
  });
  return { ...WHOLE, steps: played };
}

/** Plays these jobs into a new store with the demo shop. Returns the id of each. */
export async function prepareShop<N extends StopName>(
  folder: string,
  names: readonly N[],
): Promise<Readonly<Record<N, string>>> {
  const service = await startService(localHost(folder));
  const dispatch = createDispatch(service.handlers, (_trace, name, fault) => {
    throw new Error(`${name}: ${fault instanceof Error ? fault.stack : String(fault)}`);
  });
  try {
    const { shop } = await callOrThrow(dispatch, 'shop.openDemo', { commandId: newId() });
    if (shop === null) throw new Error('the demo shop did not open');
    const nobody = { shown: () => undefined, signed: () => undefined };
    const ids: [N, string][] = [];
    for (const name of names) {
      const job = await playScript(dispatch, scriptOf(STOPS[name]), shop, nobody);
      ids.push([name, job.id]);
    }
    return Object.fromEntries(ids) as Record<N, string>;
  } finally {
    await service.close();
  }
}

/** Goes to a screen by its address, as a reload of the window does. */
export async function goTo(page: Page, fragment: string, shown: string): Promise<void> {
  await page.evaluate((hash) => window.history.replaceState(null, '', hash), fragment);
  await page.reload();
  await expect(page.locator(shown).first()).toBeVisible();
}

export type Theme = 'light' | 'dark';

/** The system's own preference, which the window follows; at once, for a colour half way to another has no contrast. */
export async function setSystemTheme(page: Page, theme: Theme): Promise<void> {
  await page.emulateMedia({ colorScheme: theme, reducedMotion: 'reduce' });
  await expect(page.locator(`:root[data-theme="${theme}"]`)).toHaveCount(1);
}
