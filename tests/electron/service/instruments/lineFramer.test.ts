import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MOST_LINE } from '../../../../core/instruments/index.ts';
import { lineFramer, lineText } from '../../../../electron/service/instruments/lineFramer.ts';

const bytes = (text: string) => Buffer.from(text, 'latin1');
const texts = (lines: readonly { readonly text: string }[]) => lines.map((line) => line.text);

describe('lines', () => {
  test.each([
    ['LF', 'a\nb\n', ['a', 'b']],
    ['CR', 'a\rb\r', ['a', 'b']],
    ['CRLF', 'a\r\nb\r\n', ['a', 'b']],
    ['LFCR', 'a\n\rb\n\r', ['a', 'b']],
    ['a mixture, and empty lines', '\n\r\n a \r\r\nb\n \n', ['a', 'b']],
    ['start and end marks', '\u0002+1.5\u0003\r\n', ['+1.5']],
    ['a tab between', 'a\tb\n', ['ab']],
    ['no end', 'a', []],
  ])('end with %s', (_name, text, wanted) => {
    expect(texts(lineFramer().feed(bytes(text)))).toEqual(wanted);
  });

  test('are the same however the bytes are cut (seed 3)', () => {
    const stream = fc.array(fc.constantFrom('1', '2', '.', ' ', '\r', '\n', '\r\n', 'x'), { maxLength: 60 });
    fc.assert(
      fc.property(stream, fc.array(fc.nat(80), { maxLength: 8 }), (parts, cuts) => {
        const all = bytes(parts.join(''));
        const places = [0, ...cuts.filter((cut) => cut < all.length).sort((a, b) => a - b), all.length];
        const framer = lineFramer();
        const pieces = places.slice(1).flatMap((to, n) => framer.feed(all.subarray(places[n], to)));
        expect(pieces).toEqual(lineFramer().feed(all));
      }),
      { seed: 3 },
    );
  });

  test('half a line is none after a break', () => {
    const framer = lineFramer();
    expect(framer.feed(bytes('12'))).toEqual([]);
    framer.reset(false);
    expect(texts(framer.feed(bytes('34.5\n')))).toEqual(['34.5']);
  });

  test('the rest of a line that nobody saw begin is left out, the next is whole', () => {
    const framer = lineFramer();
    framer.reset(true);
    expect(texts(framer.feed(bytes('4.5\r')))).toEqual([]);
    expect(texts(framer.feed(bytes('\n12.5\r\n')))).toEqual(['12.5']);
  });

  test('too long ones are cut, and what follows is not disturbed', () => {
    const framer = lineFramer();
    for (let n = 0; n < 100; n += 1) expect(framer.feed(bytes('9'.repeat(1000)))).toEqual([]);
    const [long, next] = framer.feed(bytes('9\n8\n'));
    expect(long).toEqual({ text: '9'.repeat(MOST_LINE), cut: true });
    expect(next).toEqual({ text: '8', cut: false });
  });

  test('of the greatest length are whole', () => {
    expect(lineFramer().feed(bytes(`${'9'.repeat(MOST_LINE)}\n`))).toEqual([
      { text: '9'.repeat(MOST_LINE), cut: false },
    ]);
  });

  test('are read as UTF-8, and as Latin-1 where they are none', () => {
    expect(lineText(Buffer.from('1.5 °', 'utf8'))).toBe('1.5 °');
    expect(lineText(Buffer.from('1.5 °', 'latin1'))).toBe('1.5 °');
    expect(lineText(Buffer.from([0xff, 0x00, 0x31]))).toBe('ÿ1');
  });
});
