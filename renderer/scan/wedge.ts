/**
 * A barcode scanner that acts as a keyboard: many characters in a burst no hand can type, then Enter. What a person types
 * is left alone, however fast.
 */

/** The longest pause within a scan, ms; scanners send a key every 1 to 15 ms, the fastest typists one in 60 (common practice, no source). */
export const SCAN_PAUSE_MS = 35;

/** Fewer characters than a VIN has are no scan of one. */
const LEAST = 17;
const MOST = 4_296;

export interface Key {
  readonly key: string;
  readonly atMs: number;
}

/** Takes one key after another; answers the scanned text when a burst ends with Enter. */
export function wedgeReader(): (key: Key) => string | undefined {
  let text = '';
  let lastMs = Number.NEGATIVE_INFINITY;
  return ({ key, atMs }) => {
    if (atMs - lastMs > SCAN_PAUSE_MS) text = '';
    lastMs = atMs;
    if (key === 'Enter') {
      const scanned = text;
      text = '';
      return scanned.length >= LEAST ? scanned : undefined;
    }
    // Shift and its like come between the characters of a scan and say nothing.
    if (key.length === 1 && text.length < MOST) text += key;
    return undefined;
  };
}
