/**
 * `npm run gallery`: every component in every state, in the real window. `-- --png` (and always where there is no
 * display) writes pictures to `tests/output/gallery` instead.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { parseArgs } from 'node:util';
import { _electron } from 'playwright';
import { hasDisplay, startDisplay } from '../../electron/setup/display.mjs';
import {
  appArguments,
  appVariables,
  executablePath,
  freshDataFolder,
  openWithPage,
  removeDataFolder,
} from '../e2e/launch.ts';
import { buildGallery, takeGalleryPictures } from './pictures.ts';

const { values } = parseArgs({ options: { png: { type: 'boolean', default: false } } });

async function pictures(folder: string, dataFolder: string): Promise<void> {
  const display = hasDisplay() ? undefined : await startDisplay();
  if (display !== undefined) process.env.DISPLAY = display.display;
  const launched = await openWithPage(_electron, dataFolder, folder);
  try {
    for (const path of await takeGalleryPictures(launched)) console.log(path);
  } finally {
    await launched.app.close();
    display?.stop();
  }
}

async function window(folder: string, dataFolder: string): Promise<void> {
  const child = spawn(executablePath(), appArguments(folder), {
    env: appVariables(dataFolder),
    stdio: 'inherit',
  });
  await once(child, 'exit');
}

const folder = await buildGallery();
const dataFolder = await freshDataFolder();
try {
  await (values.png || !hasDisplay() ? pictures : window)(folder, dataFolder);
} finally {
  await removeDataFolder(dataFolder);
}
