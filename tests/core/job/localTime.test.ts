import { describe, expect, test } from 'vitest';
import { localDay, localMinute, offsetText, utcSecond } from '../../../core/job/localTime.ts';

// 2026-03-05T23:30:09Z, from its definition: 20517 days after 1970-01-01 and 84609 s.
const MOMENT = (20_517 * 86_400 + 84_609) * 1000;

describe('printed moments', () => {
  test('local time can be the next day', () => {
    expect(localMinute(MOMENT, 60)).toBe('2026-03-06 00:30');
    expect(localDay(MOMENT, 60)).toBe('2026-03-06');
    expect(localDay(MOMENT, -300)).toBe('2026-03-05');
  });

  test('the offset is written with its sign and minutes', () => {
    expect(offsetText(0)).toBe('UTC');
    expect(offsetText(60)).toBe('UTC+01:00');
    expect(offsetText(-210)).toBe('UTC-03:30');
    expect(offsetText(345)).toBe('UTC+05:45');
  });

  test('UTC is written in whole seconds', () => {
    expect(utcSecond(MOMENT + 999)).toBe('2026-03-05T23:30:09Z');
  });
});
