import { describe, expect, test } from 'vitest';
import { checkVin, vinCheckDigit, vinProducts } from '../../core/vehicle/vin.ts';

/**
 * 49 CFR 565.15(c), tables III to V: transliteration, weights, remainder. The products are typed from the
 * sources named in each row; where no product list was seen they were worked by hand from the tables.
 */
const worked: readonly (readonly [string, string, number, string])[] = [
  // Sample of the regulation itself (table V of the former 565.6, table VI of 565.15(c)).
  ['1G4AH59H45G118341', '8 49 24 5 32 15 18 80 0 45 56 7 6 40 12 12 2', 411, '4'],
  // NHTSA outline for new manufacturers.
  ['1J9RP1A36A1644345', '8 7 54 45 28 3 2 30 0 9 8 42 24 20 12 12 10', 314, '6'],
  // Widely published example.
  ['1M8GDM9AXKP042788', '8 28 48 35 16 12 18 10 0 18 56 0 24 10 28 24 16', 351, 'X'],
  // The test number of all ones.
  ['11111111111111111', '8 7 6 5 4 3 2 10 0 9 8 7 6 5 4 3 2', 89, '1'],
  // From memory.
  ['5GZCZ43D13S812715', '40 49 54 15 36 12 6 40 0 27 16 56 6 10 28 3 10', 408, '1'],
  // Public tests of check-digit software.
  ['1HGCM82633A004352', '8 56 42 15 16 24 4 60 0 27 8 0 0 20 12 15 4', 311, '3'],
  ['5N1NJ01CXST000001', '40 35 6 25 4 0 2 30 0 18 24 0 0 0 0 0 2', 186, 'X'],
];

describe('published numbers, 49 CFR 565.15', () => {
  test.each(worked)('%s', (vin, products, sum, digit) => {
    expect(vinProducts(vin)?.join(' ')).toBe(products);
    expect(vinProducts(vin)?.reduce((total, product) => total + product, 0)).toBe(sum);
    expect(sum % 11 === 10 ? 'X' : `${sum % 11}`).toBe(digit);
    expect(vinCheckDigit(vin)).toBe(digit);
    expect(checkVin(vin)).toMatchObject({
      standing: 'fits',
      checkDigit: 'right',
      region: 'northAmerica',
      faults: [],
      warnings: [],
    });
  });

  test('one digit changed in the sample of the regulation gives remainder 1, not 4', () => {
    const report = checkVin('1G4AH59H45G118331');
    expect(vinProducts('1G4AH59H45G118331')?.reduce((total, product) => total + product, 0)).toBe(408);
    expect(report).toMatchObject({ standing: 'refuse', checkDigit: 'wrong', expectedDigit: '1' });
    expect(report.faults).toEqual([{ key: 'vin.checkDigitWrong', values: { expected: '1' } }]);
  });

  test('1XPTD40X0JD456115 computes 6; its corrected form fits', () => {
    expect(checkVin('1XPTD40X0JD456115')).toMatchObject({ checkDigit: 'wrong', expectedDigit: '6' });
    expect(checkVin('1XPTD40X6JD456115')).toMatchObject({ checkDigit: 'right', standing: 'fits' });
  });

  test('a number from outside North America with Z in position 9 warns and is not refused', () => {
    const report = checkVin('WP0ZZZ99ZTS392124');
    expect(report).toMatchObject({
      standing: 'warn',
      checkDigit: 'notRequired',
      expectedDigit: '8',
      region: 'elsewhere',
      faults: [],
    });
    expect(report.warnings.map((note) => note.key)).toEqual(['vin.checkDigitUnused']);
  });
});

describe('every single mistyped character of a North American number is caught or is one the digit cannot see', () => {
  // Weights and 11 have no common factor, so a change is unseen only when both characters have the same value.
  test.each(worked)('%s', (vin) => {
    for (let at = 0; at < 17; at += 1) {
      if (at === 8) continue;
      for (const character of 'ABCDEFGHJKLMNPRSTUVWXYZ0123456789') {
        const typed = vin.slice(0, at) + character + vin.slice(at + 1);
        const same = vinProducts(typed)?.[at] === vinProducts(vin)?.[at];
        const difference = ((vinProducts(typed)?.[at] ?? 0) - (vinProducts(vin)?.[at] ?? 0)) % 11;
        expect(vinCheckDigit(typed) === vin.charAt(8)).toBe(same || difference === 0);
        if (!same) expect(difference).not.toBe(0);
      }
    }
  });
});

describe('model-year code, 49 CFR 565.15 table VII', () => {
  const withYear = (code: string, seventh: string): string => {
    const blank = `1AAAAA${seventh}A0${code}A001234`;
    return blank.slice(0, 8) + (vinCheckDigit(blank) ?? '') + blank.slice(9);
  };
  test.each([
    ['A', 1980, 2010],
    ['H', 1987, 2017],
    ['J', 1988, 2018],
    ['N', 1992, 2022],
    ['P', 1993, 2023],
    ['R', 1994, 2024],
    ['T', 1996, 2026],
    ['V', 1997, 2027],
    ['Y', 2000, 2030],
    ['1', 2001, 2031],
    ['9', 2009, 2039],
  ])('%s is %d with a digit at position 7 and %d with a letter', (code, early, late) => {
    expect(checkVin(withYear(code, '1')).modelYears).toEqual([early]);
    expect(checkVin(withYear(code, 'A')).modelYears).toEqual([late]);
  });

  test.each(['U', 'Z', '0'])('%s is never a year code of a North American number', (code) => {
    const report = checkVin(withYear(code, 'A'));
    expect(report.modelYears).toEqual([]);
    expect(report.faults).toEqual([{ key: 'vin.yearCode', values: { characters: code } }]);
  });

  test('elsewhere the code may stand for either cycle', () => {
    expect(checkVin('WP0ZZZ99ZTS392124').modelYears).toEqual([1996, 2026]);
  });
});
