// Pictures of the window at a named size, for the README and for whoever judges the look.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from '@playwright/test';
import type { Rectangle } from 'electron';
import { appFolder, type Launched } from './launch.ts';

export const pictureFolder = join(appFolder, 'tests', 'output', 'pictures');

export const OFFICE = { width: 1366, height: 768 } as const;
export const BAY = { width: 1920, height: 1080 } as const;

interface Size {
  readonly width: number;
  readonly height: number;
}

async function setSize({ app, page }: Launched, { width, height }: Size): Promise<void> {
  await app.evaluate(
    ({ BrowserWindow }, size) => BrowserWindow.getAllWindows()[0]?.setContentSize(size.width, size.height),
    { width, height },
  );
  await page.waitForFunction(
    (size) => window.innerWidth === size.width && window.innerHeight === size.height,
    { width, height },
  );
}

/** Two frames after a change everything that measures itself has been drawn with its new size. */
function drawn({ page }: Launched): Promise<void> {
  return page.evaluate(
    () => new Promise<void>((resolve) => requestAnimationFrame(() => requestAnimationFrame(() => resolve()))),
  );
}

/** Everything that scrolls shows its beginning. */
function scrollToStart({ page }: Launched): Promise<void> {
  return page.evaluate(() => {
    for (const element of document.querySelectorAll('*')) if (element.scrollTop > 0) element.scrollTop = 0;
  });
}

/** Bytes of a picture of an empty frame are few; those of a page of print are many. */
const PRINT_BYTES = 40_000;

/** What the window shows, by Electron itself: Playwright's way of taking a picture upsets Chromium's view of a PDF. */
async function shown({ app }: Launched, part?: Rectangle): Promise<Buffer> {
  const base64 = await app.evaluate(async ({ BrowserWindow }, rectangle) => {
    const image = await BrowserWindow.getAllWindows()[0]?.webContents.capturePage(rectangle);
    return image?.toPNG().toString('base64') ?? '';
  }, part);
  return Buffer.from(base64, 'base64');
}

/** Chromium's own view draws a stored PDF without telling anybody: looked at until it is there and stays as it is. */
async function pdfIsDrawn(launched: Launched): Promise<void> {
  const box = await launched.page.locator('iframe').boundingBox();
  if (box === null) throw new Error('no frame is in sight');
  const rectangle = {
    x: Math.floor(box.x),
    y: Math.floor(box.y),
    width: Math.floor(box.width),
    height: Math.floor(box.height),
  };
  let before: Buffer = Buffer.alloc(0);
  await expect
    .poll(
      async () => {
        const now = await shown(launched, rectangle);
        const settled = now.length > PRINT_BYTES && now.equals(before);
        before = now;
        return settled;
      },
      { timeout: 30_000, message: 'the pages of the PDF in its frame' },
    )
    .toBe(true);
}

interface PictureOptions {
  readonly size?: Size;
  /** A stored PDF is in sight and must be drawn. */
  readonly pdf?: boolean;
}

/** Takes a picture of the window from its beginning; the pointer is put aside, so that nothing shines under it. */
export async function takePicture(
  launched: Launched,
  name: string,
  { size = OFFICE, pdf = false }: PictureOptions = {},
): Promise<void> {
  const { page } = launched;
  mkdirSync(pictureFolder, { recursive: true });
  await page.mouse.move(size.width / 2, 20);
  await setSize(launched, size);
  await scrollToStart(launched);
  await drawn(launched);
  const path = join(pictureFolder, `${name}.png`);
  if (pdf) {
    await pdfIsDrawn(launched);
    writeFileSync(path, await shown(launched));
  } else {
    await page.screenshot({ path, animations: 'disabled', caret: 'hide' });
  }
  if (size !== OFFICE) await setSize(launched, OFFICE);
}
