// Pictures of the bay's parts for whoever asks for them by naming a folder; none otherwise.
import type { Page } from '@playwright/test';

const FOLDER = process.env.BAY_PICTURES;

export async function picture(page: Page, name: string): Promise<void> {
  if (FOLDER === undefined) return;
  for (const [width, height] of [
    [1366, 768],
    [1920, 1080],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.screenshot({ path: `${FOLDER}/${name}-${width}.png` });
  }
  await page.setViewportSize({ width: 1366, height: 768 });
}
