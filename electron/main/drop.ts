/** Takes bytes from the window into a file of ours: size-limited while they arrive, named by their digest. */
import { createHash, randomUUID } from 'node:crypto';
import { mkdir, open, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { ErrorCode } from '../../core/contract/errorCodes.ts';
import { err, ok, type Result } from '../../core/result.ts';

/** A scan tool's report or a photo; a phone's largest pictures are near 20 MB. */
export const dropLimitBytes = 32 * 1024 * 1024;

export interface Drop {
  readonly path: string;
  readonly digest: string;
  readonly sizeBytes: number;
}

export type DropError = Extract<ErrorCode, 'file/tooLarge' | 'file/empty'>;

/** Writes the stream to a new file in `folder`; a refused stream leaves no file behind. */
export async function receiveDrop(
  body: AsyncIterable<Uint8Array>,
  folder: string,
  limitBytes: number = dropLimitBytes,
): Promise<Result<Drop, DropError>> {
  await mkdir(folder, { recursive: true });
  const path = join(folder, `${randomUUID()}.part`);
  const hash = createHash('sha256');
  let sizeBytes = 0;
  let whole = false;
  const file = await open(path, 'wx');
  try {
    for await (const chunk of body) {
      sizeBytes += chunk.byteLength;
      if (sizeBytes > limitBytes) return err('file/tooLarge');
      hash.update(chunk);
      await file.writeFile(chunk);
    }
    if (sizeBytes === 0) return err('file/empty');
    whole = true;
    return ok({ path, digest: hash.digest('hex'), sizeBytes });
  } finally {
    await file.close();
    if (!whole) await rm(path, { force: true });
  }
}
