/** One log of this machine's last runs, kept small: an old one is put aside once. */
import { mkdirSync, openSync, renameSync, statSync, writeSync } from 'node:fs';
import { join } from 'node:path';

const LARGEST_BYTES = 2_000_000;

export interface Log {
  readonly descriptor: number;
  write(text: string): void;
}

export function openLog(dataFolder: string): Log {
  const folder = join(dataFolder, 'logs');
  mkdirSync(folder, { recursive: true });
  const path = join(folder, 'service.log');
  const size = statSync(path, { throwIfNoEntry: false })?.size ?? 0;
  if (size > LARGEST_BYTES) renameSync(path, join(folder, 'service.old.log'));
  const descriptor = openSync(path, 'a');
  return {
    descriptor,
    write: (text) => {
      writeSync(descriptor, `${new Date().toISOString()} main: ${text}\n`);
    },
  };
}
