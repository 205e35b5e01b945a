import { describe, expect, test } from 'vitest';
import { confirmsNumber, placementNumbers, printNumber } from '../../../core/certificate/numbers.ts';
import { solveAll } from '../../../core/job/solve.ts';
import { readScript } from '../../../electron/cli/playScript.ts';
import { demoShop } from '../../../electron/service/handlers/shop.ts';
import { foldScript } from '../../demo/foldScript.ts';

const job = foldScript(
  readScript(new URL('../../../assets/demo/demo-job.json', import.meta.url)),
  demoShop(),
);
const [sensor = '', answer] = Object.entries(solveAll(job))[0] ?? [];
if (answer === undefined) throw new Error('the demo job can be solved');
const numbers = placementNumbers(sensor, answer);

describe('printed numbers', () => {
  test('ids are unique and every printed text has its decimals', () => {
    expect(new Set(numbers.map((each) => each.id)).size).toBe(numbers.length);
    for (const number of numbers) {
      const { value, decimals } = printNumber(number);
      expect(value).toMatch(decimals === 0 ? /^-?\d+$/ : new RegExp(`^-?\\d+\\.\\d{${decimals}}$`));
    }
  });

  test('a turn is printed as its deviation from the required attitude', () => {
    const required = numbers.filter((each) => /\.(yaw|pitch|roll)\.required$/.test(each.id));
    expect(required.length).toBeGreaterThan(0);
    for (const number of required) expect(number.value).toBe(0);
    for (const number of numbers.filter((each) => /\.(yaw|pitch|roll)\.found$/.test(each.id))) {
      expect(Math.abs(number.value)).toBeLessThan(5);
    }
  });

  test('no probability is printed as 0 or 100 %', () => {
    for (const number of numbers.filter((each) => each.id.endsWith('.probability'))) {
      expect(Number(printNumber(number).value)).toBeGreaterThanOrEqual(0.1);
      expect(Number(printNumber(number).value)).toBeLessThanOrEqual(99.9);
    }
  });

  test('every number confirms its own print; one printed step away does not', () => {
    for (const number of numbers) {
      const printed = printNumber(number);
      expect(confirmsNumber(printed, number.value)).toBe(true);
      const step = Number(`1e-${number.decimals}`);
      expect(confirmsNumber(printed, Number(printed.value) + step)).toBe(false);
    }
  });

  test('half a printed place is the limit', () => {
    const printed = { id: 'x', value: '12.3', unit: 'mm', decimals: 1 };
    expect(confirmsNumber(printed, 12.35)).toBe(true);
    expect(confirmsNumber(printed, 12.3501)).toBe(false);
    expect(confirmsNumber(printed, 12.25)).toBe(true);
    expect(confirmsNumber(printed, Number.NaN)).toBe(false);
  });
});
