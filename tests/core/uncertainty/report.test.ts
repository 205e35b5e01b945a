import { describe, expect, test } from 'vitest';
import { conciseStatement, roundUncertainty, statement } from '../../../core/uncertainty/report.ts';

describe('rounding an uncertainty', () => {
  test('two digits never lower U by more than 5 %: nothing is rounded up out of turn', () => {
    for (let U = 1; U < 10; U += 0.013) {
      const rounded = roundUncertainty(U).U;
      expect(rounded, `U = ${U}`).toBeGreaterThanOrEqual(0.95 * U);
      expect(Math.abs(rounded - U), `U = ${U}`).toBeLessThan(0.0501);
    }
  });

  test('one digit is rounded up where 5 % would be lost, and only there', () => {
    expect(roundUncertainty(1.04, 1).U).toBe(1);
    expect(roundUncertainty(1.06, 1).U).toBe(2);
    expect(roundUncertainty(2.2, 1).U).toBe(3);
    expect(roundUncertainty(9.4, 1).U).toBe(9);
    expect(roundUncertainty(0.0314, 1)).toEqual({ U: 0.03, decimals: 2 });
  });

  test('a carry moves the last place', () => {
    expect(roundUncertainty(0.996)).toEqual({ U: 1, decimals: 1 });
    expect(roundUncertainty(99.6)).toEqual({ U: 100, decimals: -1 });
    expect(roundUncertainty(9.6, 1)).toEqual({ U: 10, decimals: -1 });
  });

  test('U of nothing, or no number, is a bug', () => {
    for (const U of [0, -1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => roundUncertainty(U)).toThrow(/U|uncert/);
  });
});

describe('stating a result', () => {
  test('value and U end at the same place, also left of the decimal sign and with a comma', () => {
    expect(statement(1350.456, 1.36)).toEqual({ value: '1350.5', U: '1.4', decimals: 1 });
    expect(statement(123456, 1234)).toEqual({ value: '123500', U: '1200', decimals: -2 });
    expect(statement(-0.0421, 0.12, 2, ',')).toEqual({ value: '-0,04', U: '0,12', decimals: 2 });
    expect(statement(-0.0004, 0.12).value).toBe('0.00');
  });

  test('the concise form writes u in units of the last place', () => {
    expect(conciseStatement(1350.456, 1.36)).toBe('1350.5(14)');
    expect(conciseStatement(12.3, 34)).toBe('12(34)');
    expect(conciseStatement(12345, 340)).toBe('12350(340)');
    expect(conciseStatement(0.5, 0.0999, ',')).toBe('0,50(10)');
  });
});
