/**
 * Issued files on disk, each named by its own digest. A file appears whole or not at all: written beside, flushed,
 * renamed, and the folder flushed, so that it outlives a loss of power.
 */
import { type FileHandle, mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { sha256Hex } from '../../../../core/canonical.ts';
import { err, ok, type Result } from '../../../../core/result.ts';

/**
 * - `certificate/storeFull`: no room left
 * - `certificate/storeNotWritable`: the folder is not there or may not be written
 */
export interface StoreError {
  readonly code: 'certificate/storeFull' | 'certificate/storeNotWritable';
}

export interface CertificateStore {
  /** Stores a file and gives its digest. Storing the same bytes again changes nothing. */
  write(bytes: Uint8Array): Promise<Result<string, StoreError>>;
  /** Digests of all stored files, in order. */
  list(): Promise<readonly string[]>;
  /** A stored file whose bytes still have its digest. */
  read(digest: string): Promise<Uint8Array | undefined>;
  /** Removes what an interrupted `write` left behind. */
  sweep(): Promise<void>;
}

const suffix = '.pdf';
const partSuffix = '.part';

/** A store in `folder`, which is made when it is not there. */
export function certificateStore(folder: string): CertificateStore {
  const pathOf = (digest: string) => join(folder, digest + suffix);
  return {
    write: (bytes) => classified(() => writeWhole(folder, bytes)),
    list: async () => (await namesIn(folder, suffix)).map((name) => name.slice(0, -suffix.length)),
    read: async (digest) => {
      const bytes = await readFile(pathOf(digest)).catch(() => undefined);
      return bytes !== undefined && sha256Hex(bytes) === digest ? bytes : undefined;
    },
    sweep: async () => {
      for (const name of await namesIn(folder, partSuffix)) await rm(join(folder, name), { force: true });
    },
  };
}

async function writeWhole(folder: string, bytes: Uint8Array): Promise<string> {
  const digest = sha256Hex(bytes);
  const part = join(folder, digest + partSuffix);
  await mkdir(folder, { recursive: true });
  await flushed(part, 'w', (file) => file.writeFile(bytes));
  await rename(part, join(folder, digest + suffix));
  await flushed(folder, 'r', async () => {});
  return digest;
}

async function flushed(
  path: string,
  flags: 'w' | 'r',
  use: (file: FileHandle) => Promise<void>,
): Promise<void> {
  const file = await open(path, flags);
  try {
    await use(file);
    await file.sync();
  } finally {
    await file.close();
  }
}

async function namesIn(folder: string, end: string): Promise<readonly string[]> {
  const names = await readdir(folder).catch((): string[] => []);
  return names.filter((name) => name.endsWith(end)).sort();
}

const full = new Set(['ENOSPC', 'EDQUOT', 'EFBIG']);
const notWritable = new Set(['EACCES', 'EPERM', 'EROFS', 'ENOENT', 'ENOTDIR', 'EEXIST', 'EISDIR']);

/** What the disk says, as an outcome. Anything else is not expected and passes. */
async function classified<T>(run: () => Promise<T>): Promise<Result<T, StoreError>> {
  try {
    return ok(await run());
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    if (full.has(code)) return err({ code: 'certificate/storeFull' });
    if (notWritable.has(code)) return err({ code: 'certificate/storeNotWritable' });
    throw error;
  }
}
