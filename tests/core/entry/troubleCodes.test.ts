import { describe, expect, test } from 'vitest';
import { MOST_CODES, parseTroubleCodes } from '../../../core/entry/index.ts';
import { templateOf } from '../../../core/words/index.ts';

const codesOf = (text: string) => {
  const read = parseTroubleCodes(text);
  return read.ok ? read.value : read.error.key;
};

describe('fault codes in the form of SAE J2012 (from memory)', () => {
  test.each([
    ['P0123', ['P0123']],
    ['b1e04-54', ['B1E04-54']],
    ['U0100 C0035-1F', ['U0100', 'C0035-1F']],
    ['P0123, P0124;\nP3FFF', ['P0123', 'P0124', 'P3FFF']],
    ['P0123 p0123', ['P0123']],
    ['U0100\u201387', ['U0100-87']],
    ['none', ['none']],
    ['  NONE ', ['none']],
    ['keine', ['none']],
    ['', []],
  ])('%j is read', (text, codes) => {
    expect(codesOf(text)).toEqual(codes);
  });

  test.each([
    ['X0123', 'codes.letter'],
    ['0123', 'codes.letter'],
    ['P012', 'codes.length'],
    ['P01234', 'codes.length'],
    ['P0123-1', 'codes.length'],
    ['P0123-1A2', 'codes.length'],
    ['P4123', 'codes.first'],
    ['PF000', 'codes.first'],
    ['P012G', 'codes.form'],
    ['P0123 camera', 'codes.form'],
    ['P0123/04', 'codes.form'],
    ['none P0123', 'codes.noneAndSome'],
    [
      Array.from({ length: MOST_CODES + 1 }, (_, i) => `P00${String(i).padStart(2, '0')}`).join(' '),
      'codes.tooMany',
    ],
  ])('%j is refused', (text, key) => {
    expect(codesOf(text)).toBe(key);
    expect(templateOf(key)).toBeDefined();
  });

  test('a refusal names the part that has another form, not the whole list', () => {
    const read = parseTroubleCodes('P0123, DEMO-1, U0100');
    expect(read.ok ? {} : read.error.values).toEqual({ part: 'DEMO-1' });
  });

  test('what is read is read again to the same', () => {
    const once = codesOf('u0100-87 b1e04');
    expect(codesOf((once as readonly string[]).join(', '))).toEqual(once);
  });
});
