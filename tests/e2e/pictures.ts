// Pictures of the window at a named size, for the README and for whoever judges the look.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from '@playwright/test';
import { appFolder, type Launched } from './launch.ts';

export const pictureFolder = join(appFolder, 'tests', 'output', 'pictures');

export const OFFICE = { width: 1366, height: 768 } as const;
export const BAY = { width: 1920, height: 1080 } as const;

interface Size {
  readonly width: number;
  readonly height: number;
}

async function setSize({ app, page }: Launched, { width, height }: Size): Promise<void> {
  await app.evaluate(({ BrowserWindow }, size) => BrowserWindow.getAllWindows()[0]?.setContentSize(...size), [
    width,
    height,
  ] as [number, number]);
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

/** Chromium's own view draws a stored PDF without telling anybody: looked at until it is there and stays as it is. */
export async function pdfIsDrawn({ page }: Launched): Promise<void> {
  let before: Buffer = Buffer.alloc(0);
  await expect
    .poll(
      async () => {
        const now = await page.locator('iframe').screenshot();
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
  if (pdf) await pdfIsDrawn(launched);
  await page.screenshot({ path: join(pictureFolder, `${name}.png`), animations: 'disabled', caret: 'hide' });
  if (size !== OFFICE) await setSize(launched, OFFICE);
}
