// The shop's settings in the real window: every part of it clean and in sight, and an instrument that sends, tried on its
// own lines before it is kept.
import { violations } from './axe.ts';
import { expect, test } from './fixtures.ts';
import { choosePerson } from './pages/homePage.ts';
import { takePicture } from './pictures.ts';
import { goTo, prepareShop, setSystemTheme } from './preparedShop.ts';
import { SendingTape } from './sendingTape.ts';
import { cutText, smallTargets, spilledText } from './textMeasures.ts';

const TABS = ['shop', 'bays', 'equipment', 'instruments', 'people', 'procedures', 'thisPc'];

test('every part of the shop is clean; a tape that sends is tried on its lines before it is kept', async ({
  bench,
}) => {
  await prepareShop(bench.dataFolder, []);
  const tape = new SendingTape(1467);
  await tape.plugIn();
  const launched = await bench.start();
  const { page } = launched;
  await goTo(page, '#/shop', '.shop-grid');
  await choosePerson(page, 'greta');
  await setSystemTheme(page, 'light');
  for (const tab of TABS) {
    await test.step(tab, async () => {
      await page.locator(`[data-tab="${tab}"]`).click();
      await expect(page.locator(`[data-tab="${tab}"]`)).toHaveAttribute('aria-current', 'page');
      await takePicture(launched, `settings-${tab}`);
      expect.soft(await violations(page), tab).toEqual([]);
      for (const measure of [cutText, spilledText, smallTargets]) {
        expect.soft(await page.evaluate(measure), tab).toEqual([]);
      }
    });
  }

  await test.step('an untried way of sending is not kept; what is typed stays when the form is closed', async () => {
    await page.locator('[data-tab="instruments"]').click();
    const line = page.locator('[data-thing="tape-1"]');
    await line.getByTestId('edit-thing').click();
    await page.locator('[data-field="thing.stream.kind"] [data-value="tcp"]').click();
    await page.locator('[data-field="thing.stream.host"] input').fill('127.0.0.1');
    await page.locator('[data-field="thing.stream.port"] input').fill(String(tape.port));
    await page.getByTestId('add-thing-now').click();
    await expect(page.getByRole('alert')).toContainText('before it is kept');
    await page.keyboard.press('Escape');
    await expect(page.locator('[data-form="thing"]')).toBeHidden();
    await line.getByTestId('edit-thing').click();
    await expect(page.locator('[data-field="thing.stream.host"] input')).toHaveValue('127.0.0.1');
  });

  await test.step('tried on a live sample: a pattern that does not fit, then one that does', async () => {
    await page.getByTestId('listen').click();
    await expect(page.getByTestId('sample')).toContainText('D1 +1467.00 mm');
    const pattern = page.locator('[data-field="thing.stream.pattern"] input');
    await pattern.fill('X(?<value>[0-9.]+)');
    await page.getByTestId('try-format').click();
    await expect(page.getByTestId('trial')).toHaveAttribute('data-fits', 'false');
    await pattern.fill('D1 *[+](?<value>[0-9.]+) *(?<unit>mm)');
    await page.getByTestId('try-format').click();
    await expect(page.getByTestId('trial')).toHaveAttribute('data-fits', 'true');
    await expect(page.getByTestId('tried-lines').locator('li').last()).toContainText(/146[67]\.[0-9]+ mm/);
    await page.getByTestId('trial').scrollIntoViewIfNeeded();
    expect(await violations(page)).toEqual([]);
    await page.screenshot({ path: 'tests/output/pictures/settings-stream.png' });
    await page.getByTestId('add-thing-now').click();
    await expect(page.locator('[data-form="thing"]')).toBeHidden();
    await expect(page.locator('[data-thing="tape-1"]')).toContainText('sends by the network');
  });
  await setSystemTheme(page, 'dark');
  await takePicture(launched, 'settings-instruments-dark');
  await tape.unplug();
});
