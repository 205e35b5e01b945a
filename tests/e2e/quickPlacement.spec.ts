// Before the fixture is proven: two readings of the guide, what it asks next, and Skip to the proof readings.
import { expect, test } from './fixtures.ts';
import { openWithPage } from './launch.ts';
import { JobPage } from './pages/jobPage.ts';
import { goTo, prepareShop, WHOLE } from './preparedShop.ts';
import { storedJob } from './storedJob.ts';

test('two readings bring the fixture near, and Skip opens the proof readings', async ({
  bench,
  playwright,
}) => {
  const { carKnown } = await prepareShop(bench.dataFolder, ['carKnown']);
  const { app, page } = await openWithPage(playwright._electron, bench.dataFolder);
  try {
    await goTo(page, `#/job/${carKnown}/placement`, '[data-step="look"]');
    const job = new JobPage(page);
    await expect(job.nextAction).toContainText(/^Quick look: /);
    const guide = page.locator('[data-testid="reading"][data-slot$="!guide"]');
    for (let taken = 0; taken < 2; taken++) {
      await expect(guide).toBeVisible();
      const slot = (await guide.getAttribute('data-slot')) ?? '';
      const step = WHOLE.steps.find((each) => each.do === 'reading' && `${each.quantity}!guide` === slot);
      if (step?.do !== 'reading') throw new Error(`the demo job does not read ${slot}`);
      if (step.direction !== null) await job.desk.direction(step.direction);
      await job.desk.input.click();
      await job.desk.type(step.text);
      await job.desk.enter();
      await expect(page.locator(`[data-testid="reading"][data-slot="${slot}"]`)).toHaveCount(0);
      await job.allRecorded();
    }
    const { events } = storedJob(bench.dataFolder, carKnown);
    const guides = events.filter(
      (each) => each.type === 'readingRecorded' && each.payload.purpose === 'guide',
    );
    expect(guides).toHaveLength(2);
    await page.getByTestId('quick-skip').click();
    await expect(page.getByTestId('quick')).toHaveCount(0);
    await expect(job.nextAction).toContainText(/^Read: /);
    await expect(page.locator('[data-testid="reading"][data-slot="bar.sameL"]')).toBeVisible();
  } finally {
    await app.close();
  }
});
