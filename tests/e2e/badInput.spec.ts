// What bad input gets in the real window: a question in plain words beside the field, the text kept as typed, a cure by
// one tap, and nothing recorded meanwhile.

import type { DemoStep } from '../../electron/cli/demoScript.ts';
import { readScript } from '../../electron/cli/playScript.ts';
import { expect, test } from './fixtures.ts';
import type { Launched } from './launch.ts';
import { HomePage } from './pages/homePage.ts';
import { JobPage } from './pages/jobPage.ts';
import { prepareStore } from './preparedStore.ts';
import { type StoredJob, storedJob } from './storedJob.ts';

const SCRIPT = readScript(new URL('../../assets/demo/demo-job.json', import.meta.url));
const PLATE = 'QUAY 61';

const indexOf = (quantity: string): number =>
  SCRIPT.steps.findIndex((step) => step.do === 'reading' && step.quantity === quantity);

/** The steps before the first reading of a quantity, some readings typed otherwise. */
function stepsBefore(quantity: string, typed: Readonly<Record<string, string>> = {}): readonly DemoStep[] {
  return SCRIPT.steps
    .slice(0, indexOf(quantity))
    .map((step) => (step.do === 'reading' ? { ...step, text: typed[step.quantity] ?? step.text } : step));
}

interface Prepared {
  readonly job: JobPage;
  readonly stored: () => StoredJob;
}

/** A store with these steps done, and the window open at the job. */
async function opened(
  bench: { readonly dataFolder: string; start(): Promise<Launched> },
  steps: readonly DemoStep[],
): Promise<Prepared> {
  const id = await prepareStore(bench.dataFolder, SCRIPT, steps);
  const { page } = await bench.start();
  const home = new HomePage(page);
  await home.choosePerson(SCRIPT.person);
  await home.openJob(PLATE);
  return { job: new JobPage(page), stored: () => storedJob(bench.dataFolder, id) };
}

const lastReading = (stored: StoredJob) => {
  const event = stored.events.at(-1);
  if (event?.type !== 'readingRecorded') throw new Error(`the last entry is ${event?.type}`);
  return event.payload;
};

/** What is typed for a distance that must read about 1443 mm, what is asked, and what the first cure makes of it. */
const SLIPS = [
  { typed: '1,441', asked: 'decimal sign, or did it only group', cure: 'take 1441.0 mm' },
  { typed: '14410', asked: 'about ten times what fits', cure: 'take 1441.0 mm' },
  { typed: '144,1', asked: 'about a tenth of what fits', cure: 'take 1441.0 mm' },
  { typed: '56,73', asked: 'read in inches', cure: 'take 1440.9 mm' },
  { typed: '1541', asked: '100 mm more than expected', cure: 'take 1441.0 mm' },
  { typed: '1341', asked: '100 mm less than expected', cure: 'take 1441.0 mm' },
  { typed: '-1441', asked: 'below zero', cure: 'take 1441.0 mm' },
  { typed: '3800', asked: 'far from what is expected', cure: 'keep 3800.0 mm' },
] as const;

test('slips of a distance are asked about in plain words, kept as typed, and cured by one tap', async ({
  bench,
}) => {
  const { job, stored } = await opened(bench, stepsBefore('bar.sameL'));
  await job.openStage('placement');
  const { desk } = job;
  await desk.open('bar.sameL');
  const events = stored().events.length;
  for (const { typed, asked, cure } of SLIPS) {
    await desk.type(typed);
    await desk.enter();
    await expect(desk.question, typed).toContainText(asked);
    await expect(desk.question.getByRole('button', { name: cure }), typed).toBeVisible();
    await expect(desk.input).toHaveValue(typed);
    expect(stored().events).toHaveLength(events);
  }
  await expect.poll(() => stored().drafts['reading:camera:bar.sameL'] ?? stored().drafts).toBe('3800');

  for (const typed of ['about a metre and a half', '14.4.1', '-', '1 3/0 in']) {
    await desk.type(typed);
    await desk.enter();
    await expect(desk.refusal, typed).toBeVisible();
    await expect(desk.input).toHaveValue(typed);
    expect(stored().events).toHaveLength(events);
  }
  await desk.type('1 441');
  await desk.enter();
  await expect(desk.refusal).toContainText('two numbers');
  await desk.refusal.getByRole('button', { name: 'take 1441' }).click();
  await expect(desk.input).toHaveValue('1441');
  expect(stored().events).toHaveLength(events);

  await desk.input.click();
  await desk.type('1,441');
  await desk.enter();
  await desk.question.getByRole('button', { name: 'take 1441.0 mm' }).click();
  await desk.isRecorded('bar.sameL');
  await job.allRecorded();
  expect(stored().events).toHaveLength(events + 1);
  expect(lastReading(stored())).toMatchObject({ quantity: 'bar.sameL', value: 1441, text: '1,441' });
});

