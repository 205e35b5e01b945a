import { describe, expect, test } from 'vitest';
import { localMsOf, momentMs, momentText, parseMoment } from '../../../core/entry/index.ts';

const NOW = Date.UTC(2026, 2, 5, 9, 15);

const read = (text: string, now = NOW) => {
  const answer = parseMoment(text, now);
  return answer.ok ? answer.value : answer.error.key;
};

describe('a moment of the bay’s clock', () => {
  test.each([
    ['9:15', '2026-03-05 09:15'],
    ['08:40', '2026-03-05 08:40'],
    ['0840', '2026-03-05 08:40'],
    ['840', '2026-03-05 08:40'],
    ['8.40', '2026-03-05 08:40'],
    ['8,40', '2026-03-05 08:40'],
    ['14:30', '2026-03-04 14:30'],
    ['0:00', '2026-03-05 00:00'],
    ['2026-03-04 14:30', '2026-03-04 14:30'],
    ['2026-02-28T7:05', '2026-02-28 07:05'],
  ])('%j at 09:15 is %j', (text, moment) => {
    expect(read(text)).toBe(moment);
  });

  test('over the turn of a month and a leap day', () => {
    expect(read('23:59', Date.UTC(2024, 2, 1, 0, 10))).toBe('2024-02-29 23:59');
    expect(read('23:59', Date.UTC(2026, 2, 1, 0, 10))).toBe('2026-02-28 23:59');
  });

  test.each(['', 'noon', '25:00', '12:60', '7', '2026-02-30 10:00', '2026-13-01 10:00', '2026-03-04'])(
    '%j has another form',
    (text) => {
      expect(read(text)).toBe('moment.form');
    },
  );

  test('what is still to come is refused, never moved', () => {
    expect(read('2026-03-05 09:16')).toBe('moment.notYet');
  });

  test('text and milliseconds are each other’s inverse', () => {
    expect(momentMs(momentText(NOW))).toBe(NOW);
    expect(momentMs('2026-03-05 24:00')).toBeUndefined();
    expect(localMsOf(NOW, 60) - NOW).toBe(3_600_000);
  });
});
