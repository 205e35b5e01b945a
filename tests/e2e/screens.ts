// The screens of the window with everything on them that a job can show, reached by their address.
import type { Page } from '@playwright/test';
import { expect } from './pages/expect.ts';
import { choosePerson } from './pages/homePage.ts';
import { goTo, type StopName, WHOLE } from './preparedShop.ts';

/** Jobs that the screens below need. */
export const NEEDED = ['lap', 'suspect', 'sliding', 'signed'] as const satisfies readonly StopName[];

export type Jobs = Readonly<Record<(typeof NEEDED)[number], string>>;

export interface Screen {
  readonly name: string;
  /** Where it is; the window is there already when absent. */
  readonly at?: (jobs: Jobs) => string;
  /** What is in sight once it is there. */
  readonly shown: string;
  /** What is done there before it is looked at. */
  readonly act?: (page: Page) => Promise<void>;
}

function view(job: keyof Jobs, name: string): Pick<Screen, 'at' | 'shown'> {
  return { at: (jobs) => `#/job/${jobs[job]}/${name}`, shown: `.stage[data-view="${name}"]` };
}

async function pressAndSee(page: Page, press: string, seen: string): Promise<void> {
  await page.getByTestId(press).first().click();
  await expect(page.locator(seen)).toBeVisible();
}

async function searchInVain(page: Page): Promise<void> {
  await page.locator('.home-tools input').fill('nothing has this plate');
  await expect(page.getByTestId('no-jobs')).toBeVisible();
}

async function askAboutEntry(page: Page): Promise<void> {
  await page.locator('.field-large input').fill('1,000');
  await page.keyboard.press('Enter');
  await expect(page.getByTestId('question')).toBeVisible();
}

async function failCapture(page: Page): Promise<void> {
  await page.getByTestId('capture-failed').click();
  await expect(page.getByTestId('capture').locator('input').first()).toBeFocused();
}

/** Somebody else than who read it, for whom it is no slip of a moment ago. */
async function askForStrike(page: Page): Promise<void> {
  await choosePerson(page, WHOLE.signer);
  await page.getByTestId('strike').first().click();
  await expect(page.getByRole('dialog')).toBeVisible();
}

export const HOME: Screen = { name: 'home', at: () => '#/', shown: '.jobs' };

export const SCREENS: readonly Screen[] = [
  HOME,
  { name: 'home, nothing found', shown: '.home-tools', act: searchInVain },
  {
    name: 'new job',
    shown: '.home-tools',
    act: (page) => pressAndSee(page, 'new-job', '[data-form="new-job"]'),
  },
  { name: 'shop', at: () => '#/shop', shown: '.shop-grid' },
  { name: 'check', at: () => '#/check', shown: '.drop' },
  { name: 'intake', ...view('lap', 'intake') },
  { name: 'pre-checks', ...view('lap', 'prechecks') },
  { name: 'bay', ...view('lap', 'bay') },
  { name: 'datum, under way', ...view('lap', 'datum') },
  { name: 'datum, a question beside the field', shown: '.desk', act: askAboutEntry },
  { name: 'placement, nothing read', ...view('lap', 'placement') },
  { name: 'placement, readings that contradict', ...view('suspect', 'placement') },
  {
    name: 'placement, keypad out',
    shown: '.desk',
    act: (page) => pressAndSee(page, 'keypad-open', '.keypad'),
  },
  { name: 'placement, striking', ...view('suspect', 'placement'), act: askForStrike },
  { name: 'placement, proven', ...view('sliding', 'placement') },
  { name: 'across the bay', shown: '.desk', act: (page) => pressAndSee(page, 'distance-open', '.distance') },
  { name: 'stations', ...view('sliding', 'stations') },
  { name: 'stations, a capture that failed', shown: '.desk', act: failCapture },
  { name: 'outcome', ...view('sliding', 'outcome') },
  { name: 'sign-off, things missing', ...view('suspect', 'signoff') },
  {
    name: 'signed',
    ...view('signed', 'signoff'),
    act: (page) => expect(page.getByTestId('check')).toBeVisible(),
  },
  { name: 'signed, placement', ...view('signed', 'placement') },
  { name: 'history', ...view('signed', 'history') },
  { name: 'wiping', shown: '.rail', act: (page) => pressAndSee(page, 'wipe', '.wipe') },
];

/** Goes to a screen and does what belongs to it. */
export async function show(page: Page, screen: Screen, jobs: Jobs): Promise<void> {
  if (screen.at !== undefined) await goTo(page, screen.at(jobs), screen.shown);
  await expect(page.locator(screen.shown).first()).toBeVisible();
  await screen.act?.(page);
}
