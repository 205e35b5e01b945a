/** Where this person's data lives: the same folder for window and command line. */
import { posix, win32 } from 'node:path';

const folderName = 'Datumline';

/**
 * `DATUMLINE_DATA` when set, else the operating system's place for application data (the one Electron calls
 * userData).
 */
export function dataFolder(env: NodeJS.ProcessEnv, platform: NodeJS.Platform, home: string): string {
  const { resolve, join } = platform === 'win32' ? win32 : posix;
  if (env.DATUMLINE_DATA) return resolve(env.DATUMLINE_DATA);
  if (platform === 'win32') return join(env.APPDATA || join(home, 'AppData', 'Roaming'), folderName);
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', folderName);
  return join(env.XDG_CONFIG_HOME || join(home, '.config'), folderName);
}
