import type {} from '../../renderer/api.ts';
import { expect, test } from './fixtures.ts';

test('the window opens, shows what it is, and marks a test build', async ({ launched }) => {
  const { app, page } = launched;
  const title = await app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.getTitle());
  const answer = await page.evaluate(() => window.datumline.call('app.status', {}));
  if (!answer.ok) throw new Error(answer.error.code);
  const versions = await app.evaluate(() => process.versions.electron);
  const pinned = await app.evaluate(({ app: electron }) => electron.getVersion());
  expect(answer.value.version).toBe(pinned);
  expect(answer.value.build).toBe(versions === '45.3.4' ? 'development' : 'test build');
  expect(title).toBe(answer.value.build === 'test build' ? 'Datumline - test build' : 'Datumline');
  await expect(page.locator('#root')).not.toBeEmpty();
});
