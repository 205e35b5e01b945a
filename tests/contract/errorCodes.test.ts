import { describe, expect, test } from 'vitest';
import { errorCodes, isErrorCode } from '../../core/contract/errorCodes.ts';
import { templateOf } from '../../core/words/index.ts';

describe('error codes', () => {
  test('are unique and of the form area/what', () => {
    expect(new Set(errorCodes).size).toBe(errorCodes.length);
    expect(errorCodes.filter((code) => !/^[a-z]+\/[a-z][A-Za-z]*$/.test(code))).toEqual([]);
  });

  test.each(errorCodes)('%s says what happened, what to do next, and whether the work is safe', (code) => {
    for (const part of ['what', 'next', 'safe'])
      expect(templateOf(`error.${code}.${part}`)).toMatch(/\.$|\}$/);
  });

  test('a code from nowhere is none of them', () => {
    expect(isErrorCode('disk/onFire')).toBe(false);
    expect(isErrorCode('journal/full')).toBe(true);
  });
});
