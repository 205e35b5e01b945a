import { describe, expect, test } from 'vitest';
import {
  parseTyreSize,
  tyreCircumferenceMm,
  tyreDiameterMm,
  tyreSectionHeightMm,
} from '../../core/vehicle/tyre.ts';

/**
 * Overall diameter D = 25.4 rim + 2 width aspect / 100. Rows marked with a star were seen printed in public tyre
 * size tables; the others are the same arithmetic. One table rounds 205/65R15 to a section of 133 and D of 647.
 */
const rows: readonly (readonly [string, number, number, number])[] = [
  ['175/65R14', 113.75, 583.1, 1831.9],
  ['185/65R15', 120.25, 621.5, 1952.5],
  ['195/65R15', 126.75, 634.5, 1993.3],
  ['205/55R16', 112.75, 631.9, 1985.2], // *
  ['205/65R15', 133.25, 647.5, 2034.2], // *
  ['215/65R17', 139.75, 711.3, 2234.6], // *
  ['225/45R17', 101.25, 634.3, 1992.7], // *
  ['225/60R17', 135.0, 701.8, 2204.8], // *
  ['225/40R18', 90.0, 637.2, 2001.8],
  ['235/45R18', 105.75, 668.7, 2100.8],
  ['235/60R18', 141.0, 739.2, 2322.3],
  ['245/55R18', 134.75, 726.7, 2283.0], // *
  ['245/70R16', 171.5, 749.4, 2354.3], // *
  ['265/65R17', 172.25, 776.3, 2438.8],
  ['255/35R19', 89.25, 661.1, 2076.9],
];

describe('tyre sizes', () => {
  test.each(rows)(
    '%s: section %f, diameter %f, circumference %f mm',
    (text, height, diameter, circumference) => {
      const size = parseTyreSize(text);
      if (!size.ok) throw new Error(`${text} was not read`);
      expect(Math.abs(tyreSectionHeightMm(size.value) - height)).toBeLessThan(1e-9);
      expect(Math.abs(tyreDiameterMm(size.value) - diameter)).toBeLessThan(0.05);
      expect(Math.abs(tyreCircumferenceMm(size.value) - circumference)).toBeLessThan(0.1);
    },
  );
});
