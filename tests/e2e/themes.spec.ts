// Every screen in both themes: nothing that axe finds, and a theme chosen here stays whatever the system says.
import { contrastViolations, violations } from './axe.ts';
import { expect, test } from './fixtures.ts';
import { goTo, prepareShop, setSystemTheme } from './preparedShop.ts';
import { NEEDED, SCREENS, show } from './screens.ts';

test('axe finds nothing on any screen in either theme', async ({ bench }) => {
  test.setTimeout(300_000);
  const jobs = await prepareShop(bench.dataFolder, NEEDED);
  const { app, page } = await bench.start();
  // A picture of the page at every question would cost as much as the answers.
  await app.context().tracing.stop();
  await setSystemTheme(page, 'light');
  for (const screen of SCREENS) {
    await test.step(screen.name, async () => {
      await show(page, screen, jobs);
      expect.soft(await violations(page), `${screen.name}, light`).toEqual([]);
      // The same page in other colours: only those are judged again.
      await setSystemTheme(page, 'dark');
      expect.soft(await contrastViolations(page), `${screen.name}, dark`).toEqual([]);
      await setSystemTheme(page, 'light');
    });
  }
});

test('axe finds nothing on the first start; a theme chosen here stays whatever the system says', async ({
  page,
}) => {
  await expect(page.getByTestId('open-demo')).toBeVisible();
  for (const theme of ['light', 'dark'] as const) {
    await setSystemTheme(page, theme);
    expect(await violations(page)).toEqual([]);
  }
  await page.getByTestId('open-demo').click();
  const choice = page.getByTestId('theme');
  await choice.locator('[data-value="light"]').click();
  await expect(page.locator(':root')).toHaveAttribute('data-theme', 'light');
  await goTo(page, '#/', '[data-testid="new-job"]');
  await expect(page.locator(':root')).toHaveAttribute('data-theme', 'light');
  await choice.locator('[data-value="system"]').click();
  await expect(page.locator(':root')).toHaveAttribute('data-theme', 'dark');
});
