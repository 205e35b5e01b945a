/**
 * Lengths as this PC's people read them. Everything is worked out and recorded in mm; the unit is set once, beside the
 * language, and enters where a text is made.
 */
import { formatLength, type LengthUnit } from '../../core/units.ts';

let shown: LengthUnit = 'mm';

/** The unit lengths are shown in at this moment. */
export function shownLengthUnit(): LengthUnit {
  return shown;
}

/** Sets the unit from now on: for the start of the window and its switch. */
export function showLengthsIn(unit: LengthUnit): void {
  shown = unit;
}

/** A length in the shown unit: to so many decimals in mm, in inches to one more and at least to two. */
export function lengthText(valueMm: number, decimalsInMm: number): string {
  return formatLength(valueMm, decimalsInMm, shown);
}
