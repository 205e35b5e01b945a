// Pictures of the window at a named size, for the README and for whoever judges the look.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
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

/** Takes a picture of the window as it stands; the pointer is put aside, so that nothing shines under it. */
export async function takePicture(launched: Launched, name: string, size: Size = OFFICE): Promise<void> {
  const { page } = launched;
  mkdirSync(pictureFolder, { recursive: true });
  await page.mouse.move(size.width / 2, 20);
  await setSize(launched, size);
  await drawn(launched);
  await page.screenshot({ path: join(pictureFolder, `${name}.png`), animations: 'disabled', caret: 'hide' });
  if (size !== OFFICE) await setSize(launched, OFFICE);
}
