import { describe, expect, test } from 'vitest';
import { eventAtSchema } from '../../../core/job/event.ts';
import { isUuidV7, uuidV7Time } from '../../../core/job/ids.ts';
import { newId, systemClock, systemRandom } from '../../../electron/service/clock.ts';

describe('the real clock', () => {
  test('gives what an event can carry', () => {
    expect(eventAtSchema.safeParse(systemClock.now()).success).toBe(true);
  });

  test('tells the present, here', () => {
    const before = Date.now();
    const now = systemClock.now();
    expect(now.utcMs).toBeGreaterThanOrEqual(before);
    expect(now.utcMs).toBeLessThanOrEqual(Date.now());
    const local = new Date(now.utcMs);
    expect(now.offsetMin).toBe(-local.getTimezoneOffset());
    const there = new Date(now.utcMs + now.offsetMin * 60_000);
    expect(there.getUTCHours()).toBe(local.getHours());
    expect(now.zone.length).toBeGreaterThan(0);
  });

  test('its other half only runs forward', () => {
    let last = systemClock.now().monoMs;
    for (let n = 0; n < 1_000; n += 1) {
      const { monoMs } = systemClock.now();
      expect(monoMs).toBeGreaterThanOrEqual(last);
      last = monoMs;
    }
  });
});

describe('newId', () => {
  test('is a UUIDv7 of its moment, another each time', () => {
    const ids = Array.from({ length: 500 }, () => newId());
    expect(new Set(ids).size).toBe(500);
    expect(ids.every(isUuidV7)).toBe(true);
    expect(Math.abs(uuidV7Time(ids[0] ?? '') - Date.now())).toBeLessThan(60_000);
  });

  test('follows a given clock and source', () => {
    const clock = { now: () => ({ utcMs: 0, offsetMin: 0, zone: 'UTC', monoMs: 0 }) };
    expect(newId(clock, (bytes) => new Uint8Array(bytes))).toBe('00000000-0000-7000-8000-000000000000');
  });

  test('the random source gives as many bytes as asked, not the same ones', () => {
    expect(systemRandom(32)).toHaveLength(32);
    expect(systemRandom(32)).not.toEqual(systemRandom(32));
  });
});
