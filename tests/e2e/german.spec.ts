// The window in German: chosen at the foot of the list, kept, on every main screen; nothing is cut off on the smallest
// screen, axe finds nothing, and no word of the plain rule's is there.
import type { Page } from '@playwright/test';
import { say, speak, wordFaults } from '../../core/words/index.ts';
import { violations } from './axe.ts';
import { expect, test } from './fixtures.ts';
import { OFFICE } from './pictures.ts';
import { goTo, prepareShop } from './preparedShop.ts';
import { NEEDED, SCREENS, show } from './screens.ts';
import { cutText, settled, smallTargets, spilledText } from './textMeasures.ts';

/** For whoever judges the look: a folder outside the project, named in a variable. */
async function keepPicture(page: Page, name: string): Promise<void> {
  const folder = process.env.DATUMLINE_GERMAN_PICTURES;
  if (folder) await page.screenshot({ path: `${folder}/${name.replaceAll(/[^a-z]+/g, '-')}.png` });
}

test('every main screen in German, at 1366 by 768, lengths in inches and in mm', async ({ bench }) => {
  test.setTimeout(180_000);
  const jobs = await prepareShop(bench.dataFolder, NEEDED);
  const { app, page } = await bench.start();
  await app.context().tracing.stop();
  await page.waitForFunction(
    (size) => window.innerWidth === size.width && window.innerHeight === size.height,
    { ...OFFICE },
  );
  speak('de');
  await goTo(page, '#/', '.jobs');
  await page.getByTestId('language').locator('[data-value="de"]').click();
  await expect(page.locator('html')).toHaveAttribute('lang', 'de-DE');
  await expect(page.getByTestId('new-job')).toHaveText(say('home.newJob'));
  await page.getByTestId('length-unit').locator('[data-value="in"]').click();
  await goTo(page, `#/job/${jobs.sliding}/placement`, '.card');
  await expect(page.locator('.card').first()).toContainText(/\d\.\d\d in/);
  await goTo(page, '#/', '.jobs');
  await page.getByTestId('length-unit').locator('[data-value="mm"]').click();
  for (const screen of SCREENS) {
    await test.step(screen.name, async () => {
      await show(page, screen, jobs);
      await keepPicture(page, screen.name);
      await settled.poll(() => page.evaluate(cutText), { message: screen.name }).toEqual([]);
      await settled.poll(() => page.evaluate(spilledText), { message: screen.name }).toEqual([]);
      await settled.poll(() => page.evaluate(smallTargets), { message: screen.name }).toEqual([]);
      expect.soft(await violations(page), screen.name).toEqual([]);
      const words = await page.evaluate(() => document.body.textContent ?? '');
      // What the demo's own procedure and equipment are called stays in the language they were typed in.
      const ours = words.replaceAll(/car's(?: |-)(?:left|right)/g, '');
      expect
        .soft(
          wordFaults(ours).filter(({ fault }) => fault !== 'signedNumber'),
          screen.name,
        )
        .toEqual([]);
    });
  }
});
