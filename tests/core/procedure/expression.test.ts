import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../core/procedure/evaluate.ts';
import { inputNames, parseExpression } from '../../../core/procedure/expression.ts';
import { angleOf, lengthOf, type Measure, plain } from '../../../core/procedure/measure.ts';

const inputs: ReadonlyMap<string, Measure> = new Map([
  ['reach', lengthOf(870)],
  ['wheelbase', lengthOf(2700)],
  ['zero', lengthOf(0)],
  ['aim', angleOf((30 * Math.PI) / 180)],
]);

function calculated(text: string): Measure {
  const parsed = parseExpression(text);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.error.code} ${parsed.error.at}`);
  const value = evaluate(parsed.value, inputs);
  if (!value.ok) throw new Error(`${text}: ${value.error.code} ${value.error.at}`);
  return value.value;
}

function refused(text: string): string {
  const parsed = parseExpression(text);
  if (!parsed.ok) return parsed.error.code;
  const value = evaluate(parsed.value, inputs);
  return value.ok ? `value ${value.value.value}` : value.error.code;
}

describe('lengths, hand-worked', () => {
  test.each([
    ['1350 mm', 1350],
    ['1.35 m', 1350],
    ['10 in', 254],
    ['1/2 in', 12.7],
    ['(53 + 1/8) in', 1349.375],
    ['reach + 1500 mm', 2370],
    ['reach+1500mm', 2370],
    ['wheelbase / 2 - 10 cm', 1250],
    ['2 * (reach - 70 mm)', 1600],
    ['-reach', -870],
    ['+reach', 870],
    ['min(reach, 50 cm, 1 m)', 500],
    ['max(reach, 3 ft)', 914.4],
    ['abs(reach - wheelbase)', 1830],
    ['sqrt((300 mm)^2 + (400 mm)^2)', 500],
    ['sqrt(reach * reach)', 870],
    ['reach^2 / reach', 870],
    ['reach * (wheelbase / wheelbase)', 870],
    ['reach^-1 * reach * reach', 870],
    ['reach^0 * 5 mm', 5],
    ['2 mm^2 / 1 mm', 2],
    ['reach * cosd(60)', 435],
    ['reach * sind(aim)', 435],
    ['reach * tand(45 deg)', 870],
    ['1e2 mm', 100],
    ['5 in - 2 in', 76.2],
    ['5in-2 inch', 76.2],
    ['reach - 3/4 in', 850.95],
    ['(2 in + 1 in) * 2', 152.4],
    ['3 in * 2 in / 1 in', 152.4],
    ['1 mm + 5 in / 2', 64.5],
  ])('%s is %f mm', (text, wanted) => {
    const value = calculated(text);
    expect(value.value).toBeCloseTo(wanted, 9);
    expect([value.length, value.angle]).toEqual([1, 0]);
  });

  test('angles and bare numbers keep their kind', () => {
    expect(calculated('aim / 2 + 15 deg')).toMatchObject({ length: 0, angle: 1 });
    expect(calculated('aim / 2 + 15 deg').value).toBeCloseTo(Math.PI / 6, 12);
    expect(calculated('aim / 10 deg').angle).toBe(0);
    expect(calculated('aim / 10 deg').value).toBeCloseTo(3, 12);
    expect(calculated('2 + 3 * 4')).toEqual(plain(14));
    expect(calculated('2^3')).toEqual(plain(8));
  });

  test('the names an expression needs are listed once each', () => {
    const parsed = parseExpression('max(reach, wheelbase) + 2 * reach - 1 mm ^ 1');
    expect(parsed.ok && inputNames(parsed.value)).toEqual(['reach', 'wheelbase']);
  });
});

describe('units are checked at every step', () => {
  test.each([
    'reach + 1500',
    '12-3/4 in',
    '5 + 3 in',
    'reach - aim',
    'min(reach, 500)',
    'max(aim, 1 mm)',
    'sqrt(reach)',
    'sqrt(aim)',
    'sind(reach)',
    'cosd(aim * aim)',
    '1 deg + 1 mm',
    'reach * reach + reach',
  ])('%s does not match', (text) => {
    expect(refused(text)).toBe('procedure/unitsDoNotMatch');
  });

  test.each([
    ['reach / zero', 'procedure/divisionByZero'],
    ['1 mm / (2 - 2)', 'procedure/divisionByZero'],
    ['zero^-1', 'procedure/divisionByZero'],
    ['sqrt(-1)', 'procedure/notANumber'],
    ['1e300 mm * 1e300', 'procedure/notANumber'],
    ['unknownName + 1 mm', 'procedure/inputMissing'],
    ['2 reachX', 'procedure/expressionNotAllowed'],
  ])('%s: %s', (text, code) => {
    expect(refused(text)).toBe(code);
  });
});

describe('hostile and odd texts are refused before anything could run', () => {
  test.each([
    ['', 'procedure/expressionEmpty'],
    ['   ', 'procedure/expressionEmpty'],
    ['1 mm +', 'procedure/expressionUnreadable'],
    ['((1 mm)', 'procedure/expressionUnreadable'],
    ['1,350', 'procedure/expressionUnreadable'],
    ['1..2', 'procedure/expressionUnreadable'],
    ['f(x) = x', 'procedure/expressionNotAllowed'],
    ['reach = 3', 'procedure/expressionNotAllowed'],
    ['1:3', 'procedure/expressionNotAllowed'],
    ['[1, 2]', 'procedure/expressionNotAllowed'],
    ['{a: 1}', 'procedure/expressionNotAllowed'],
    ['"text"', 'procedure/expressionNotAllowed'],
    ["'text'", 'procedure/expressionNotAllowed'],
    ['reach[1]', 'procedure/expressionNotAllowed'],
    ['reach.constructor', 'procedure/expressionNotAllowed'],
    ['a.b.c(1)', 'procedure/expressionNotAllowed'],
    ['cos.constructor("return 1")()', 'procedure/expressionNotAllowed'],
    ['createUnit("x")', 'procedure/expressionNotAllowed'],
    ['createUnit(x)', 'procedure/expressionNotAllowed'],
    ['import(x)', 'procedure/expressionNotAllowed'],
    ['config(x)', 'procedure/expressionNotAllowed'],
    ['eval(x)', 'procedure/expressionNotAllowed'],
    ['evaluate(x)', 'procedure/expressionNotAllowed'],
    ['parse(x)', 'procedure/expressionNotAllowed'],
    ['simplify(x)', 'procedure/expressionNotAllowed'],
    ['sin(1)', 'procedure/expressionNotAllowed'],
    ['reach(2)', 'procedure/expressionNotAllowed'],
    ['mm(2)', 'procedure/expressionNotAllowed'],
    ['toString()', 'procedure/expressionNotAllowed'],
    ['abs()', 'procedure/expressionNotAllowed'],
    ['abs(1, 2)', 'procedure/expressionNotAllowed'],
    ['min()', 'procedure/expressionNotAllowed'],
    ['reach!', 'procedure/expressionNotAllowed'],
    ['5 % 2', 'procedure/expressionNotAllowed'],
    ['5 mod 2', 'procedure/expressionNotAllowed'],
    ['true ? 1 : 2', 'procedure/expressionNotAllowed'],
    ['1 and 2', 'procedure/expressionNotAllowed'],
    ['not 1', 'procedure/expressionNotAllowed'],
    ['1 < 2', 'procedure/expressionNotAllowed'],
    ['1; 2', 'procedure/expressionNotAllowed'],
    ['1\n2', 'procedure/expressionNotAllowed'],
    ['1 # note', 'procedure/expressionNotAllowed'],
    ['reach in mm', 'procedure/expressionNotAllowed'],
    ['reach to mm', 'procedure/expressionNotAllowed'],
    ['0x10 mm', 'procedure/expressionNotAllowed'],
    ['true', 'procedure/expressionNotAllowed'],
    ['null', 'procedure/expressionNotAllowed'],
    ['undefined', 'procedure/expressionNotAllowed'],
    ['NaN', 'procedure/expressionNotAllowed'],
    ['Infinity', 'procedure/expressionNotAllowed'],
    ['1e400', 'procedure/expressionNotAllowed'],
    ['2(3)', 'procedure/expressionNotAllowed'],
    ['2 3', 'procedure/expressionUnreadable'],
    ['reach mm', 'procedure/expressionNotAllowed'],
    ['2 mm in', 'procedure/expressionNotAllowed'],
    ['reach wheelbase', 'procedure/expressionNotAllowed'],
    ['2^0.5', 'procedure/expressionNotAllowed'],
    ['2^7', 'procedure/expressionNotAllowed'],
    ['2^reach', 'procedure/expressionNotAllowed'],
    ['2^2^2', 'procedure/expressionNotAllowed'],
    ['\u0440each', 'procedure/expressionNotAllowed'],
  ])('%j: %s', (text, code) => {
    expect(refused(text)).toBe(code);
  });

  test.each(['__proto__', 'constructor', 'prototype', 'toString', 'valueOf', 'hasOwnProperty'])(
    'the name %s finds nothing that was not measured',
    (name) => {
      expect(refused(`${name} + 1 mm`)).toMatch(/inputMissing|expressionNotAllowed/);
    },
  );

  test('length and complexity are limited, and the limits themselves pass', () => {
    const sum = (terms: number): string => Array.from({ length: terms }, () => '1').join('+');
    expect(refused(sum(151))).toBe('procedure/expressionTooLong');
    // 50 constants and 49 sums are 99 nodes; one more pair is 101.
    expect(refused(sum(50))).toBe('value 50');
    expect(refused(sum(51))).toBe('procedure/expressionTooComplex');
    expect(refused(`${'('.repeat(120)}1${')'.repeat(120)}`)).toBe('procedure/expressionTooComplex');
    expect(refused(`${'-'.repeat(250)}1`)).toBe('procedure/expressionTooComplex');
    expect(refused(`${'('.repeat(299)}1`)).toBe('procedure/expressionUnreadable');
  });

  test('nothing hostile leaves a trace on the language itself', () => {
    refused('constructor.prototype.polluted = 1');
    refused('__proto__ = 1');
    expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
  });
});
