// A VIN read from a code: by a scanner that acts as a keyboard, and by a camera that films a drawn label.
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { type DrawnKind, drawnCode } from '../renderer/scan/drawnCode.ts';
import { expect, test } from './fixtures.ts';
import { HomePage } from './pages/homePage.ts';

/** The worked example of a check digit that is printed most often; no car of anybody's. */
const VIN = '1M8GDM9AXKP042788';

const FILM = { width: 1280, height: 720 };

/** A film of one picture for Chromium's fake camera: YUV4MPEG2, luma from the picture, no colour. */
async function filmOf(kind: DrawnKind, text: string, folder: string): Promise<string> {
  const { width, height, pixels } = drawnCode(kind, text, 3, FILM);
  const luma = Buffer.from(pixels.map((grey) => 40 + (grey * 180) / 255));
  const chroma = Buffer.alloc((width * height) / 2, 128);
  const head = Buffer.from(`YUV4MPEG2 W${width} H${height} F15:1 Ip A1:1 C420jpeg\n`);
  const frame = Buffer.concat([Buffer.from('FRAME\n'), luma, chroma]);
  const path = join(folder, 'label.y4m');
  await writeFile(path, Buffer.concat([head, frame, frame]));
  return path;
}

const field = (page: Page) => page.locator('[data-field="new.vin"] input');

/** Keys as a hand scanner sends them: all in one go. */
async function scan(page: Page, text: string): Promise<void> {
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

test('a hand scanner opens a new job from the list, and fills the field it is aimed at', async ({ page }) => {
  const home = new HomePage(page);
  await home.openDemoShop();
  // Nothing has the focus: the scan is heard by the list. Sent inside the page, where a key costs no round trip.
  await page.evaluate((text) => {
    (document.activeElement as HTMLElement | null)?.blur();
    for (const key of [...text, 'Enter']) {
      document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    }
  }, `*I${VIN}*`);
  await expect(field(page)).toHaveValue(VIN);
  await expect(page.locator('[data-field="new.intake.plate"] input')).toBeFocused();
  await page.keyboard.press('Escape');
  await home.newJobButton.click();
  await expect(field(page)).toBeFocused();
  await scan(page, `VIN ${VIN}`);
  await expect(field(page)).toHaveValue(VIN);
  await expect(page.locator('[data-field="new.intake.plate"] input')).toBeFocused();
});

test('the camera reads a label, shows what it read, and takes it at a touch', async ({ bench }) => {
  const folder = await mkdtemp(join(tmpdir(), 'datumline-film-'));
  const film = await filmOf('datamatrix', `[)>\x1e06\x1dI${VIN}\x1e\x04`, folder);
  const { page } = await bench.start([
    '--use-fake-device-for-media-stream',
    `--use-file-for-fake-video-capture=${film}`,
  ]);
  const home = new HomePage(page);
  await home.openDemoShop();
  await home.newJobButton.click();
  await page.getByTestId('scan-open').click();
  const take = page.getByTestId('scan-take');
  await expect(take).toContainText(VIN);
  await expect(field(page)).toHaveValue('');
  await take.click();
  await expect(field(page)).toHaveValue(VIN);
  await expect(page.getByTestId('camera-scan')).toBeHidden();
  await rm(folder, { recursive: true });
});
