/** Asks the disk to keep what was written. */
import { closeSync, fsyncSync, openSync } from 'node:fs';

/** Flushes a file, or the names in a folder. */
export function flush(path: string): void {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
