/**
 * What the first look at a picture's bytes proves: JPEG or PNG by its own structure, its size in pixels, and whether anything
 * but the picture is in it. A photo may carry no data of where, when or with what it was taken: only segments that are needed
 * to draw it pass. Structure as in ITU-T T.81 (JPEG) and ISO/IEC 15948 (PNG), from memory.
 */
import { err, ok, type Result } from '../result.ts';

export const PICTURE_LIMITS = {
  /** Of a file that is chosen or dropped, before it is made smaller. */
  fileBytes: 32 * 1024 * 1024,
  /** Of what is kept. */
  keptBytes: 4 * 1024 * 1024,
  /** Pixels of a chosen picture: beyond it decoding alone could fill the memory. */
  filePixels: 120_000_000,
  /** Longest side of what is kept, pixels. */
  keptSidePx: 2048,
} as const;

export interface PictureFacts {
  readonly mediaType: 'image/jpeg' | 'image/png';
  readonly widthPx: number;
  readonly heightPx: number;
  /** Names of parts that are no picture: `APP1`, `COM`, `eXIf`. Empty for a clean one. */
  readonly foreign: readonly string[];
}

export type PictureProblem = 'picture/notAPicture' | 'picture/broken';

const PNG_START = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** PNG chunks that only draw. */
const PNG_DRAWS: ReadonlySet<string> = new Set([
  'IHDR',
  'PLTE',
  'IDAT',
  'IEND',
  'tRNS',
  'gAMA',
  'cHRM',
  'sRGB',
  'sBIT',
  'bKGD',
  'pHYs',
]);
const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const COM = 0xfe;
const APP0 = 0xe0;
const APP15 = 0xef;
const FIRST_FRAME = 0xc0;
const LAST_FRAME = 0xcf;
/** Markers among the frames' that are tables: Huffman, arithmetic, and one kept free. */
const NOT_FRAMES: ReadonlySet<number> = new Set([0xc4, 0xc8, 0xcc]);

const two = (bytes: Uint8Array, at: number): number => (bytes[at] ?? 0) * 256 + (bytes[at + 1] ?? 0);
const four = (bytes: Uint8Array, at: number): number => two(bytes, at) * 65_536 + two(bytes, at + 2);
const latin = (bytes: Uint8Array, from: number, to: number): string =>
  String.fromCharCode(...bytes.subarray(from, to));

/** Where the entropy-coded data after a scan's head ends: the next marker that is neither stuffing nor a restart. */
function afterScan(bytes: Uint8Array, from: number): number {
  for (let at = from; at + 1 < bytes.length; at += 1) {
    const next = bytes[at + 1] ?? 0;
    if (bytes[at] === 0xff && next !== 0 && !(next >= 0xd0 && next <= 0xd7) && next !== 0xff) return at;
  }
  return bytes.length;
}

/** The thumbnail or text that an APP0 may hold beside the plain JFIF head of 16 bytes is foreign too. */
function isPlainJfif(bytes: Uint8Array, at: number, length: number): boolean {
  return length === 16 && latin(bytes, at + 4, at + 9) === 'JFIF\u0000';
}

function jpegFacts(bytes: Uint8Array): Result<PictureFacts, PictureProblem> {
  const foreign: string[] = [];
  let size: { readonly widthPx: number; readonly heightPx: number } | undefined;
  let at = 2;
  while (at + 3 < bytes.length) {
    if (bytes[at] !== 0xff) return err('picture/broken');
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === EOI || marker === SOI) break;
    const length = two(bytes, at + 2);
    if (length < 2 || at + 2 + length > bytes.length) return err('picture/broken');
    if (marker >= FIRST_FRAME && marker <= LAST_FRAME && !NOT_FRAMES.has(marker)) {
      size = { heightPx: two(bytes, at + 5), widthPx: two(bytes, at + 7) };
    }
    if (marker === COM) foreign.push('COM');
    if (marker >= APP0 && marker <= APP15 && !(marker === APP0 && isPlainJfif(bytes, at, length))) {
      foreign.push(`APP${marker - APP0}`);
    }
    at += 2 + length;
    if (marker === SOS) at = afterScan(bytes, at);
  }
  if (bytes[at] !== 0xff || bytes[at + 1] !== EOI) return err('picture/broken');
  if (at + 2 < bytes.length) foreign.push('after the end');
  if (size === undefined || size.widthPx === 0 || size.heightPx === 0) return err('picture/broken');
  return ok({ mediaType: 'image/jpeg', ...size, foreign });
}

