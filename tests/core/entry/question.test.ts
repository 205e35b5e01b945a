import { describe, expect, test } from 'vitest';
import { questionReading, type ReadingContext } from '../../../core/entry/index.ts';

const limits = { min: 0, max: 8000 };
const about = (expected: number): ReadingContext => ({ limits, expected });

describe('slips are recognised and the likeliest cure comes first', () => {
  test.each([
    ['below zero', -1350, { limits }, 'slip.negative', 1350],
    ['ten times too big', 13500, about(1352), 'slip.tenTimesTooBig', 1350],
    ['ten times too small', 135, about(1352), 'slip.tenTimesTooSmall', 1350],
    ['read in inches', 53.15, about(1352), 'slip.inchesAsMm', 1350.01],
    ['read in mm, typed in inches', 34290, about(1352), 'slip.mmAsInches', 1350],
    ['tape started at 100', 1450, about(1352), 'slip.hundredTooMuch', 1350],
    ['100 taken off twice', 1250, about(1352), 'slip.hundredTooLittle', 1350],
    ['100 off on a long tape, where 5 % is more than that', 5100, about(5001), 'slip.hundredTooMuch', 5000],
    [
      'beyond every bay, one cure fits',
      13500,
      { limits: { min: 600, max: 4000 } },
      'slip.tenTimesTooBig',
      1350,
    ],
    ['far off in no known way', 2000, about(1352), 'slip.farOff', 2000],
  ] as const)('%s', (_name, value, context, key, cure) => {
    const question = questionReading(value, context);
    expect(question?.key).toBe(key);
    expect(question?.cures[0]?.value).toBeCloseTo(cure, 6);
    expect(question?.cures.at(-1)).toEqual({ key: 'cure.keep', value });
  });

  test.each([
    ['near what is expected', 1360, about(1352)],
    ['inside plausible limits, nothing expected', 1350, { limits }],
    ['zero is no slip', 0, { limits }],
    ['a negative value where it may be', -3, { limits: { min: -50, max: 50 } }],
    ['90 mm off a 5 m tape is near', 5090, about(5000)],
  ] as const)('not asked: %s', (_name, value, context) => {
    expect(questionReading(value, context)).toBeUndefined();
  });

  test('out of range offers every unit slip that would fit, then keeping', () => {
    const question = questionReading(40, { limits: { min: 300, max: 2000 } });
    expect(question?.key).toBe('slip.outOfRange');
    expect(question?.cures.map((cure) => cure.value)).toEqual([400, 1016, 40]);
    expect(questionReading(9_999_999, { limits })?.cures).toEqual([{ key: 'cure.keep', value: 9_999_999 }]);
    expect(questionReading(40, { limits: { min: 1000, max: 1020 } })?.key).toBe('slip.inchesAsMm');
  });
});

describe('a partner on the other side', () => {
  test('stands in as expectation where both sides are alike', () => {
    const context: ReadingContext = { limits, pair: { value: 2700, alike: true } };
    expect(questionReading(2704, context)).toBeUndefined();
    expect(questionReading(2801, context)?.key).toBe('slip.hundredTooMuch');
    expect(questionReading(270.4, context)?.key).toBe('slip.tenTimesTooSmall');
    expect(questionReading(2801, { limits, pair: { value: 2700 } })).toBeUndefined();
  });

  test('exchanged sides are offered to both fields at once', () => {
    const question = questionReading(3100, { limits, expected: 3040, pair: { value: 3041, expected: 3101 } });
    expect(question?.key).toBe('slip.swappedSides');
    expect(question?.cures[0]).toEqual({ key: 'cure.exchange', value: 3041, pairValue: 3100 });
  });

  test.each([
    ['both as expected', 3041, { value: 3100, expected: 3101 }],
    ['partners nearly equal cannot tell', 3041, { value: 3040, expected: 3041 }],
    ['only one is off', 3100, { value: 3100, expected: 3101 }],
  ] as const)('not offered: %s', (_name, value, pair) => {
    expect(questionReading(value, { limits, expected: 3040, pair })?.key).not.toBe('slip.swappedSides');
  });
});

describe('angles bring their own reach', () => {
  const DEG = Math.PI / 180;
  const context: ReadingContext = { limits: { min: 0, max: 10 * DEG }, expected: 0.5 * DEG, near: 0.3 * DEG };
  test('ten times too big is seen, a small difference is not', () => {
    expect(questionReading(5 * DEG, context)?.key).toBe('slip.tenTimesTooBig');
    expect(questionReading(0.7 * DEG, context)).toBeUndefined();
    expect(questionReading(2 * DEG, context)?.key).toBe('slip.farOff');
  });
});
