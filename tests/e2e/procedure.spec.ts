// A quick procedure: typed beside its page by one person, reviewed by another, chosen in a job, changed, compared.
import type { Page } from '@playwright/test';
import { violations } from './axe.ts';
import { expect, test } from './fixtures.ts';
import { choosePerson } from './pages/homePage.ts';
import { confirmAll, fillQuickSheet, putPage, record, typeAt } from './pages/procedurePages.ts';
import { SensorPanel } from './pages/sensorPanel.ts';
import { OFFICE } from './pictures.ts';
import { goTo, prepareShop } from './preparedShop.ts';
import { cutText, smallTargets, spilledText } from './textMeasures.ts';

const TERN = 'tidewell-tern-forwardCamera';

/** For whoever judges the look: a folder outside the project, named in a variable. */
async function look(page: Page, name: string): Promise<void> {
  const folder = process.env.DATUMLINE_PROCEDURE_PICTURES;
  if (folder) await page.screenshot({ path: `${folder}/${name}.png` });
}

async function expectSound(page: Page, name: string): Promise<void> {
  await look(page, name);
  expect.soft(await page.evaluate(cutText), name).toEqual([]);
  expect.soft(await page.evaluate(spilledText), name).toEqual([]);
  expect.soft(await page.evaluate(smallTargets), name).toEqual([]);
  expect.soft(await violations(page), name).toEqual([]);
}

test('a quick procedure from the page to a job', async ({ bench }) => {
  test.setTimeout(120_000);
  const jobs = await prepareShop(bench.dataFolder, ['opened']);
  const { app, page } = await bench.start();
  await app.context().tracing.stop();
  await page.waitForFunction((size) => window.innerWidth === size.width, { ...OFFICE });
  await goTo(page, '#/shop', '.shop-grid');
  await page.locator('[data-tab="procedures"]').click();
  await choosePerson(page, 'mira');

  await test.step('what is missing is said beside its field', async () => {
    await page.getByTestId('quick-new').click();
    await expect(page.getByTestId('quick-procedure')).toBeVisible();
    await expectSound(page, 'quick-empty');
    await page.getByTestId('record-procedure').click();
    await expect(page.locator('[data-fault="stations.station1.up"]')).toBeVisible();
    await expectSound(page, 'quick-faults');
  });

  await test.step('typed beside its page, it is there unreviewed', async () => {
    await fillQuickSheet(page);
    await expect(page.locator('[data-fault]')).toHaveCount(0);
    await page.getByTestId('beside').locator('[data-value="drawing"]').click();
    await expect(page.getByTestId('pose-drawing')).toHaveAttribute('data-stations', '1');
    await expectSound(page, 'quick-drawing');
    await page.getByTestId('beside').locator('[data-value="page"]').click();
    await putPage(page);
    await record(page, TERN, 'unreviewed');
  });

  await test.step('who typed it cannot review it, a second person can', async () => {
    await page.getByTestId(`review-${TERN}`).click();
    await expect(page.getByTestId('against-review')).toBeVisible();
    await choosePerson(page, 'tobias');
    await expect(page.locator('iframe.source-page')).toBeVisible();
    await expectSound(page, 'review');
    await confirmAll(page);
    await expect(page.locator(`[data-procedure="${TERN}"] [data-review="secondPerson"]`)).toBeVisible();
    await expectSound(page, 'list');
  });

  await test.step('a job can choose it', async () => {
    await goTo(page, `#/job/${jobs.opened}/intake`, '.stage[data-view="intake"]');
    const sensors = new SensorPanel(page);
    const sensor = await sensors.add('forwardCamera', 'Second camera');
    await sensors.dispose(sensor, 'staticHere');
    await sensors.procedure(sensor, TERN);
    await expect(page.getByTestId(`procedure-${sensor}`)).toContainText('Tern');
  });

  await test.step('a change is a new edition, and what changed is one value', async () => {
    await goTo(page, `#/procedure/edit/${TERN}`, '[data-testid="procedure-editor"]');
    await typeAt(page, 'stations.station1.up', '1350 mm');
    await expectSound(page, 'editor');
    await record(page, TERN, 'unreviewed');
    await page.getByTestId(`compare-${TERN}`).click();
    await expect(page.locator('[data-differs]')).toHaveCount(1);
    await expect(page.locator('[data-differs="stations.station1.up"]')).toContainText('53 1/8 in');
    await expectSound(page, 'compare');
  });

  if (process.env.DATUMLINE_PROCEDURE_PICTURES) {
    await page.evaluate(() => document.documentElement.setAttribute('data-theme', 'dark'));
    await look(page, 'compare-dark');
    await goTo(page, '#/procedure/edit/petrel-front-radar', '[data-testid="procedure-editor"]');
    await look(page, 'editor-dark');
  }
});
