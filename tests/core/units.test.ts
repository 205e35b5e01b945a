import { describe, expect, test } from 'vitest';
import * as units from '../../core/units.ts';

describe('brands', () => {
  test('every constructor keeps the number and refuses what is not finite', () => {
    for (const make of [
      units.mm,
      units.rad,
      units.deg,
      units.mmPerM,
      units.percent,
      units.celsius,
      units.kPa,
      units.lux,
      units.kg,
      units.km,
    ]) {
      expect(make(-3.25)).toBe(-3.25);
      expect(() => make(Number.NaN)).toThrow(/finite/);
      expect(() => make(Number.POSITIVE_INFINITY)).toThrow(/finite/);
    }
  });
});

describe('converters', () => {
  test.each([
    ['1 in', units.mmFromInch(1), 25.4],
    ['47.25 in', units.mmFromInch(47.25), 1200.15],
    ['1 ft', units.mmFromFoot(1), 304.8],
    ['1.35 m', units.mmFromM(1.35), 1350],
    ['135 cm', units.mmFromCm(135), 1350],
    ['25.4 mm in inches', units.inchFromMm(25.4), 1],
    ['180 deg', units.radFromDeg(180), Math.PI],
    ['pi rad', units.degFromRad(Math.PI), 180],
    ['60 arcmin', units.radFromArcminutes(60), Math.PI / 180],
    ['100 %', units.radFromPercent(100), Math.PI / 4],
    ['45 deg in %', units.percentFromRad(Math.PI / 4), 100],
    ['2.3 bar', units.kPaFromBar(2.3), 230],
    ['1 mile', units.kmFromMile(1), 1.609344],
    ['212 F', units.celsiusFromFahrenheit(212), 100],
    ['-40 F', units.celsiusFromFahrenheit(-40), -40],
    // NIST SP 811 (2008) appendix B.9: 1 psi = 6.894757 kPa (from memory)
    ['1 psi', units.kPaFromPsi(1), 6.894757293],
  ])('%s', (_name, got, wanted) => {
    expect(got).toBeCloseTo(wanted, 8);
  });

  test('slopes and angles are inverse', () => {
    for (const slope of [-250, -3.5, 0, 0.1, 4, 1000]) {
      expect(units.mmPerMFromRad(units.radFromMmPerM(slope))).toBeCloseTo(slope, 9);
      expect(units.percentFromRad(units.radFromPercent(slope))).toBeCloseTo(slope, 9);
    }
  });

  test('angles wrap into (-180, 180] degrees', () => {
    const wrapped = (degrees: number): number => units.degFromRad(units.wrapRad(units.radFromDeg(degrees)));
    expect(wrapped(190)).toBeCloseTo(-170, 10);
    expect(wrapped(-190)).toBeCloseTo(170, 10);
    expect(wrapped(725)).toBeCloseTo(5, 10);
    expect(wrapped(-725)).toBeCloseTo(-5, 10);
    expect(wrapped(180)).toBe(180);
    expect(wrapped(-180)).toBeCloseTo(180, 10);
    expect(units.wrapRad(0.3)).toBe(0.3);
  });
});

describe('written numbers', () => {
  test.each([
    [1234.5, 2, '.', '1234.50'],
    [1234.5, 2, ',', '1234,50'],
    [0.25, 1, '.', '0.3'],
    [-0.25, 1, '.', '-0.3'],
    [2.5, 0, ',', '3'],
    [-0.04, 1, '.', '0.0'],
    [-0, 0, '.', '0'],
    [999999.96, 1, '.', '1000000.0'],
    [1e-9, 3, '.', '0.000'],
    [123456789012, 1, '.', '123456789012.0'],
  ] as const)('%d with %d decimals and %s is %s', (value, decimals, sign, text) => {
    expect(units.formatFixed(value, decimals, sign)).toBe(text);
  });

  test('what cannot be written digit by digit is a bug', () => {
    expect(() => units.formatFixed(Number.NaN, 1)).toThrow(/cannot write/);
    expect(() => units.formatFixed(1e15, 1)).toThrow(/cannot write/);
    expect(() => units.formatFixed(1, 1.5)).toThrow(/decimals/);
    expect(() => units.formatFixed(1, 13)).toThrow(/decimals/);
  });

  test('with units', () => {
    expect(units.formatMm(1350, 1)).toBe('1350.0 mm');
    expect(units.formatMm(1350.25, 1, ',')).toBe('1350,3 mm');
    expect(units.formatInch(25.4, 2)).toBe('1.00 in');
    expect(units.formatDeg(Math.PI / 360, 2)).toBe('0.50°');
    expect(units.formatDeg(Math.PI / 360, 2, ',')).toBe('0,50°');
    expect(units.formatLength(1200.15, 1, 'in')).toBe('47.25 in');
    expect(units.formatLength(1200.15, 1, 'mm', ',')).toBe('1200,2 mm');
    expect(units.formatShare(0.9544, 1)).toBe('95.4 %');
  });
});
