// Wording a third longer on the smallest screen: no text is cut off, and everything touched stays large enough.
import type { Page } from '@playwright/test';
import { buildVariant } from '../window/buildVariant.ts';
import { longerWords } from '../window/longerWords.ts';
import { expect, test } from './fixtures.ts';
import { openWithPage } from './launch.ts';
import { OFFICE } from './pictures.ts';
import { prepareShop } from './preparedShop.ts';
import { HOME, NEEDED, SCREENS, show } from './screens.ts';
import { cutText, settled, smallTargets, spilledText } from './textMeasures.ts';

/** Makes a fault; style sheets put in from outside are refused by the policy. */
function restyle(page: Page, selector: string, style: Readonly<Record<string, string>>): Promise<void> {
  return page.locator(selector).evaluateAll((elements, given) => {
    for (const element of elements) if (element instanceof HTMLElement) Object.assign(element.style, given);
  }, style);
}

test('wording a third longer at 1366 by 768: nothing is cut off, nothing too small to touch', async ({
  bench,
  playwright,
}) => {
  test.setTimeout(300_000);
  const [folder, jobs] = await Promise.all([
    buildVariant({ name: 'longer', plugins: [longerWords] }),
    prepareShop(bench.dataFolder, NEEDED),
  ]);
  const { app, page } = await openWithPage(playwright._electron, bench.dataFolder, folder);
  try {
    await page.waitForFunction(
      (size) => window.innerWidth === size.width && window.innerHeight === size.height,
      { ...OFFICE },
    );
    await test.step('the measures themselves find what is cut, spilled and small', async () => {
      await show(page, HOME, jobs);
      expect(await page.evaluate(cutText)).toEqual([]);
      await restyle(page, '.job-age', { display: 'block', width: '20px', overflow: 'hidden' });
      expect((await page.evaluate(cutText)).join()).toContain('is cut by job-age');
      expect((await page.evaluate(spilledText)).join()).toContain('job-age');
      await restyle(page, '.home-foot .button', { minHeight: '0', height: '40px' });
      expect((await page.evaluate(smallTargets)).join()).toContain('x40');
    });
    for (const screen of SCREENS) {
      await test.step(screen.name, async () => {
        await show(page, screen, jobs);
        await settled.poll(() => page.evaluate(cutText), { message: screen.name }).toEqual([]);
        await settled.poll(() => page.evaluate(spilledText), { message: screen.name }).toEqual([]);
        await settled.poll(() => page.evaluate(smallTargets), { message: screen.name }).toEqual([]);
      });
    }
  } finally {
    await app.close();
  }
});
