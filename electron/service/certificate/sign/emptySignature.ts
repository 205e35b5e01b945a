/** The signature as the renderer leaves it: the same widths as the finished one, so that nothing moves. */

/** Ten places each: enough for files far larger than any reader would open. */
export const byteRangePlace = '**********';

/** `[0 /********** /********** /**********]`; pdfkit writes these texts as names. */
export const emptyByteRange: readonly (number | string)[] = [
  0,
  byteRangePlace,
  byteRangePlace,
  byteRangePlace,
];

/** Bytes kept for the signature value: it takes about 2 000, and a time stamp by an authority as many again. */
export const holeBytes = 16_384;
