/**
 * Files by the SHA-256 of their bytes, under `files/<first two digits>/<digest>`. A file appears under its name only
 * when it is whole and on the disk: written aside, synced, renamed, folder synced.
 */
import { createHash, randomUUID } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { type FileHandle, mkdir, open, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import type { LocatedFile } from './wire.ts';

export interface FileStore {
  /** The stored file, or undefined when there is none of that digest. */
  locate(digest: string): Promise<LocatedFile | undefined>;
  /** Moves a finished file in; false (and the file is gone) when its bytes are not of that digest. */
  adopt(path: string, digest: string): Promise<boolean>;
  /** Stores bytes and returns their digest; storing the same bytes again changes nothing. */
  put(bytes: Uint8Array): Promise<string>;
  /** Keeps bytes until the next ones come: what is only looked at. */
  putPassing(bytes: Uint8Array): Promise<string>;
}

const DIGEST = /^[0-9a-f]{64}$/;

/** The only types the window is shown; anything else is served as plain bytes to save, never to render. */
const knownStarts: readonly (readonly [string, string])[] = [
  ['application/pdf', '255044462d'],
  ['image/png', '89504e470d0a1a0a'],
  ['image/jpeg', 'ffd8ff'],
];

/** The media type that a file's first bytes prove. */
export function mediaTypeOf(start: Uint8Array): string {
  const hex = Buffer.from(start).toString('hex');
  return knownStarts.find(([, known]) => hex.startsWith(known))?.[0] ?? 'application/octet-stream';
}

async function sync(path: string): Promise<void> {
  let handle: FileHandle | undefined;
  try {
    handle = await open(path, 'r');
    await handle.sync();
  } finally {
    await handle?.close();
  }
}

async function digestOfFile(path: string): Promise<string> {
  const hash = createHash('sha256');
  await pipeline(createReadStream(path), hash);
  return hash.digest('hex');
}

async function readStart(path: string): Promise<Uint8Array> {
  const handle = await open(path, 'r');
  try {
    const { buffer, bytesRead } = await handle.read(new Uint8Array(16), 0, 16, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await handle.close();
  }
}

/** A store below `folder`, which need not exist yet; files issued into `issuedFolder` (`<digest>.pdf`) are found too. */
export function createFileStore(folder: string, issuedFolder?: string): FileStore {
  const passing = join(folder, 'passing');
  const place = (digest: string) => join(folder, digest.slice(0, 2), digest);
  const places = (digest: string) => [
    place(digest),
    join(passing, digest),
    ...(issuedFolder === undefined ? [] : [join(issuedFolder, `${digest}.pdf`)]),
  ];

  async function moveIn(path: string, digest: string): Promise<void> {
    const target = place(digest);
    await mkdir(dirname(target), { recursive: true });
    await sync(path);
    await rename(path, target);
    // On Windows a folder cannot be opened; there the rename itself is journalled.
    if (process.platform !== 'win32') await sync(dirname(target));
  }

  return {
    async locate(digest) {
      if (!DIGEST.test(digest)) return undefined;
      for (const path of places(digest)) {
        const found = await stat(path).catch(() => undefined);
        if (found?.isFile()) return { path, mediaType: mediaTypeOf(await readStart(path)) };
      }
      return undefined;
    },
    async adopt(path, digest) {
      if (!DIGEST.test(digest) || (await digestOfFile(path)) !== digest) {
        await rm(path, { force: true });
        return false;
      }
      await moveIn(path, digest);
      return true;
    },
    async putPassing(bytes) {
      const digest = createHash('sha256').update(bytes).digest('hex');
      await rm(passing, { recursive: true, force: true });
      await mkdir(passing, { recursive: true });
      await writeFile(join(passing, digest), bytes, { flag: 'wx' });
      return digest;
    },
    async put(bytes) {
      const digest = createHash('sha256').update(bytes).digest('hex');
      if (await this.locate(digest)) return digest;
      await mkdir(folder, { recursive: true });
      const part = join(folder, `${randomUUID()}.part`);
      const handle = await open(part, 'wx');
      try {
        await handle.writeFile(bytes);
      } finally {
        await handle.close();
      }
      await moveIn(part, digest);
      return digest;
    },
  };
}
