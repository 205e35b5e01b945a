// The bay screen with gloves on: a reading by the keypad alone, the view across the bay, the screen wiped while at work.
import type { Page } from '@playwright/test';
import { expect, test } from './fixtures.ts';
import { JobPage } from './pages/jobPage.ts';
import { goTo, prepareShop } from './preparedShop.ts';
import { storedJob } from './storedJob.ts';

test('a reading by touch alone: the keypad writes into the field and never takes the focus from it', async ({
  bench,
}) => {
  const { lap } = await prepareShop(bench.dataFolder, ['lap']);
  const { page } = await bench.start();
  const { desk } = new JobPage(page);
  await goTo(page, `#/job/${lap}/datum`, '.desk');
  await page.getByTestId('keypad-open').click();
  const slot = await desk.panel.getAttribute('data-slot');
  // Wherever the focus was: the first key brings it to the field.
  await page.getByTestId('go-history').focus();
  for (const key of ['1', '0', '0', '0', 'decimal', '4', 'erase', '5']) {
    await page.getByTestId(`key-${key}`).click();
    await expect(desk.input).toBeFocused();
  }
  await expect(desk.input).toHaveValue('1000,5');
  await page.keyboard.press('Backspace');
  await page.keyboard.type('0');
  await expect(desk.input).toHaveValue('1000,0');
  const before = storedJob(bench.dataFolder, lap).events.length;
  await page.getByTestId('key-enter').click();
  await desk.isRecorded(slot ?? '');
  const { events } = storedJob(bench.dataFolder, lap);
  expect(events.length).toBe(before + 1);
  expect(events.at(-1)).toMatchObject({
    type: 'readingRecorded',
    payload: { quantity: slot, value: 1000, text: '1000,0' },
  });
  // Where it was left out it stands again after a restart of the window.
  await page.reload();
  await expect(page.getByTestId('keypad')).toBeVisible();
});

test('the screen is wiped while digits are typed: nothing gets through, nothing typed is lost', async ({
  bench,
}) => {
  const { lap } = await prepareShop(bench.dataFolder, ['lap']);
  const { page } = await bench.start();
  const { desk } = new JobPage(page);
  await goTo(page, `#/job/${lap}/datum`, '.desk');
  await desk.input.fill('1000');
  await page.keyboard.press('F9');
  const lock = page.getByTestId('wipe-lock');
  await expect(lock).toBeVisible();
  const before = storedJob(bench.dataFolder, lap).events.length;
  await page.keyboard.type('77');
  for (const key of ['Escape', 'F8', 'F9', 'Enter', 'Tab', 'Delete']) await page.keyboard.press(key);
  // Wiping goes over the button too, but never stays on it for a second.
  await page.getByTestId('unlock').click();
  await page.mouse.click(300, 300);
  await expect(lock).toBeVisible();
  await expect(desk.input).toHaveValue('1000');
  expect(storedJob(bench.dataFolder, lap).events.length).toBe(before);
  await page.getByTestId('unlock').hover();
  await page.mouse.down();
  await expect(lock).toBeHidden();
  await page.mouse.up();
  await expect(desk.input).toHaveValue('1000');
});

async function sizeOf(page: Page, selector: string): Promise<number> {
  return page
    .locator(selector)
    .first()
    .evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize));
}

