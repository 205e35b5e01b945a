// A photo through a fake camera and from a file, a check that forbids the work, and the draft before signing.
import { expect, test } from './fixtures.ts';
import { goTo, prepareShop } from './preparedShop.ts';
import { storedJob } from './storedJob.ts';

test('a photo by camera is kept clean, and the draft is drawn in the window', async ({ bench }) => {
  const { lap } = await prepareShop(bench.dataFolder, ['lap']);
  const { page } = await bench.start(['--use-fake-device-for-media-stream']);
  await goTo(page, `#/job/${lap}/prechecks`, '.stage[data-view="prechecks"]');
  const photos = page.getByTestId('photos');
  await photos.getByRole('button', { name: 'Take a photo' }).click();
  await page.getByRole('button', { name: 'Take it' }).click();
  await page.getByRole('dialog').locator('input').fill('Bracket at the mirror');
  await page.getByRole('button', { name: 'Keep this photo' }).click();
  await expect(photos.locator('img')).toHaveAttribute('alt', 'Bracket at the mirror');
  await expect
    .poll(() => photos.locator('img').evaluate((image) => (image as HTMLImageElement).naturalWidth))
    .toBeGreaterThan(100);
  const { events } = storedJob(bench.dataFolder, lap);
  expect(events.at(-1)).toMatchObject({
    type: 'photoAdded',
    payload: { stage: 'prechecks', mediaType: 'image/jpeg' },
  });
  expect(JSON.stringify(events.at(-1))).not.toContain('Bracket');

  await page.locator('[data-field="prechecks.unladen"] [data-value="no"]').click();
  await expect(page.getByTestId('forbids')).toBeVisible();
  await page.getByRole('button', { name: 'End as not calibrated' }).click();
  await expect(page.getByTestId('sign-panel')).toHaveAttribute('data-kind', 'notCalibrated');

  const draft = page.getByTestId('draft');
  await draft.getByRole('button', { name: 'Show the draft' }).click();
  await expect(draft).toHaveAttribute('data-state', 'drawn', { timeout: 20_000 });
  expect(await draft.locator('canvas').count()).toBeGreaterThan(1);
  const inked = await draft
    .locator('canvas')
    .first()
    .evaluate((element) => {
      const canvas = element as HTMLCanvasElement;
      const data = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
      return data.some((value, i) => i % 4 === 0 && value < 100);
    });
  expect(inked).toBe(true);
});
