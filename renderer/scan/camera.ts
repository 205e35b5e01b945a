/** The PC's camera as a stream of pictures to decode: one at a time, the next when the last is answered. */
import type { ScanAnswer } from './readCodes.ts';

/** Why the camera shows nothing; each has its words. */
export type CameraFault = 'scan.noCamera' | 'scan.cameraBusy' | 'scan.cameraRefused' | 'scan.decoderFailed';

/** Longest side of a decoded picture, pixels: finer ones cost time and read no more labels. */
const LONGEST_SIDE = 1_280;

export function cameraFault(error: unknown): CameraFault {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'scan.cameraRefused';
  if (name === 'NotReadableError' || name === 'AbortError') return 'scan.cameraBusy';
  return 'scan.noCamera';
}

function pictureOf(video: HTMLVideoElement, canvas: OffscreenCanvas): ImageData | undefined {
  const scale = Math.min(1, LONGEST_SIDE / Math.max(video.videoWidth, video.videoHeight));
  canvas.width = Math.round(video.videoWidth * scale);
  canvas.height = Math.round(video.videoHeight * scale);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (context === null || canvas.width === 0 || canvas.height === 0) return undefined;
  context.drawImage(video, 0, 0, canvas.width, canvas.height);
  return context.getImageData(0, 0, canvas.width, canvas.height);
}

export interface ScanEars {
  /** Texts of the codes in a picture that has some. */
  readonly onTexts: (texts: readonly string[]) => void;
  readonly onFault: (fault: CameraFault) => void;
}

/** Opens the camera into `video` and decodes what it sees until the returned function is called. */
export function scanWithCamera(video: HTMLVideoElement, { onTexts, onFault }: ScanEars): () => void {
  const worker = new Worker(new URL('./scanWorker.ts', import.meta.url), { type: 'module' });
  const canvas = new OffscreenCanvas(1, 1);
  let stream: MediaStream | undefined;
  let ended = false;
  const end = (): void => {
    ended = true;
    worker.terminate();
    for (const track of stream?.getTracks() ?? []) track.stop();
    video.srcObject = null;
  };
  const fail = (fault: CameraFault): void => {
    if (ended) return;
    end();
    onFault(fault);
  };
  const offer = (): void => {
    if (ended) return;
    const picture = video.readyState >= video.HAVE_CURRENT_DATA ? pictureOf(video, canvas) : undefined;
    if (picture === undefined) requestAnimationFrame(offer);
    else worker.postMessage(picture, [picture.data.buffer]);
  };
  worker.onmessage = ({ data }: MessageEvent<ScanAnswer>) => {
    if (ended) return;
    if (!data.ok) return fail('scan.decoderFailed');
    if (data.texts.length > 0) onTexts(data.texts);
    requestAnimationFrame(offer);
  };
  worker.onerror = () => fail('scan.decoderFailed');
  const open = async (): Promise<void> => {
    const wanted = { width: { ideal: 1_920 }, height: { ideal: 1_080 }, facingMode: 'environment' };
    stream = await navigator.mediaDevices.getUserMedia({ video: wanted, audio: false });
    if (ended) return end();
    video.srcObject = stream;
    await video.play();
    offer();
  };
  open().catch((error: unknown) => fail(cameraFault(error)));
  return end;
}
