import { describe, expect, test } from 'vitest';
import { type EntrySpec, parseQuantity } from '../../../core/entry/index.ts';

const length: EntrySpec = { kind: 'length', numbersIn: 'mm', startsAt: 'zero' };
const inch: EntrySpec = { kind: 'length', numbersIn: 'in', startsAt: 'hook' };
const angle: EntrySpec = { kind: 'angle' };
const DEG = Math.PI / 180;

function read(text: string, spec: EntrySpec = length) {
  const result = parseQuantity(text, spec);
  if (!result.ok) throw new Error(`"${text}" was refused: ${result.error.key}`);
  return result.value;
}

function refused(text: string, spec: EntrySpec = length) {
  const result = parseQuantity(text, spec);
  if (result.ok) throw new Error(`"${text}" was read as ${result.value.value}`);
  return result.error;
}

describe('lengths', () => {
  test.each([
    ['1350', 1350],
    ['1350,5', 1350.5],
    ['1350.5', 1350.5],
    ['0,5', 0.5],
    [',5', 0.5],
    ['.5', 0.5],
    ['1350.', 1350],
    ['+12', 12],
    ['-4', -4],
    ['\u22124', -4],
    ['- 4', -4],
    ['  1350 mm ', 1350],
    ['1350MM', 1350],
    ['135 cm', 1350],
    ['135,05cm', 1350.5],
    ['1,35 m', 1350],
    ['1.350 m', 1350],
    ['47 1/4 in', 1200.15],
    ['47-1/4 in', 1200.15],
    ['47.25"', 1200.15],
    ['47,25 "', 1200.15],
    ['47¼"', 1200.15],
    ['3 1/2"', 88.9],
    ['3 1/2 inches', 88.9],
    ['3 1/2 in.', 88.9],
    ['1/2 in', 12.7],
    ['½\u2033', 12.7],
    ['3 1\u20442 in', 88.9],
    ["5'", 1524],
    ['5\' 3"', 1600.2],
    ['5\' 3 1/2"', 1612.9],
    ['5\u2019 3\u201d', 1600.2],
    ["5' 3", 1600.2],
    ["5'3''", 1600.2],
    ['4 ft 3 in', 1295.4],
    ['0', 0],
  ])('%s is %f mm', (text, wanted) => {
    expect(read(text).value).toBeCloseTo(wanted, 9);
    expect(read(text).questions).toEqual([]);
    expect(read(text).unit).toBe('mm');
  });

  test.each([
    ['47 1/4', 'in', 1200.15],
    ['47.250', 'in', 1200.15],
    ['135', 'cm', 1350],
    ['1350', 'mm', 1350],
  ])('%s on a tape in %s is %f mm', (text, numbersIn, wanted) => {
    expect(read(text, { kind: 'length', numbersIn, startsAt: 'hook' }).value).toBeCloseTo(wanted, 9);
  });

  test('a unit that is typed outranks the unit of the tape', () => {
    expect(read('1200 mm', inch).value).toBe(1200);
    expect(read('10 in', { kind: 'length', numbersIn: 'cm' }).readIn).toBe('in');
  });

  test('a tape that starts at its 100 mm mark is subtracted, in every unit, and says so', () => {
    const hundred: EntrySpec = { kind: 'length', numbersIn: 'mm', startsAt: 'hundred' };
    expect(read('1450', hundred)).toMatchObject({ value: 1350, subtractedMm: 100, text: '1450' });
    expect(read('145 cm', hundred).value).toBe(1350);
    expect(read('10 in', hundred).value).toBeCloseTo(154, 9);
    expect(read('60', hundred).value).toBe(-40);
    expect(read('1450', { ...hundred, startsAt: 'hook' })).toMatchObject({ value: 1450, subtractedMm: 0 });
  });

  test('the typed text is kept untouched', () => {
    expect(read('  3 1/2\u201d ').text).toBe('  3 1/2\u201d ');
  });
});

describe('digits that may be grouped are questioned, never guessed', () => {
  test.each([
    ['1,350', 1.35, 1350],
    ['1.350', 1.35, 1350],
    ['12,500 mm', 12.5, 12500],
    ['-1,350', -1.35, -1350],
    ['1,350 cm', 13.5, 13500],
  ])('%s could be %f or %f', (text, decimal, grouped) => {
    const { value, questions } = read(text);
    expect(value).toBeCloseTo(decimal, 9);
    expect(questions).toHaveLength(1);
    expect(questions[0]?.key).toBe('slip.grouped');
    expect(questions[0]?.cures.map((cure) => cure.value)).toEqual([grouped, value]);
  });

  test('both cures know a tape that starts at 100 mm', () => {
    const { questions } = read('1,450', { kind: 'length', startsAt: 'hundred' });
    expect(questions[0]?.cures.map((cure) => cure.value)).toEqual([1350, -98.55]);
  });

  test.each(['0,350', '1350,500', '1,35', '1,3500', '1.350 m', '1,350 in', '930,125'])(
    '%s is not asked about',
    (text) => {
      if (text === '930,125') {
        // 930 125 mm is longer than any bay, so only the decimal reading is left.
        expect(read(text).value).toBe(930.125);
      }
      expect(read(text).questions).toEqual([]);
    },
  );

  test.each([
    ['1,350.5', '1350.5'],
    ['1.350,5', '1350,5'],
    ['1.234.567', '1234567'],
    ['1,350.5 mm', '1350.5 mm'],
  ])('%s is refused and %s suggested', (text, suggestion) => {
    expect(refused(text)).toMatchObject({ key: 'entry.twoDecimalSigns', suggestions: [suggestion] });
  });

  test('a blank or an apostrophe does not group either', () => {
    expect(refused('1 350')).toMatchObject({ key: 'entry.twoNumbers', suggestions: ['1350'] });
    expect(refused('1\u00a0350 mm')).toMatchObject({ key: 'entry.twoNumbers', suggestions: ['1350 mm'] });
    expect(refused('12 34')).toMatchObject({ key: 'entry.twoNumbers', suggestions: [] });
    expect(refused("1'350").key).toBe('entry.unitsOutOfOrder');
  });
});

