import { describe, expect, test } from 'vitest';
import {
  BOUNCE_MS,
  clickKeysOf,
  clickReader,
  DEFAULT_KEYS,
  learned,
  mayBeClicker,
} from '../../../renderer/announcer/clicker.ts';

describe('presses', () => {
  test('a known key is a click, another is none', () => {
    const read = clickReader(DEFAULT_KEYS);
    expect(read('PageDown', 0)).toBe('next');
    expect(read('a', 2_000)).toBeUndefined();
    expect(read('PageUp', 3_000)).toBe('repeat');
  });

  test('a button that bounces clicks once', () => {
    const read = clickReader(DEFAULT_KEYS);
    expect(read('PageDown', 0)).toBe('next');
    expect(read('PageDown', BOUNCE_MS - 1)).toBeUndefined();
    expect(read('PageUp', BOUNCE_MS - 1)).toBeUndefined();
    expect(read('PageDown', BOUNCE_MS)).toBe('next');
  });

  test('a button nobody has learned is none, whatever key comes', () => {
    const read = clickReader({ next: '', repeat: '', moved: '' });
    expect(read('', 0)).toBeUndefined();
    expect(read('PageDown', 1_000)).toBeUndefined();
  });
});

describe('which keys may be learned', () => {
  test.each(['PageDown', 'PageUp', 'F5', 'F13', 'MediaPlayPause', 'Home', 'AudioVolumeUp'])('%s', (key) => {
    expect(mayBeClicker(key)).toBe(true);
  });

  test.each(['a', '5', ',', ' ', 'Enter', 'Escape', 'Tab', 'F8', 'F9', 'ArrowDown', 'Shift', 'Unidentified'])(
    'not %j',
    (key) => {
      expect(mayBeClicker(key)).toBe(false);
    },
  );
});

describe('what is kept', () => {
  test('a learned key comes back', () => {
    const keys = learned(DEFAULT_KEYS, 'moved', 'F13');
    expect(keys).toEqual({ next: 'PageDown', repeat: 'PageUp', moved: 'F13' });
    expect(clickKeysOf(JSON.stringify(keys))).toEqual(keys);
  });

  test('a key has one meaning: learned anew, it leaves the old one', () => {
    expect(learned(DEFAULT_KEYS, 'moved', 'PageDown')).toEqual({
      next: '',
      repeat: 'PageUp',
      moved: 'PageDown',
    });
  });

  test.each([null, '', 'null', '7', '[]', '{', '{"next":5}', '{"next":"a","repeat":"Enter"}'])(
    '%j is the default',
    (kept) => {
      expect(clickKeysOf(kept)).toEqual(DEFAULT_KEYS);
    },
  );

  test('a key that names nothing of ours, and inherited names, are left out', () => {
    expect(clickKeysOf('{"__proto__":{"next":"F5"},"toString":"F6","moved":"F7"}')).toEqual({
      ...DEFAULT_KEYS,
      moved: 'F7',
    });
  });
});
