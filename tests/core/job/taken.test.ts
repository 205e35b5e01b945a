import { describe, expect, test } from 'vitest';
import { payloadProblem } from '../../../core/job/readEvents.ts';

const typed = {
  reading: 'r1',
  quantity: 'bar.height',
  sensor: 'camera',
  station: null,
  value: 1350.2,
  unit: 'mm',
  direction: null,
  text: '1350.2 mm',
  instrument: 'gauge-1',
  purpose: 'proof',
  carSetUp: 1,
  fixtureSetUp: 1,
};
const taken = { n: 58, mean: 1350.2, s: 0.04, lastLine: 'D1 +1350.21 mm' };

const problem = (payload: object) => payloadProblem('readingRecorded', 1, payload);

describe('a reading taken from an instrument that sends lines', () => {
  test('keeps count, mean, spread and last line; a typed one, and one of an old record, has none of it', () => {
    expect(problem(typed)).toBeUndefined();
    expect(problem({ ...typed, taken })).toBeUndefined();
    expect(problem({ ...typed, taken: { ...taken, n: 1, s: null } })).toBeUndefined();
  });

  test.each([
    ['no value', { n: 0 }],
    ['half a value', { n: 1.5 }],
    ['a negative spread', { s: -1 }],
    ['no spread said', { s: undefined }],
    ['a mean that is none', { mean: Number.NaN }],
    ['a line longer than any', { lastLine: 'x'.repeat(257) }],
    ['something else', { colour: 'red' }],
  ])('%s is refused', (_name, change) => {
    expect(problem({ ...typed, taken: { ...taken, ...change } })).toMatch(/^taken/);
  });
});
