import { describe, expect, test } from 'vitest';
import { parseTyreSize } from '../../../core/vehicle/tyre.ts';

describe('a side wall is read as it is written', () => {
  test.each([
    ['205/55 R16 91V', { widthMm: 205, aspectPercent: 55, rimInch: 16, loadIndex: 91, speedSymbol: 'V' }],
    [
      '205/55r16',
      { widthMm: 205, aspectPercent: 55, rimInch: 16, loadIndex: undefined, speedSymbol: undefined },
    ],
    ['P225/60R17', { widthMm: 225, aspectPercent: 60, rimInch: 17, construction: 'R' }],
    ['LT 245/70 R16', { widthMm: 245, aspectPercent: 70, rimInch: 16 }],
    ['245/45ZR18 (100Y) XL', { rimInch: 18, loadIndex: 100, speedSymbol: 'Y', construction: 'R' }],
    ['195/70 R15 C 104/102R', { rimInch: 15, loadIndex: 104, speedSymbol: 'R' }],
    ['155/80-13', { construction: 'D', aspectPercent: 80 }],
    ['205/55B16', { construction: 'B' }],
  ])('%s', (text, wanted) => {
    const size = parseTyreSize(text);
    expect(size.ok && size.value).toMatchObject(wanted);
  });

  test.each([
    '',
    'R16',
    '205/55',
    '205-55-16-',
    '31x10.50R15',
    '205/55 R16 91V or so',
    '205/5 R16',
    '2055/55 R16',
  ])('%j cannot be read', (text) => {
    expect(parseTyreSize(text)).toEqual({ ok: false, error: { code: 'vehicle/tyreUnreadable' } });
  });

  test.each(['905/55 R16', '205/15 R16', '205/55 R55', '205/55 R08', '105/55 R16', '205/105 R16'])(
    '%s is no car tyre',
    (text) => {
      expect(parseTyreSize(text)).toEqual({ ok: false, error: { code: 'vehicle/tyreImplausible' } });
    },
  );
});
