import { describe, expect, test } from 'vitest';
import {
  PdfReader,
  PdfSyntaxError,
  type PdfValue,
} from '../../../electron/service/certificate/file/pdfValue.ts';

const read = (text: string): PdfValue => new PdfReader(Buffer.from(text, 'latin1'), 0).value();

/** A value without the places it was read from. */
function plain(value: PdfValue): unknown {
  switch (value.type) {
    case 'array':
      return value.items.map(plain);
    case 'dictionary':
      return Object.fromEntries([...value.entries].map(([name, inner]) => [name, plain(inner)]));
    case 'string':
      return `(${Buffer.from(value.bytes).toString('latin1')})`;
    case 'reference':
      return `${value.id} ${value.generation} R`;
    case 'name':
      return `/${value.value}`;
    case 'null':
      return null;
    default:
      return value.value;
  }
}

describe('values (examples of ISO 32000-1 clause 7.3)', () => {
  test.each([
    ['true', true],
    ['false', false],
    ['null', null],
    ['123', 123],
    ['43445', 43445],
    ['+17', 17],
    ['-98', -98],
    ['34.5', 34.5],
    ['-3.62', -3.62],
    ['4.', 4],
    ['-.002', -0.002],
    ['/Name1', '/Name1'],
    ['/A;Name_With-Various***Characters?', '/A;Name_With-Various***Characters?'],
    ['/paired#28#29parentheses', '/paired()parentheses'],
    ['/A#42', '/AB'],
    ['(This is a string)', '(This is a string)'],
    [
      '(Strings may contain balanced parentheses ( ) and special characters (*!&}^% and so on).)',
      '(Strings may contain balanced parentheses ( ) and special characters (*!&}^% and so on).)',
    ],
    ['()', '()'],
    ['(These \\\ntwo strings \\\nare the same.)', '(These two strings are the same.)'],
    ['(\\n\\r\\t\\b\\f\\(\\)\\\\)', '(\n\r\t\b\f()\\)'],
    ['(\\245\\307)', '(\xa5\xc7)'],
    ['(\\0053)', '(\x053)'],
    ['(\\53)', '(+)'],
    ['<901FA3>', '(\x90\x1f\xa3)'],
    ['[549 3.14 false (Ralph) /SomeName]', [549, 3.14, false, '(Ralph)', '/SomeName']],
    [
      '<</Type /Example /Version 0.01 /Sub <</Item1 0.4>> >>',
      { Type: '/Example', Version: 0.01, Sub: { Item1: 0.4 } },
    ],
    ['12 0 R', '12 0 R'],
    ['[12 0 R 7 1 0 R]', ['12 0 R', 7, '1 0 R']],
    ['[1 0 0 RG]', undefined],
    ['% a comment\n 5', 5],
  ])('%s', (text, expected) => {
    if (expected === undefined) expect(() => read(text)).toThrow(PdfSyntaxError);
    else expect(plain(read(text))).toEqual(expected);
  });

  test('know where they stand', () => {
    const value = read('  <</Contents <00ff> /M (D:2026)>>');
    const contents = value.type === 'dictionary' ? value.entries.get('Contents') : undefined;
    expect(contents).toMatchObject({ start: 14, end: 20, isHex: true });
  });

  test.each([
    ['', 'nothing'],
    ['(never closed', 'a string without end'],
    ['<0', 'a hexadecimal string without end'],
    ['<012>', 'an odd number of digits'],
    ['<0g>', 'no digit'],
    ['[1 2', 'an array without end'],
    ['<< /A 1', 'a dictionary without end'],
    ['<< 1 2 >>', 'a key that is no name'],
    ['<< /A 1 /A 2 >>', 'a name twice'],
    ['hello', 'a word'],
    ['1e5', 'an exponent'],
    [']', 'a closing bracket'],
    ['['.repeat(200), 'too deep'],
  ])('%j is refused: %s', (text) => {
    expect(() => read(text)).toThrow(PdfSyntaxError);
  });
});