describe('angles', () => {
  test.each([
    ['0,5', 0.5],
    ['0.5°', 0.5],
    ['0.5 deg', 0.5],
    ['-0.25°', -0.25],
    ["30'", 0.5],
    ["1° 30'", 1.5],
    ['1° 30', 1.5],
    ['1°30\'36"', 1.51],
    ['1.250', 1.25],
  ])('%s is %f degrees', (text, wanted) => {
    expect(read(text, angle).value / DEG).toBeCloseTo(wanted, 9);
    expect(read(text, angle).questions).toEqual([]);
  });

  // checks of small angles: 1 mm/m = 0.057296 deg, 1 % = 0.572939 deg (arc tangent)
  test.each([
    ['1 mm/m', 0.057296],
    ['10 mm / m', 0.572939],
    ['1 %', 0.572939],
    ['-0,4%', -0.229182],
  ])('%s is %f degrees', (text, wanted) => {
    expect(read(text.replace(' / ', '/'), angle).value / DEG).toBeCloseTo(wanted, 5);
  });

  test('an inclinometer that shows slope', () => {
    expect(read('10', { kind: 'angle', numbersIn: 'mm/m' }).value / DEG).toBeCloseTo(0.572939, 5);
    expect(read('1', { kind: 'angle', numbersIn: '%' }).readIn).toBe('%');
    expect(read('0.01 rad', angle).value).toBe(0.01);
  });
});

describe('other kinds', () => {
  test.each([
    ['2,4 bar', 'pressure', 240, 'kPa'],
    ['240', 'pressure', 240, 'kPa'],
    ['35 psi', 'pressure', 241.3165, 'kPa'],
    ['480 lux', 'illuminance', 480, 'lx'],
    ['48213', 'distanceDriven', 48213, 'km'],
    ['30000 mi', 'distanceDriven', 48280.32, 'km'],
    ['68 °F', 'temperature', 20, '°C'],
    ['-5', 'temperature', -5, '°C'],
    ['75 %', 'share', 75, '%'],
    ['3', 'count', 3, ''],
  ] as const)('%s as %s', (text, kind, wanted, unit) => {
    const typed = read(text, { kind });
    expect(typed.value).toBeCloseTo(wanted, 3);
    expect(typed.unit).toBe(unit);
  });
});

describe('what has no reading is refused in plain words', () => {
  test.each([
    ['', 'entry.empty'],
    ['   ', 'entry.empty'],
    ['abc', 'entry.notANumber'],
    ['mm', 'entry.notANumber'],
    ['--5', 'entry.notANumber'],
    ['5-', 'entry.notANumber'],
    ['5+3', 'entry.notANumber'],
    ['1e3', 'entry.unknownUnit'],
    ['0x10', 'entry.unknownUnit'],
    ['NaN', 'entry.notANumber'],
    ['Infinity', 'entry.notANumber'],
    ['.', 'entry.notANumber'],
    ['\u0661\u0662', 'entry.notANumber'],
    ['1/0 in', 'entry.badFraction'],
    ['3 5/4 in', 'entry.badFraction'],
    ['12 furlongs', 'entry.unknownUnit'],
    ['12 °', 'entry.unknownUnit'],
    ['3" 4\'', 'entry.unitsOutOfOrder'],
    ['3 mm 4 mm', 'entry.unitsOutOfOrder'],
    ['5\' 13"', 'entry.unitsOutOfOrder'],
    ['1234567890', 'entry.tooManyDigits'],
    ['1'.repeat(61), 'entry.tooLong'],
    ['constructor', 'entry.notANumber'],
    ['1 __proto__', 'entry.unknownUnit'],
  ])('%j: %s', (text, key) => {
    expect(refused(text).key).toBe(key);
  });

  test('an unknown unit is named together with the known ones', () => {
    expect(refused('12 furlongs').values).toEqual({ unit: 'furlongs', known: 'mm, cm, m, in, ft' });
    expect(refused('3 mm', angle).values.known).toBe('°, ′, ″, mm/m, %, rad');
  });
});
