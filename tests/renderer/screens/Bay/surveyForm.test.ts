import { describe, expect, test } from 'vitest';
import { wholeJob } from '../../../../core/job/fieldKey.ts';
import type { RecordedField } from '../../../../core/job/job.ts';
import { lightSummary } from '../../../../core/job/lightAtFive.ts';
import { partOfField } from '../../../../renderer/screens/Bay/ownFields.ts';
import { rectangle } from '../../../../renderer/screens/Bay/RoomForm.tsx';
import {
  doubtfulJump,
  gridLines,
  gridOf,
  type SurveyTexts,
  surveyFrom,
} from '../../../../renderer/screens/Bay/surveyForm.ts';
import { yearsLater } from '../../../../renderer/screens/Bay/useBayRoom.ts';
import { lightSumFacts } from '../../../../renderer/screens/Bay/useLightSums.ts';

const texts: SurveyTexts = {
  length: '9000',
  width: '4 m',
  step: '1500',
  validUntil: '2027-11-25',
  instrument: 'Laser',
  uHeight: '0,5',
  uTilt: '0.05',
};

describe('the grid of a survey', () => {
  test.each([
    [3000, 1000, [0, 1000, 2000, 3000]],
    // Never wider than asked for: the step shrinks, the end stays.
    [3100, 1000, [0, 775, 1550, 2325, 3100]],
    [400, 1000, [0, 400]],
  ])('%d mm in steps of %d', (length, step, lines) => {
    expect(gridLines(length, step)).toEqual(lines);
  });

  test('takes the lengths with their own units', () => {
    expect(gridOf(texts)?.ysMm).toEqual([0, 1333, 2667, 4000]);
  });

  test.each([
    ['no length', { length: '' }],
    ['a step of nothing', { step: '0' }],
    ['a word', { width: 'wide' }],
    ['more lines than a morning has places', { step: '2' }],
  ])('%s is no grid', (_name, change) => {
    expect(gridOf({ ...texts, ...change })).toBeUndefined();
  });
});

describe('a survey from its form', () => {
  test('begins empty, with the level in mm a metre as a pure number', () => {
    expect(surveyFrom(texts, 'Mira', '2026-11-25')).toMatchObject({
      madeOn: '2026-11-25',
      places: [],
      uHeightMm: 0.5,
      uTilt: 5e-5,
    });
  });

  test.each([
    ['that ended before it began', { validUntil: '2026-11-24' }],
    ['with no day', { validUntil: 'next year' }],
    ['of more than 30 lines', { step: '200' }],
    ['known without any doubt', { uHeight: '0' }],
  ])('one %s is refused', (_name, change) => {
    expect(surveyFrom({ ...texts, ...change }, 'Mira', '2026-11-25')).toBeUndefined();
  });

  test('the 29th of February a year later is the 28th', () => {
    expect(yearsLater('2028-02-29', 1)).toBe('2029-02-28');
    expect(yearsLater('2026-11-25', 1)).toBe('2027-11-25');
  });
});

test('a height far off the nearest place read is doubtful, one on a slope is not', () => {
  const survey = surveyFrom(texts, 'Mira', '2026-11-25');
  if (survey === undefined) throw new Error('no survey');
  const read = { ...survey, places: [{ column: 0, row: 0, staffMm: 1200, text: '1200' }] };
  const next = { column: 1, row: 0, xMm: 1500, yMm: 0 };
  expect(doubtfulJump(read, next, 1230)).toBeUndefined();
  expect(doubtfulJump(read, next, 1300)).toBe(100);
  expect(doubtfulJump(read, { ...next, column: 0, xMm: 0 }, 1300)).toBeUndefined();
});

test('a rectangle whose side is turned about is none', () => {
  expect(rectangle([0, 5], [0, 3])).toEqual([
    [0, 0],
    [5, 0],
    [5, 3],
    [0, 3],
  ]);
  expect(rectangle([5, 0], [0, 3])).toBeUndefined();
  expect(rectangle([0, 5], [undefined, 3])).toBeUndefined();
});

describe('light sums', () => {
  const fieldsOf = (values: Readonly<Record<string, number>>): Record<string, RecordedField> =>
    Object.fromEntries(
      Object.entries(values).map(([field, value]) => [
        field,
        {
          field,
          at: wholeJob,
          value,
          text: String(value),
          corrections: 0,
          stamp: { seq: 1, utcMs: 0, offsetMin: 0, person: 'mira' },
        },
      ]),
    );
  const five = {
    'bay.light1': 520,
    'bay.light2': 540,
    'bay.light3': 430,
    'bay.light4': 450,
    'bay.light5': 600,
  };

  test('are recorded when the fifth reading is, and not before', () => {
    const { 'bay.light5': _last, ...four } = five;
    const before = { fields: fieldsOf(four) };
    expect(lightSumFacts(before, lightSummary(before))).toEqual([]);
    const after = { fields: fieldsOf(five) };
    const facts = lightSumFacts(after, lightSummary(after)).map((each) => each.payload);
    expect(facts).toMatchObject([
      { field: 'bay.lightMean', value: 508 },
      { field: 'bay.lightLowest', value: 430 },
      { field: 'bay.lightUniformity', value: 0.85 },
    ]);
  });

  test('are left alone where they stand already', () => {
    const job = { fields: fieldsOf({ ...five, 'bay.lightMean': 508, 'bay.lightLowest': 430 }) };
    const facts = lightSumFacts(job, lightSummary(job)).map((each) => each.payload);
    expect(facts).toMatchObject([{ field: 'bay.lightUniformity' }]);
  });
});

test.each([
  ['bay.overdueReason@//tape-1', 'due'],
  ['bay.light3', 'light'],
  ['bay.wheelbase', 'space'],
  ['bay.support', 'floor'],
  ['prechecks.fuel', undefined],
])('a list that leads to %s opens %s', (key, part) => {
  expect(partOfField(key)).toBe(part);
});