test('a person who is sure keeps what they typed', async ({ bench }) => {
  const { job, stored } = await opened(bench, stepsBefore('bar.sameL'));
  await job.openStage('placement');
  await job.desk.open('bar.sameL');
  await job.desk.type('1541');
  await job.desk.enter();
  await job.desk.question.getByRole('button', { name: 'keep 1541.0 mm' }).click();
  await job.desk.isRecorded('bar.sameL');
  await job.allRecorded();
  expect(lastReading(stored())).toMatchObject({ value: 1541, text: '1541' });
});

test('numbers of a form are asked about beside their box', async ({ bench }) => {
  const intake = SCRIPT.steps.findIndex((step) => step.do === 'field' && step.field.startsWith('prechecks.'));
  const { job, stored } = await opened(bench, SCRIPT.steps.slice(0, intake));
  await job.openStage('prechecks');
  const { form } = job;
  const key = 'prechecks.pressureFL';
  const events = stored().events.length;
  const question = form.field(key).getByTestId('question');
  for (const [typed, asked] of [
    ['2400', 'about ten times'],
    ['-240', 'below zero'],
    ['3', 'outside what a car and a bay can show'],
  ] as const) {
    await form.enter(key, typed);
    await expect(question, typed).toContainText(asked);
    await expect(form.input(key)).toHaveValue(typed);
  }
  await form.enter(key, 'hard');
  await expect(form.field(key).getByTestId('refusal')).toContainText('not a number that can be read');
  await form.enter(key, '2,4 furlongs');
  await expect(form.field(key).getByTestId('refusal')).toContainText('furlongs');
  expect(stored().events).toHaveLength(events);
  await form.enter(key, '2400');
  await question.getByRole('button', { name: 'take 240 kPa' }).click();
  await form.isRecorded(key);
  const last = stored().events.at(-1);
  expect(last?.payload).toMatchObject({ field: key, value: 240, text: '2400' });
});

/**
 * The points ahead of the car set out 400 mm farther on the car's right, so that the two sides must read differently. Plane
 * geometry by hand from the demo's own readings: rear points 2051 apart, the lines as its diagonals fix them.
 */
function fartherOnTheRight(byMm: number): Readonly<Record<string, string>> {
  const left = 999.5 + 2716.5 + 1000.5;
  const right = 1000 + 2708 + 1000.5;
  // Rear left point at the origin, the left line along x.
  const meet = (a: number, b: number, apart: number): readonly [number, number] => {
    const x = (a * a - b * b + apart * apart) / (2 * apart);
    return [x, -Math.sqrt(a * a - x * x)];
  };
  const rear = meet(2051, 5142.5, left);
  const reach = 5140.5;
  // The right front point: `right` from the rear right point, `reach` from the origin.
  const apart = Math.hypot(...rear);
  const along = (reach * reach - right * right + apart * apart) / (2 * apart);
  const off = Math.sqrt(reach * reach - along * along);
  const unit = [rear[0] / apart, rear[1] / apart] as const;
  const front = [along * unit[0] - off * unit[1], along * unit[1] + off * unit[0]] as const;
  const direction = [(front[0] - rear[0]) / right, (front[1] - rear[1]) / right] as const;
  const moved = [front[0] + byMm * direction[0], front[1] + byMm * direction[1]] as const;
  const typed = (value: number): string => value.toFixed(1);
  return {
    'ahead.R': typed(1000.5 + byMm),
    'diagonal.LR': typed(Math.hypot(...moved)),
    'width.ahead': typed(Math.hypot(moved[0] - left, moved[1])),
  };
}

