// The gallery opens in the real window under the same policy as the application, and axe finds nothing in either theme.
import { statSync } from 'node:fs';
import { buildGallery, GALLERY_PAGES, openGallery, takeGalleryPictures } from '../gallery/pictures.ts';
import { violations } from './axe.ts';
import { expect, test } from './fixtures.ts';
import { openWithPage } from './launch.ts';

test('every component in every state, in both themes', async ({ bench, playwright }) => {
  const launched = await openWithPage(playwright._electron, bench.dataFolder, await buildGallery());
  try {
    for (const name of GALLERY_PAGES) {
      for (const theme of ['light', 'dark'] as const) {
        await openGallery(launched, name, theme);
        expect.soft(await violations(launched.page), `${name} ${theme}`).toEqual([]);
      }
    }
    const pictures = await takeGalleryPictures(launched);
    expect(pictures).toHaveLength(1 + 2 * (GALLERY_PAGES.length - 1));
    for (const path of pictures) expect(statSync(path).size, path).toBeGreaterThan(10_000);
    expect(launched.trouble.lines).toEqual([]);
  } finally {
    await launched.app.close();
  }
});
