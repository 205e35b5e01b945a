import { describe, expect, test } from 'vitest';
import { SCAN_PAUSE_MS, wedgeReader } from '../../../renderer/scan/wedge.ts';

const VIN = '1M8GDM9AXKP042788';

/** Feeds keys `pauseMs` apart and answers what came of the last. */
function feed(keys: readonly string[], pauseMs: number, read = wedgeReader(), fromMs = 1_000) {
  let answer: string | undefined;
  for (const [index, key] of keys.entries()) answer = read({ key, atMs: fromMs + index * pauseMs });
  return answer;
}

describe('a scan', () => {
  test.each([1, 5, 15, SCAN_PAUSE_MS])('with a key every %d ms is heard', (pauseMs) => {
    expect(feed([...VIN, 'Enter'], pauseMs)).toBe(VIN);
  });

  test('may hold capitals typed with Shift, and more than the VIN', () => {
    expect(feed(['Shift', '*', ...[...`I${VIN}`].flatMap((key) => ['Shift', key]), '*', 'Enter'], 2)).toBe(
      `*I${VIN}*`,
    );
  });

  test('begins anew after each Enter', () => {
    const read = wedgeReader();
    expect(feed([...'1234', 'Enter'], 2, read, 1_000)).toBeUndefined();
    expect(feed([...VIN, 'Enter'], 2, read, 1_020)).toBe(VIN);
  });

  test('is not joined with what was typed before it', () => {
    const read = wedgeReader();
    feed([...'abc'], 2, read, 1_000);
    expect(feed([...VIN, 'Enter'], 2, read, 1_500)).toBe(VIN);
  });
});

describe('no scan', () => {
  test.each([SCAN_PAUSE_MS + 1, 60, 200])('typing, a key every %d ms', (pauseMs) => {
    expect(feed([...VIN, 'Enter'], pauseMs)).toBeUndefined();
  });

  test('fewer characters than a VIN has', () => {
    expect(feed([...VIN.slice(1), 'Enter'], 2)).toBeUndefined();
  });

  test('a burst without an end', () => {
    expect(feed([...VIN], 2)).toBeUndefined();
  });

  test('an Enter long after the burst', () => {
    const read = wedgeReader();
    feed([...VIN], 2, read, 1_000);
    expect(read({ key: 'Enter', atMs: 2_000 })).toBeUndefined();
  });

  test('an endless stream does not grow without limit', () => {
    const read = wedgeReader();
    expect(feed([...Array<string>(20_000).fill('9'), 'Enter'], 1, read)?.length).toBe(4_296);
  });
});
