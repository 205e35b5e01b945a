import { describe, expect, test } from 'vitest';
import { isUuidV7, uuidV7, uuidV7Time } from '../../../core/job/ids.ts';

const zeros = new Uint8Array(10);
const ones = new Uint8Array(10).fill(0xff);

describe('uuidV7', () => {
  test('the example of RFC 9562 appendix A.6', () => {
    // unix_ts_ms 0x017F22E279B0, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F.
    const random = Uint8Array.from([0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
    expect(uuidV7(0x017f22e279b0, random)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
  });

  test('version and variant bits stand whatever the random bytes are', () => {
    expect(uuidV7(0, zeros)).toBe('00000000-0000-7000-8000-000000000000');
    expect(uuidV7(2 ** 48 - 1, ones)).toBe('ffffffff-ffff-7fff-bfff-ffffffffffff');
  });

  test('ids of later milliseconds sort later', () => {
    expect(uuidV7(1_000, ones) < uuidV7(1_001, zeros)).toBe(true);
    expect(uuidV7(255, ones) < uuidV7(256, zeros)).toBe(true);
  });

  test.each([-1, 1.5, 2 ** 48, Number.NaN])('time %s is a bug', (time) => {
    expect(() => uuidV7(time, zeros)).toThrow(/out of range/);
  });

  test('too few random bytes are a bug', () => {
    expect(() => uuidV7(0, new Uint8Array(9))).toThrow(/10 random bytes/);
  });

  test('does not change the bytes it was given', () => {
    const given = new Uint8Array(10).fill(0xff);
    uuidV7(0, given);
    expect(given).toEqual(ones);
  });
});

describe('isUuidV7 and uuidV7Time', () => {
  test.each([
    ['017f22e2-79b0-7cc3-98c4-dc0c0c07398f', true],
    ['017F22E2-79B0-7CC3-98C4-DC0C0C07398F', false],
    ['017f22e2-79b0-4cc3-98c4-dc0c0c07398f', false],
    ['017f22e2-79b0-7cc3-78c4-dc0c0c07398f', false],
    ['017f22e2-79b0-7cc3-98c4-dc0c0c07398', false],
    ['', false],
  ])('%s: %s', (text, expected) => {
    expect(isUuidV7(text)).toBe(expected);
  });

  test('the time comes back', () => {
    expect(uuidV7Time(uuidV7(1_795_598_910_801, ones))).toBe(1_795_598_910_801);
    expect(() => uuidV7Time('shop')).toThrow(/not a UUIDv7/);
  });
});