test('across the bay: by key and by button, left by a touch, by Escape and by the key; the next action stays the same', async ({
  bench,
}) => {
  const { unmoved } = await prepareShop(bench.dataFolder, ['unmoved']);
  const { page } = await bench.start();
  const { nextAction } = new JobPage(page);
  await goTo(page, `#/job/${unmoved}/placement`, '.desk');
  const line = (await nextAction.textContent()) ?? '';
  const view = page.getByTestId('distance');
  expect(await sizeOf(page, '.next-line')).toBeGreaterThanOrEqual(28);
  const leave = [
    () => page.keyboard.press('Escape'),
    () => page.keyboard.press('F8'),
    () => page.getByTestId('distance-close').click(),
  ];
  for (const [index, leaving] of leave.entries()) {
    await (index === 0 ? page.getByTestId('distance-open').click() : page.keyboard.press('F8'));
    await expect(view).toBeVisible();
    await expect(view.locator('h1')).toHaveText(line);
    await expect(view.locator('.distance-row')).toHaveCount(3);
    await expect(view.locator('[data-verdict]')).toHaveCount(3);
    // The digits of the embedded family are 1493 of 2048 units high: at least a fifth of the window.
    const digits = (1493 / 2048) * (await sizeOf(page, '.distance-amount'));
    expect(digits).toBeGreaterThanOrEqual((await page.evaluate(() => window.innerHeight)) / 5);
    await leaving();
    await expect(view).toBeHidden();
  }
  // Nothing to see across the bay at Intake.
  await page.locator('.rail [data-stage="intake"]').click();
  await page.keyboard.press('F8');
  await expect(page.locator('.stage[data-view="intake"]')).toBeVisible();
  await expect(view).toBeHidden();
});

test('a second window shows what the first one shows, digits that are typed included; the display stays awake', async ({
  bench,
}) => {
  const { placed } = await prepareShop(bench.dataFolder, ['placed']);
  const { app, page } = await bench.start();
  const awake = () =>
    app.evaluate(({ powerSaveBlocker }) => [1, 2, 3, 0].some((id) => powerSaveBlocker.isStarted(id)));
  expect(await awake()).toBe(false);
  await goTo(page, `#/job/${placed}/placement`, '.desk');
  await expect.poll(awake).toBe(true);
  const [far] = await Promise.all([app.waitForEvent('window'), page.getByTestId('distance-second').click()]);
  const line = page.getByTestId('next-action');
  await expect(far.getByTestId('far').locator('h1')).toHaveText((await line.textContent()) ?? '');
  await expect(far.locator('[data-row]')).toHaveCount(3);
  // The second window offers nothing to touch, and has nothing of the record.
  await expect(far.locator('button')).toHaveCount(0);
  await page.evaluate(() => window.open('#/far', 'datumline-far'));
  expect(app.windows().length).toBe(2);
  // Anything else stays refused.
  expect(await page.evaluate(() => window.open('#/', 'other') === null)).toBe(true);
  await far.close();
});

test('two buttons from the fixture: the line is said and stands in the list, the click does what it asks', async ({
  bench,
}) => {
  const { unmoved } = await prepareShop(bench.dataFolder, ['unmoved']);
  const { page } = await bench.start();
  // The third button is learned on the list of jobs, by pressing it.
  await page.getByTestId('clicker').click();
  await page.getByTestId('learn-moved').click();
  await page.keyboard.press('a');
  await expect(page.locator('.dialog [role="status"]')).toBeVisible();
  await page.keyboard.press('F6');
  await expect(page.locator('[data-click="moved"] kbd')).toHaveText('F6');
  await page.keyboard.press('Escape');
  await goTo(page, `#/job/${unmoved}/placement`, '.desk');
  const { nextAction } = new JobPage(page);
  const said = page.getByTestId('said').locator('li');
  await page.getByTestId('announcer').click();
  await expect(said).toHaveCount(1);
  await expect(said).toContainText((await nextAction.textContent()) ?? '');
  await page.keyboard.press('PageUp');
  await expect(said).toHaveCount(2);
  const before = storedJob(bench.dataFolder, unmoved).events.length;
  await page.waitForTimeout(800);
  await page.keyboard.press('PageDown');
  await expect.poll(() => storedJob(bench.dataFolder, unmoved).events.length).toBe(before + 1);
  expect(storedJob(bench.dataFolder, unmoved).events.at(-1)).toMatchObject({
    type: 'bodyMoved',
    payload: { body: 'fixture', cause: 'moveDone' },
  });
  await expect(said).toHaveCount(3);
  await page.keyboard.press('F6');
  await expect.poll(() => storedJob(bench.dataFolder, unmoved).events.length).toBe(before + 2);
  expect(storedJob(bench.dataFolder, unmoved).events.at(-1)).toMatchObject({
    payload: { body: 'fixture', cause: 'moved' },
  });
});
