/**
 * A picture made anew: its first bytes are looked at, it is decoded, drawn no larger than is kept, and written as a JPEG that
 * holds nothing but the picture. Place, time and camera of the original stay where they were.
 */
import {
  keptPhotoFacts,
  type PhotoProblem,
  PICTURE_LIMITS,
  pictureFacts,
  withoutForeignSegments,
} from '../../core/job/picture.ts';
import { err, ok, type Result } from '../../core/result.ts';

const QUALITY = 0.85;

export interface CleanPicture {
  readonly blob: Blob;
  readonly widthPx: number;
  readonly heightPx: number;
}

async function written(bitmap: ImageBitmap): Promise<Result<CleanPicture, PhotoProblem>> {
  const scale = Math.min(1, PICTURE_LIMITS.keptSidePx / Math.max(bitmap.width, bitmap.height));
  const widthPx = Math.max(1, Math.round(bitmap.width * scale));
  const heightPx = Math.max(1, Math.round(bitmap.height * scale));
  const canvas = new OffscreenCanvas(widthPx, heightPx);
  const context = canvas.getContext('2d');
  if (context === null) return err('picture/broken');
  // What was clear becomes paper.
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, widthPx, heightPx);
  context.drawImage(bitmap, 0, 0, widthPx, heightPx);
  bitmap.close();
  const encoded = await canvas.convertToBlob({ type: 'image/jpeg', quality: QUALITY });
  const bytes = withoutForeignSegments(new Uint8Array(await encoded.arrayBuffer()));
  const facts = keptPhotoFacts(bytes);
  if (!facts.ok) return facts;
  return ok({ blob: new Blob([Uint8Array.from(bytes)], { type: 'image/jpeg' }), widthPx, heightPx });
}

/** Makes a chosen file anew; refuses one that is no JPEG or PNG, is damaged, or too large to decode safely. */
export async function cleanPicture(file: Blob): Promise<Result<CleanPicture, PhotoProblem>> {
  if (file.size > PICTURE_LIMITS.fileBytes) return err('picture/tooLarge');
  const facts = pictureFacts(new Uint8Array(await file.arrayBuffer()));
  if (!facts.ok) return facts;
  if (facts.value.widthPx * facts.value.heightPx > PICTURE_LIMITS.filePixels) return err('picture/tooLarge');
  // The type is what the bytes prove, not what the name says.
  const typed = new Blob([file], { type: facts.value.mediaType });
  const bitmap = await createImageBitmap(typed, { imageOrientation: 'from-image' }).catch(() => undefined);
  return bitmap === undefined ? err('picture/broken') : written(bitmap);
}

/** What a camera shows at this moment. */
export async function pictureOfVideo(video: HTMLVideoElement): Promise<Result<CleanPicture, PhotoProblem>> {
  const bitmap = await createImageBitmap(video).catch(() => undefined);
  return bitmap === undefined ? err('picture/broken') : written(bitmap);
}
