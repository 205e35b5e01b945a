// Pictures of the bay's parts for whoever names a folder for them; none otherwise.
import type { Launched } from './launch.ts';

const FOLDER = process.env.BAY_PICTURES;

export async function picture({ app, page }: Launched, name: string): Promise<void> {
  if (FOLDER === undefined) return;
  for (const [width, height] of [
    [1920, 1080],
    [1366, 768],
  ] as const) {
    await app.evaluate(
      ({ BrowserWindow }, size) => BrowserWindow.getAllWindows()[0]?.setContentSize(size[0], size[1]),
      [width, height] as const,
    );
    await page.waitForFunction((size) => window.innerWidth === size, width);
    await page.screenshot({ path: `${FOLDER}/${name}-${width}.png` });
  }
}
