import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { vinFromScan } from '../../../core/entry/index.ts';
import { code39Check } from '../../../core/entry/vinScan.ts';
import { vinCheckDigit } from '../../../core/vehicle/vin.ts';
import { templateOf } from '../../../core/words/index.ts';
import { slotsOf } from '../../../core/words/say.ts';

// The published example of a check digit (49 CFR 565.15), and invented numbers that pass.
const VIN = '1M8GDM9AXKP042788';
const OTHER = '1DEM0CAR5TH000001';
const ELSEWHERE = 'WHBDEM0CAR0000001';
const [RS, GS, EOT] = ['\u001e', '\u001d', '\u0004'];

function scanned(text: string): string {
  const found = vinFromScan(text);
  return found.ok ? found.value.vin : found.error.key;
}

describe('the check character of Code 39', () => {
  test('is the sum of the values modulo 43', () => {
    // By hand, values of ISO/IEC 16388 (from memory): C 12, O 24, D 13, E 14, blank 38, 3, 9 add up to 113, and 113 - 2 x 43 = 27 is R.
    expect(code39Check('CODE 39')).toBe('R');
    expect(code39Check('abc')).toBeUndefined();
  });
});

describe('a VIN is found', () => {
  test.each([
    ['alone', VIN],
    ['with blanks and the end of a line', `  ${VIN}\r\n`],
    ['in small letters', VIN.toLowerCase()],
    ['after the letter I', `I${VIN}`],
    ['between stars', `*${VIN}*`],
    ['after I, between stars', `*I${VIN}*`],
    ['behind the kind of code of Code 39', `]A0${VIN}`],
    ['behind the kind of code of Data Matrix', `]d2I${VIN}`],
    ['with the check character of Code 39', `${VIN}${code39Check(VIN)}`],
    ['after I, with the check character', `I${VIN}${code39Check(`I${VIN}`)}`],
    ['in an envelope with other fields', `[)>${RS}06${GS}I${VIN}${GS}1P12345678${GS}D20260131${RS}${EOT}`],
    ['in an envelope whose marks became blanks', `[)> 06 I${VIN} 1P12345678`],
    ['as name and value', `VIN:${VIN};COLOUR:77;KEY:4711`],
    ['as a name run together', `VIN${VIN}`],
    ['in an address', `https://label.example/v?vin=${VIN}&lang=en`],
    ['twice the same', `${VIN}\n${VIN}`],
    ['among lines', `TIDEWELL PETREL\t${VIN}\t2026`],
    ['beside a longer number', `${VIN} 12345678901234567890`],
  ])('%s', (_name, text) => {
    expect(scanned(text)).toBe(VIN);
  });

  test('whose check digit is the maker’s own, with the warning that it is', () => {
    const found = vinFromScan(`I${ELSEWHERE}`);
    expect(found).toMatchObject({ ok: true, value: { vin: ELSEWHERE } });
  });

  test('before another word of seventeen characters whose check digit does not fit', () => {
    expect(scanned(`${ELSEWHERE.replace('R0', 'R1')} ${VIN}`)).toBe(VIN);
  });

  test('in every such label of every VIN (seed 17)', () => {
    const letters = fc.string({
      unit: fc.constantFrom(...'ABCDEFGHJKLMNPRSTUVWXYZ0123456789'),
      minLength: 8,
      maxLength: 8,
    });
    const counter = fc.integer({ min: 0, max: 999_999 });
    const label = fc.constantFrom<(vin: string) => string>(
      (vin) => vin,
      (vin) => `*I${vin}*`,
      (vin) => `]C0${vin}`,
      (vin) => `I${vin}${code39Check(`I${vin}`)}`,
      (vin) => `[)>${RS}06${GS}I${vin}${GS}1P77${RS}${EOT}`,
    );
    fc.assert(
      fc.property(letters, counter, label, (start, count, labelled) => {
        const raw = `S${start.slice(0, 7)}0${start.slice(7)}T${String(count).padStart(6, '0')}`;
        const vin = `${raw.slice(0, 8)}${vinCheckDigit(raw)}${raw.slice(9)}`;
        expect(scanned(labelled(vin))).toBe(vin);
      }),
      { seed: 17 },
    );
  });
});

describe('no VIN is made up', () => {
  test.each([
    ['nothing', '', 'scan.empty'],
    ['blanks', ' \r\n', 'scan.empty'],
    ['another code', '4006381333931', 'scan.noVin'],
    ['a VIN in the middle of a longer number', `77${VIN}77`, 'scan.noVin'],
    ['sixteen characters', VIN.slice(1), 'scan.noVin'],
    ['eighteen characters with a check character that does not fit', `${VIN}A`, 'scan.noVin'],
    ['a VIN cut by a blank', `${VIN.slice(0, 8)} ${VIN.slice(8)}`, 'scan.noVin'],
    ['one character misread', VIN.replace('K', 'L'), 'scan.vinRefused'],
    ['a letter that no VIN has', VIN.replace('0', 'O'), 'scan.vinRefused'],
    ['two cars', `${VIN} ${OTHER}`, 'scan.severalVins'],
    ['a book', `${'1 '.repeat(4000)}${VIN}`, 'scan.noVin'],
  ])('%s: %s', (_name, text, key) => {
    const found = vinFromScan(text);
    if (found.ok) throw new Error(`found ${found.value.vin}`);
    expect(found.error.key).toBe(key);
    expect(Object.keys(found.error.values).sort()).toEqual([...slotsOf(templateOf(key) ?? '')].sort());
  });

  test('of several, all are named to choose from', () => {
    const found = vinFromScan(`${VIN};${OTHER}`);
    expect(found.ok ? [] : found.error.vins).toEqual([VIN, OTHER]);
  });
});
