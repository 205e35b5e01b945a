/** Which bytes the signature covers (ISO 32000-1 clause 12.8.1): everything but its own value. */
import type { SignatureDictionary } from '../file/signatureDictionary.ts';

export interface SignedRanges {
  /** The two signed parts. */
  readonly parts: readonly [Uint8Array, Uint8Array];
  /** The decoded bytes of the value between them, with their padding. */
  readonly hole: Uint8Array;
  /** Bytes of the file after the signed ones. */
  readonly appended: number;
}

/**
 * The ranges, if they are `[0 a b c]` with exactly the value's text, `<` and `>` included, between a and b. Lower-case
 * digits only: the value is then written in one way.
 */
export function signedRanges(bytes: Uint8Array, signature: SignatureDictionary): SignedRanges | undefined {
  const numbers = signature.byteRange.items.map((item) => (item.type === 'number' ? item.value : Number.NaN));
  const [first, a, b, c] = numbers;
  if (numbers.length !== 4 || first !== 0 || a === undefined || b === undefined || c === undefined)
    return undefined;
  const { start, end, isHex, bytes: hole } = signature.contents;
  if (a !== start || b !== end || !isHex || c < 0 || b + c > bytes.length) return undefined;
  const digits = Buffer.from(bytes.buffer, bytes.byteOffset + start + 1, end - start - 2).toString('latin1');
  if (/[^0-9a-f]/.test(digits)) return undefined;
  return {
    parts: [bytes.subarray(0, a), bytes.subarray(b, b + c)],
    hole,
    appended: bytes.length - (b + c),
  };
}
