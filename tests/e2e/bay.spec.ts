// The bay in the real window: its floor surveyed place by place, a job that takes its heights from that, space, light, due dates.
import type { Page } from '@playwright/test';
import { violations } from './axe.ts';
import { picture } from './bayPictures.ts';
import { expect, test } from './fixtures.ts';
import { goTo, prepareShop } from './preparedShop.ts';
import { storedJob } from './storedJob.ts';

const fill = async (page: Page, field: string, text: string): Promise<void> => {
  await page.locator(`[data-field="${field}"] input`).fill(text);
  await page.keyboard.press('Enter');
};

const part = (page: Page, name: string): Promise<void> =>
  page.getByTestId('bay-parts').locator(`[data-value="${name}"]`).click();

test('a bay is surveyed place by place, and a job takes its floor, its room and its light from there', async ({
  bench,
}) => {
  const { opened } = await prepareShop(bench.dataFolder, ['opened']);
  const launched = await bench.start();
  const { page } = launched;
  await goTo(page, `#/job/${opened}/bay`, '.desk');
  await picture(launched, 'floor-read-here');
  await part(page, 'survey');
  await picture(launched, 'survey-start');
  await fill(page, 'survey.length', '9000');
  await fill(page, 'survey.width', '4000');
  await fill(page, 'survey.step', '3000');
  await page.getByTestId('start-survey').click();
  // 4 along by 3 across, walked to and fro; the floor falls 2 mm/m along.
  const staffs = [1200, 1206, 1212, 1218, 1219, 1213, 1207, 1201, 1202, 1208, 1214, 1220];
  for (const [index, staff] of staffs.entries()) {
    await expect(page.getByTestId('survey-place')).toContainText(`${index + 1} of 12`);
    await page.locator('[data-field="survey.place"] input').fill(String(staff));
    await page.keyboard.press('Enter');
    if (index === 5) await picture(launched, 'survey-under-way');
  }
  await expect(page.getByTestId('survey-results')).toContainText('falls 2.00 mm/m');
  await picture(launched, 'survey-whole');
  expect(await violations(page)).toEqual([]);

  await part(page, 'floor');
  await page.getByTestId('floor-way').locator('[data-value="survey"]').click();
  await expect(page.getByRole('alert').first()).toBeVisible();
  for (const [field, text] of [
    ['bay.parkedAlong', '3000'],
    ['bay.parkedAcross', '2000'],
    ['bay.wheelbase', '2600'],
    ['bay.track', '1500'],
    ['bay.carWidth', '2000'],
    ['bay.frontOverhang', '850'],
    ['bay.rearOverhang', '700'],
  ] as const) {
    await fill(page, field, text);
  }
  await page.locator('[data-field="bay.parkedNose"] [data-value="alongX"]').click();
  const heights = page.getByTestId('supplied-heights');
  await expect(heights).toContainText('mm, U');
  // What the survey gives is asked for no more.
  await expect(page.getByTestId('next-action')).not.toContainText('staff');
  await picture(launched, 'floor-from-survey');
  expect(await violations(page)).toEqual([]);

  await part(page, 'space');
  await picture(launched, 'space-empty');
  await fill(page, 'room.length', '9000');
  await fill(page, 'room.width', '4000');
  await page.getByTestId('draw-room').click();
  await expect(page.getByTestId('space-plan')).toBeVisible();
  await expect(page.getByTestId('space-answer')).toHaveAttribute('data-fits', 'true');
  await page.getByTestId('find-place').click();
  await expect(page.getByTestId('parking-answer')).toBeVisible();
  await picture(launched, 'space-fits');
  await fill(page, 'bay.parkedAlong', '5000');
  await expect(page.getByTestId('space-answer')).toHaveAttribute('data-fits', 'false');
  await picture(launched, 'space-lacks');
  expect(await violations(page)).toEqual([]);

  await part(page, 'light');
  for (const [index, lux] of [520, 540, 430, 450, 600].entries())
    await fill(page, `bay.light${index + 1}`, String(lux));
  await expect(page.getByTestId('light-found')).toContainText('508 lx');
  await picture(launched, 'light');
  await part(page, 'due');
  await expect(page.getByTestId('due-list')).toContainText('0 overdue');
  await picture(launched, 'due');
  expect(await violations(page)).toEqual([]);
  const recorded = (field: string) =>
    storedJob(bench.dataFolder, opened).events.findLast((each) => {
      const payload = each.payload as { readonly field?: string };
      return each.type === 'fieldRecorded' && payload.field === field;
    })?.payload;
  await expect.poll(() => recorded('bay.lightMean')).toMatchObject({ value: 508, text: '508' });
  expect(recorded('bay.lightUniformity')).toMatchObject({ value: 0.85 });
});