function pngFacts(bytes: Uint8Array): Result<PictureFacts, PictureProblem> {
  const foreign: string[] = [];
  let at = PNG_START.length;
  if (latin(bytes, at + 4, at + 8) !== 'IHDR' || four(bytes, at) !== 13) return err('picture/broken');
  const widthPx = four(bytes, at + 8);
  const heightPx = four(bytes, at + 12);
  if (widthPx === 0 || heightPx === 0) return err('picture/broken');
  for (;;) {
    const length = four(bytes, at);
    if (at + 12 + length > bytes.length) return err('picture/broken');
    const name = latin(bytes, at + 4, at + 8);
    if (!PNG_DRAWS.has(name)) foreign.push(name);
    at += 12 + length;
    if (name === 'IEND') break;
  }
  if (at < bytes.length) foreign.push('after the end');
  return ok({ mediaType: 'image/png', widthPx, heightPx, foreign });
}

/** Whether bytes begin as a JPEG or PNG does; eight bytes are enough. */
export function looksLikePicture(start: Uint8Array): boolean {
  return (
    (start[0] === 0xff && start[1] === SOI && start[2] === 0xff) ||
    PNG_START.every((byte, i) => start[i] === byte)
  );
}

/**
 * Reads the structure of a whole picture without decoding it. Fails with `picture/notAPicture` for anything that is neither JPEG
 * nor PNG by its first bytes, and with `picture/broken` for one whose parts do not add up.
 */
export function pictureFacts(bytes: Uint8Array): Result<PictureFacts, PictureProblem> {
  if (!looksLikePicture(bytes)) return err('picture/notAPicture');
  return bytes[0] === 0xff ? jpegFacts(bytes) : pngFacts(bytes);
}

/** Why a picture may not be kept as a photo. */
export type PhotoProblem = PictureProblem | 'picture/carriesData' | 'picture/tooLarge';

/** The facts of a picture that may be kept: a clean JPEG of bounded size. */
export function keptPhotoFacts(bytes: Uint8Array): Result<PictureFacts, PhotoProblem> {
  if (bytes.length > PICTURE_LIMITS.keptBytes) return err('picture/tooLarge');
  const facts = pictureFacts(bytes);
  if (!facts.ok) return facts;
  if (facts.value.mediaType !== 'image/jpeg') return err('picture/notAPicture');
  if (facts.value.foreign.length > 0) return err('picture/carriesData');
  const side = Math.max(facts.value.widthPx, facts.value.heightPx);
  return side > PICTURE_LIMITS.keptSidePx ? err('picture/tooLarge') : facts;
}

/**
 * A JPEG without the segments before its scan that are no picture: encoders add a colour profile of their own. Only for bytes
 * that were just written here; what comes from outside is drawn anew first. Anything else is returned as it is.
 */
export function withoutForeignSegments(bytes: Uint8Array): Uint8Array {
  if (bytes[0] !== 0xff || bytes[1] !== SOI) return bytes;
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  let at = 2;
  while (at + 3 < bytes.length && bytes[at] === 0xff && bytes[at + 1] !== SOS) {
    const marker = bytes[at + 1] ?? 0;
    const length = two(bytes, at + 2);
    if (length < 2) return bytes;
    const foreign =
      marker === COM ||
      (marker >= APP0 && marker <= APP15 && !(marker === APP0 && isPlainJfif(bytes, at, length)));
    if (!foreign) kept.push(bytes.subarray(at, at + 2 + length));
    at += 2 + length;
  }
  kept.push(bytes.subarray(at));
  const whole = new Uint8Array(kept.reduce((sum, part) => sum + part.length, 0));
  let to = 0;
  for (const part of kept) {
    whole.set(part, to);
    to += part.length;
  }
  return whole;
}
