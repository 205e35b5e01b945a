/**
 * What is dropped as a picture is looked at again before it is stored: the window has made it anew without data about place,
 * time or camera, and here nothing else is let in, whoever sent it. What is no picture passes: certificates, reports.
 */
import { open, readFile, stat } from 'node:fs/promises';
import type { ErrorCode } from '../../../core/contract/errorCodes.ts';
import { keptPhotoFacts, looksLikePicture, PICTURE_LIMITS } from '../../../core/job/picture.ts';

async function startOf(path: string): Promise<Uint8Array> {
  const handle = await open(path, 'r');
  try {
    const { buffer, bytesRead } = await handle.read(new Uint8Array(8), 0, 8, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await handle.close();
  }
}

/** Why a dropped file may not be stored, or undefined. */
export async function droppedPictureProblem(path: string): Promise<ErrorCode | undefined> {
  if (!looksLikePicture(await startOf(path))) return undefined;
  if ((await stat(path)).size > PICTURE_LIMITS.keptBytes) return 'picture/tooLarge';
  const facts = keptPhotoFacts(await readFile(path));
  return facts.ok ? undefined : facts.error;
}
