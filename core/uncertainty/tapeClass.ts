/**
 * Permitted errors of material measures of length: Directive 2014/32/EU, Annex X (MI-008), chapter I. The limit of a
 * whole length is a + b L with L in metres rounded up to the next whole one, and c more when an end is a surface (a
 * hook). Tables 1 and 2, as transposed in UK SI 2016/1153, Schedule 1I.
 */

/** Accuracy class printed on the tape. */
export type TapeClass = 'I' | 'II' | 'III';

/** Everything in mm; b per metre. `short` and `long`: between marks up to 1 mm apart, and over 1 mm up to 1 cm. */
const LIMITS = {
  I: { a: 0.1, b: 0.1, c: 0.1, short: 0.1, long: 0.2 },
  II: { a: 0.3, b: 0.2, c: 0.2, short: 0.2, long: 0.4 },
  III: { a: 0.6, b: 0.4, c: 0.3, short: 0.3, long: 0.6 },
} as const;

/** Largest permitted error of a length, mm: tapeLimitMm('II', 4300) is 1.3, with a hook 1.5. */
export function tapeLimitMm(tapeClass: TapeClass, lengthMm: number, hook = false): number {
  const { a, b, c } = LIMITS[tapeClass];
  const limit = a + b * Math.ceil(lengthMm / 1000) + (hook ? c : 0);
  // The limits are tenths of a millimetre: binary sums such as 0.1 + 0.2 are put back on them.
  return Math.round(limit * 10) / 10;
}

/** Largest permitted error of the distance of two neighbouring marks, mm (Table 2). */
export function intervalLimitMm(tapeClass: TapeClass, intervalMm: number): number {
  const { short, long } = LIMITS[tapeClass];
  return intervalMm <= 1 ? short : long;
}