test('two distances typed at each other’s side are recognised and exchanged by one tap', async ({
  bench,
}) => {
  const { job, stored } = await opened(bench, stepsBefore('bar.sameL', fartherOnTheRight(400)));
  await job.openStage('placement');
  const { desk } = job;
  await desk.open('bar.sameL');
  // The car's right stands 400 mm nearer: this is its reading, typed for the car's left.
  await desk.type('1253');
  await desk.enter();
  await desk.question.getByRole('button', { name: 'keep 1253.0 mm' }).click();
  await desk.isRecorded('bar.sameL');
  await desk.open('bar.sameR');
  await desk.type('1648');
  await desk.enter();
  await expect(desk.question).toContainText("fit if the car's left and the car's right are exchanged");
  const events = stored().events.length;
  await desk.question.getByRole('button', { name: 'exchange' }).click();
  await desk.isRecorded('bar.sameR');
  await job.allRecorded();
  const facts = stored().events.slice(events);
  expect(facts.map(({ type }) => type)).toEqual(['readingStruck', 'readingRecorded', 'readingRecorded']);
  const readings = facts.flatMap((event) => (event.type === 'readingRecorded' ? [event.payload] : []));
  expect(Object.fromEntries(readings.map(({ quantity, value, text }) => [quantity, [value, text]]))).toEqual({
    'bar.sameR': [1253, '1253'],
    'bar.sameL': [1648, '1648'],
  });
});

test('readings that cannot fix a pose name what is open and what is still to be read', async ({ bench }) => {
  const { job } = await opened(bench, stepsBefore('bar.sameR'));
  await job.openStage('placement');
  await expect(job.nextAction).toHaveText("Read: car's-right point ahead to car's-right bar end");
  const open = job.page.getByTestId('still-open');
  await expect(open).toContainText('Where the fixture stands is not known yet.');
  await expect(open).toContainText("car's-right point ahead to car's-right bar end");
  await expect(open).toContainText("car's-right point ahead to car's-left bar end");
  await job.openStage('datum');
  await expect(job.page.getByTestId('car-found')).toContainText('Wheelbase');
});

test('while the car is not found the lap says so', async ({ bench }) => {
  const { job } = await opened(bench, stepsBefore('drop.RL'));
  await job.openStage('datum');
  const open = job.page.getByTestId('car-found').getByTestId('still-open');
  await expect(open).toContainText('Where the wheels stand is not known yet.');
  await expect(open).toContainText("drop of the car's left rear hub");
  await expect(open).toContainText('more.');
});

test('a reading that contradicts the others is named among "one of these", and nothing is proven', async ({
  bench,
}) => {
  const whole = SCRIPT.steps.map((step) =>
    step.do === 'reading' && step.quantity === 'bar.diagLR' ? { ...step, text: '2511,5' } : step,
  );
  const moved = whole.findIndex((step) => step.do === 'moved');
  const { job, stored } = await opened(bench, whole.slice(0, moved));
  await job.openStage('placement');
  const notice = job.page.getByRole('alert');
  await expect(notice).toContainText('One of these does not fit');
  await expect(notice).toContainText("car's-left point ahead to car's-right bar end");
  await expect(notice).toContainText('Read again first');
  expect(
    (await job.texts()).filter((text) => /\b(tape\.scale|fixture\.bar|plumb\.barEnd)\b/.test(text)),
  ).toEqual([]);
  await expect(job.nextAction).toContainText('does not fit');
  await expect(job.page.locator('[data-verdict="proven"]')).toHaveCount(0);
  await job.openStage('signoff');
  await expect(job.signOff.stops).toContainText('The readings do not agree with each other');
  expect(stored().problems).toEqual([]);
});
