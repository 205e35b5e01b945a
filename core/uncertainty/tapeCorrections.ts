/**
 * What a tape reads too much or too little for reasons that are no fault of the tape: it lay out of line, it was warm or
 * cold, it hung free. Plain geometry and physics of a surveyor's tape; nothing here is applied by itself. It says how large
 * each effect can be, so that one can see what is worth a thought: in a bay, the line and the sag, hardly ever the warmth.
 */
import { invariant } from '../result.ts';

/** Linear expansion of tape steel, 1/K (common practice; the value of the end gauge in JCGM 100:2008, H.1.2). */
export const STEEL_EXPANSION_PER_K = 11.5e-6;

/** The temperature at which a tape is right, degrees Celsius (Directive 2014/32/EU, Annex X, chapter I). */
export const TAPE_REFERENCE_C = 20;

/**
 * How much longer a tape reads than the straight length when its path is out of line by `offLineMm` over `readMm`, mm:
 * L - sqrt(L^2 - e^2), about e^2 / 2 L. 50 mm over 3 m: 0.417 mm. An offset longer than the reading is a bug.
 */
export function outOfLineMm(readMm: number, offLineMm: number): number {
  invariant(
    readMm > 0 && Math.abs(offLineMm) <= readMm,
    `offset ${offLineMm} mm over a reading of ${readMm} mm`,
  );
  // The difference of two nearly equal lengths, written so that no digits cancel.
  const squares = offLineMm * offLineMm;
  return squares / (readMm + Math.sqrt((readMm - offLineMm) * (readMm + offLineMm)));
}

/**
 * Growth of a length with temperature, mm. A warm tape's graduations stand too far apart, so it reads short by this:
 * the correction is added. Steel, 5 m, 10 K warmer: 0.575 mm.
 */
export function thermalGrowthMm(
  lengthMm: number,
  warmerK: number,
  expansionPerK = STEEL_EXPANSION_PER_K,
): number {
  return lengthMm * warmerK * expansionPerK;
}

/**
 * How much longer a tape that hangs free between two supports reads than their distance, mm: w^2 L^3 / 24 F^2, the first
 * term of the parabola's arc over its chord (any textbook of surveying; here from memory). Weight in N per metre, pull in
 * N. A steel blade of 0.15 N/m over 5 m pulled with 50 N: 0.047 mm; with 10 N: 1.17 mm.
 */
export function sagMm(lengthMm: number, weightNPerM: number, pullN: number): number {
  invariant(pullN > 0, `a tape is pulled with more than nothing, got ${pullN} N`);
  const ratio = (weightNPerM * lengthMm) / 1000 / pullN;
  return (ratio * ratio * lengthMm) / 24;
}
