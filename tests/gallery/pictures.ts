// The gallery built, opened part by part, and drawn to files.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { appFolder, type Launched } from '../e2e/launch.ts';
import { buildVariant } from '../window/buildVariant.ts';

export const galleryFolder = join(appFolder, 'tests', 'output', 'gallery');

/** What covers a whole window has a page of its own; '' is all the rest. */
export const GALLERY_PAGES = ['', 'dialog', 'wipe', 'distance'] as const;

export type GalleryPage = (typeof GALLERY_PAGES)[number];

export function buildGallery(): Promise<string> {
  return buildVariant({ name: 'gallery', page: 'gallery/gallery.html' });
}

const SHOWN: Readonly<Record<GalleryPage, string>> = {
  '': '.gallery',
  dialog: '.dialog',
  wipe: '.wipe',
  distance: '.distance',
};

/** Opens one page of the gallery in one theme. The page of all components shows both themes whatever the root has. */
export async function openGallery(
  { page }: Launched,
  name: GalleryPage,
  theme: 'light' | 'dark',
): Promise<void> {
  await page.evaluate((hash) => window.history.replaceState(null, '', `#${hash}`), name);
  await page.reload();
  await page.evaluate((value) => {
    document.documentElement.dataset.theme = value;
  }, theme);
  await page.locator(SHOWN[name]).waitFor();
}

/** Writes one picture for all components, and one in each theme for what covers a window. Returns the paths. */
export async function takeGalleryPictures(launched: Launched): Promise<readonly string[]> {
  mkdirSync(galleryFolder, { recursive: true });
  const paths: string[] = [];
  for (const name of GALLERY_PAGES) {
    for (const theme of name === '' ? (['light'] as const) : (['light', 'dark'] as const)) {
      await openGallery(launched, name, theme);
      const path = join(galleryFolder, name === '' ? 'components.png' : `${name}-${theme}.png`);
      await launched.page.screenshot({ path, fullPage: name === '', animations: 'disabled', caret: 'hide' });
      paths.push(path);
    }
  }
  return paths;
}
