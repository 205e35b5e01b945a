import { describe, expect, test } from 'vitest';
import { loadOfIndexKg, speedOfSymbolKmh } from '../../core/vehicle/loadIndex.ts';
import {
  parseTyreSize,
  type TyreSize,
  tyreCircumferenceMm,
  tyreDesignDiameterMm,
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

const sizeOf = (text: string): TyreSize => {
  const size = parseTyreSize(text);
  if (!size.ok) throw new Error(`${text} was not read`);
  return size.value;
};

describe('UN Regulation No. 30, 6.1.2: whole millimetres', () => {
  // Rims of 15 and 16 inches seen printed in a public table; the rest from memory.
  test.each([
    [13, 330],
    [14, 356],
    [15, 381],
    [16, 406],
    [17, 432],
    [18, 457],
    [19, 483],
    [20, 508],
    [21, 533],
    [22, 559],
  ])('a rim of %d inch is %d mm', (rim, whole) => {
    // 200/50 has a section of exactly 100 mm.
    expect(tyreDesignDiameterMm(sizeOf(`200/50R${rim}`))).toBe(whole + 200);
  });

  // Printed design diameters, from memory.
  test.each([
    ['205/55R16', 632],
    ['195/65R15', 635],
    ['225/45R17', 634],
  ])('%s: %d mm', (text, diameter) => {
    expect(tyreDesignDiameterMm(sizeOf(text))).toBe(diameter);
  });

  test('never more than 1.5 mm from the exact diameter', () => {
    for (const [text] of rows) {
      const size = sizeOf(text);
      expect(Math.abs(tyreDesignDiameterMm(size) - tyreDiameterMm(size))).toBeLessThanOrEqual(1.5);
    }
  });
});

describe('load index and speed symbol (public tyre tables; one of them misprints 103 as 857 and 105 as 924)', () => {
  // biome-ignore format: index, kg
  const loads = [
    [71, 345], [72, 355], [73, 365], [74, 375], [75, 387], [76, 400], [77, 412], [78, 425], [79, 437], [80, 450],
    [81, 462], [82, 475], [83, 487], [84, 500], [85, 515], [86, 530], [87, 545], [88, 560], [89, 580], [90, 600],
    [91, 615], [92, 630], [93, 650], [94, 670], [95, 690], [96, 710], [97, 730], [98, 750], [99, 775], [100, 800],
    [101, 825], [102, 850], [103, 875], [104, 900], [105, 925], [106, 950], [107, 975], [108, 1000], [109, 1030],
    [110, 1060], [111, 1090], [112, 1120], [113, 1150], [114, 1180], [115, 1215], [116, 1250], [117, 1285],
    [118, 1320], [119, 1360], [120, 1400], [121, 1450], [122, 1500], [123, 1550],
  ] as const;

  test('all fifty-three loads', () => {
    expect(loads).toHaveLength(53);
    for (const [index, kg] of loads) expect(loadOfIndexKg(index), `index ${index}`).toBe(kg);
  });

  test('the indices follow the eightieth root of ten from 800 kg at 100 (from memory), each within 1.8 % of it', () => {
    for (const [index, kg] of loads) {
      expect(Math.abs(kg / (800 * 10 ** ((index - 100) / 80)) - 1), `index ${index}`).toBeLessThan(0.018);
    }
  });

  test('outside the table nothing is said', () => {
    for (const index of [70, 124, 91.5, -1, Number.NaN]) expect(loadOfIndexKg(index)).toBeUndefined();
  });

  test.each(
    Object.entries({
      L: 120,
      M: 130,
      N: 140,
      P: 150,
      Q: 160,
      R: 170,
      S: 180,
      T: 190,
      U: 200,
      H: 210,
      V: 240,
      W: 270,
      Y: 300,
    }),
  )('%s: %d km/h', (symbol, kmh) => {
    expect(speedOfSymbolKmh(symbol)).toBe(kmh);
  });

  test('a side wall carries both: 205/55 R16 91V is 615 kg and 240 km/h; Z and inherited names are no symbols', () => {
    const size = sizeOf('205/55 R16 91V');
    expect(loadOfIndexKg(size.loadIndex ?? 0)).toBe(615);
    expect(speedOfSymbolKmh(size.speedSymbol ?? '')).toBe(240);
    expect(speedOfSymbolKmh('Z')).toBeUndefined();
    expect(speedOfSymbolKmh('constructor')).toBeUndefined();
  });
});
