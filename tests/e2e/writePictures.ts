/**
 * Copies the pictures that the run of the demo job took into `assets/pictures`, where the README shows them:
 * `DATUMLINE_PICTURES=1 npm test`, then `node tests/e2e/writePictures.ts`. Refuses what would make the repository heavy.
 */
import { copyFileSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { appFolder } from './launch.ts';
import { pictureFolder } from './pictures.ts';

/** The pictures shown, in the order of the job. */
export const SHOWN = [
  'home',
  'intake',
  'prechecks',
  'bay',
  'datum',
  'placement-before',
  'placement-proven-bay',
  'stations',
  'signoff',
  'certificate',
] as const;

const MOST_BYTES = 2_000_000;

const target = join(appFolder, 'assets', 'pictures');
const sizes = SHOWN.map((name) => statSync(join(pictureFolder, `${name}.png`)).size);
const total = sizes.reduce((sum, size) => sum + size, 0);
if (total > MOST_BYTES) throw new Error(`${total} bytes of pictures, more than ${MOST_BYTES}`);
mkdirSync(target, { recursive: true });
for (const name of readdirSync(target)) if (name.endsWith('.png')) rmSync(join(target, name));
for (const name of SHOWN) copyFileSync(join(pictureFolder, `${name}.png`), join(target, `${name}.png`));
console.log(`${SHOWN.length} pictures, ${total} bytes, in ${target}`);
