import { describe, expect, test } from 'vitest';
import { headingOf, joinSign, splitSign, turnOf } from '../../../renderer/state/signedText.ts';

describe('a size and its way', () => {
  test.each([
    ['550 mm', '550 mm', false],
    ['-550 mm', '550 mm', true],
    ['-53 1/8 in', '53 1/8 in', true],
    ['-(reach / 2)', 'reach / 2', true],
    ['-((a + b) / 2)', '(a + b) / 2', true],
    ['reach - 5 mm', 'reach - 5 mm', false],
    ['-(a) + (b)', '-(a) + (b)', false],
    ['-a + b', '-a + b', false],
    ['', '', false],
    ['0', '0', false],
  ])('%s is %s, against: %s, and comes together again', (text, size, against) => {
    expect(splitSign(text)).toEqual({ size, against });
    expect(joinSign({ size, against })).toBe(text);
  });

  test('nothing and zero have no way', () => {
    expect(joinSign({ size: '', against: true })).toBe('');
    expect(joinSign({ size: '0', against: true })).toBe('0');
  });

  test('every key on the way to a size gives back what was typed', () => {
    for (const whole of ['550 mm', '53 1/8 in', 'reach / 2 + 5 mm', '1,5 m']) {
      for (let keys = 1; keys <= whole.length; keys += 1) {
        const size = whole.slice(0, keys);
        if (size.trim() === '0') continue;
        expect(splitSign(joinSign({ size, against: true }))).toEqual({ size, against: true });
      }
    }
  });
});

describe('a turn from square', () => {
  test.each([
    ['ahead', '180 deg'],
    ['behind', '0'],
    ['carLeft', '-90 deg'],
    ['carRight', '90 deg'],
  ] as const)('a target %s is square at %s', (place, text) => {
    expect(turnOf(text, place)).toEqual({ size: '0', against: false });
    expect(headingOf({ size: '0', against: true }, place)).toBe(text);
  });

  test('turns are kept as a sum, with the decimal sign and unit of expressions', () => {
    expect(headingOf({ size: '30°', against: false }, 'ahead')).toBe('180 deg + (30 deg)');
    expect(headingOf({ size: '0,5 deg', against: true }, 'carLeft')).toBe('-90 deg - (0.5 deg)');
    expect(turnOf('180 deg - (12 deg)', 'ahead')).toEqual({ size: '12 deg', against: true });
    expect(headingOf({ size: '5 deg', against: true }, 'behind')).toBe('-5 deg');
  });

  test('a heading of another form is left as it was written', () => {
    expect(turnOf('175 deg', 'ahead')).toBeUndefined();
    expect(turnOf('180 deg + aim', 'ahead')).toBeUndefined();
    expect(turnOf('180 deg + (a) - (b)', 'ahead')).toBeUndefined();
  });
});
