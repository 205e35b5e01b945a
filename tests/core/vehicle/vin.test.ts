import { describe, expect, test } from 'vitest';
import { checkVin } from '../../../core/vehicle/vin.ts';

describe('structure', () => {
  test('blanks, hyphens and small letters are forgiven', () => {
    expect(checkVin(' 1m8gdm9-axkp 042788 ')).toMatchObject({ vin: '1M8GDM9AXKP042788', standing: 'fits' });
  });

  test.each([
    ['', 'vin.length', { count: '0' }],
    ['1M8GDM9AXKP04278', 'vin.length', { count: '16' }],
    ['1M8GDM9AXKP0427888', 'vin.length', { count: '18' }],
    ['1M8GDM9AXKP04278*', 'vin.characters', { characters: '*' }],
    ['1M8GDM9AXKP04278\u00c4', 'vin.characters', { characters: '\u00c4' }],
    ['1M8GDM9AXKPO42788', 'vin.forbiddenLetters', { characters: 'O' }],
  ])('%j: %s', (text, key, values) => {
    const report = checkVin(text);
    expect(report.standing).toBe('refuse');
    expect(report.faults).toEqual([{ key, values }]);
    expect(report.checkDigit).toBeUndefined();
    expect(report.region).toBeUndefined();
  });

  test('several faults are named together', () => {
    expect(checkVin('IOQ?').faults.map((note) => note.key)).toEqual([
      'vin.characters',
      'vin.forbiddenLetters',
      'vin.length',
    ]);
  });

  test('I, O and Q typed for 1 and 0 get a suggestion when that fits, and none when it does not', () => {
    expect(checkVin('IM8GDM9AXKPO42788').suggestion).toBe('1M8GDM9AXKP042788');
    expect(checkVin('IM8GDM9AXKPO42789').suggestion).toBeUndefined();
    expect(checkVin('IM8').suggestion).toBeUndefined();
  });
});

describe('where from', () => {
  // ISO 3780 assignments, from memory: 1 to 5 and 7F to 70 North America.
  test.each([
    ['1', 'northAmerica'],
    ['2', 'northAmerica'],
    ['3', 'northAmerica'],
    ['4', 'northAmerica'],
    ['5', 'northAmerica'],
    ['6', 'elsewhere'],
    ['7A', 'elsewhere'],
    ['7E', 'elsewhere'],
    ['7F', 'northAmerica'],
    ['7S', 'northAmerica'],
    ['70', 'northAmerica'],
    ['8', 'elsewhere'],
    ['9', 'elsewhere'],
    ['0', 'elsewhere'],
    ['J', 'elsewhere'],
    ['W', 'elsewhere'],
  ])('%s... is %s', (start, region) => {
    const vin = `${start.padEnd(13, 'A')}1234`;
    expect(checkVin(vin).region).toBe(region);
  });
});

describe('second looks', () => {
  test('last four characters that are not digits warn (ISO 3779, from memory)', () => {
    const report = checkVin('WDEM00000HARB12A4');
    expect(report.standing).toBe('warn');
    expect(report.warnings.map((note) => note.key)).toContain('vin.lastFour');
  });

  test('a right digit from elsewhere is right', () => {
    // WDEMAHAR5TS000001 worked by hand with the weights 8 7 6 5 4 3 2 10 0 9 8 7 6 5 4 3 2:
    // W6*8 D4*7 E5*6 M4*5 A1*4 H8*3 A1*2 R9*10 = 48+28+30+20+4+24+2+90 = 246; T(3)*9 S(2)*8 = 43; 1*2 = 2
    // 246 + 43 + 2 = 291 = 26 * 11 + 5
    expect(checkVin('WDEMAHAR5TS000001')).toMatchObject({
      checkDigit: 'right',
      region: 'elsewhere',
      standing: 'fits',
    });
    expect(checkVin('WDEMAHAR6TS000001')).toMatchObject({ checkDigit: 'notRequired', standing: 'warn' });
  });

  test('a maker of few vehicles is told by the third character', () => {
    expect(checkVin('1J9RP1A36A1644345').smallMaker).toBe(true);
    expect(checkVin('1M8GDM9AXKP042788').smallMaker).toBe(false);
  });
});
