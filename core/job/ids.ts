/**
 * UUID version 7 (RFC 9562 section 5.7): 48 bits of UTC milliseconds, then random bits. Ids sort by the time they were
 * made. Time and randomness are handed in, so the same input always gives the same id.
 */
import { hexOf } from '../canonical.ts';
import { invariant } from '../result.ts';

/** How many random bytes `uuidV7` takes. */
export const UUID_RANDOM_BYTES = 10;

const UUID_V7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

/**
 * A UUIDv7 from UTC milliseconds (0 to 2^48 - 1) and ten random bytes. Anything else is a bug and throws.
 * Example: time 0x017F22E279B0 gives an id starting `017f22e2-79b0-7`.
 */
export function uuidV7(utcMs: number, random: Uint8Array): string {
  invariant(Number.isInteger(utcMs) && utcMs >= 0 && utcMs < 2 ** 48, `UUID time out of range: ${utcMs}`);
  invariant(random.length === UUID_RANDOM_BYTES, `UUID wants 10 random bytes, got ${random.length}`);
  const bytes = new Uint8Array(16);
  let rest = utcMs;
  for (let i = 5; i >= 0; i -= 1) {
    bytes[i] = rest % 256;
    rest = Math.floor(rest / 256);
  }
  bytes.set(random, 6);
  bytes[6] = 0x70 | ((bytes[6] ?? 0) & 0x0f);
  bytes[8] = 0x80 | ((bytes[8] ?? 0) & 0x3f);
  const hex = hexOf(bytes);
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}

/** Whether a text is a UUIDv7 in lower case. */
export function isUuidV7(text: string): boolean {
  return UUID_V7.test(text);
}

/** UTC milliseconds inside a UUIDv7; a text that is none throws. */
export function uuidV7Time(id: string): number {
  invariant(isUuidV7(id), `not a UUIDv7: ${id}`);
  return Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
}
