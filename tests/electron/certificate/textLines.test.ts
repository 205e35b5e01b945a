import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { openPdf, type Pdf } from '../../../electron/service/certificate/render/pdfkit.ts';
import { breakLines } from '../../../electron/service/certificate/render/textLines.ts';
import { styles } from '../../../electron/service/certificate/render/tokens.ts';
import { fonts } from './signedSample.ts';

let doc: Pdf;
beforeAll(() => {
  const info = { title: 't', author: 'a', subject: 's', createdAt: new Date(0) };
  doc = openPdf({ size: [595, 842], lang: 'en', info });
  doc.registerFont('regular', fonts.regular).registerFont('bold', fonts.bold);
});

const style = styles.body;
const widthOf = (line: string) => doc.font(style.font, style.size).widthOfString(line);
const lines = (text: string, width: number) => breakLines(doc, style, text, width);

describe('breaking text into lines', () => {
  test('keeps what fits on one line, and every line feed', () => {
    expect(lines('one two three', 400)).toEqual(['one two three']);
    expect(lines('one\n\ntwo', 400)).toEqual(['one', '', 'two']);
    expect(lines('', 400)).toEqual(['']);
  });

  test('breaks at blanks', () => {
    const width = widthOf('one two') + 1;
    expect(lines('one two three four', width)).toEqual(['one two', 'three', 'four']);
  });

  test('breaks at protected blanks only when the whole does not fit', () => {
    const value = '±\u00a010.00\u00a0mm';
    expect(lines(`tolerance ${value}`, widthOf(value) + 1)).toEqual(['tolerance', value]);
    expect(lines(value, widthOf('± 10.00') + 1)).toEqual(['± 10.00', 'mm']);
  });

  test('cuts a word that no line holds', () => {
    const cut = lines('X'.repeat(50), widthOf('X'.repeat(12)) + 0.1);
    expect(cut.map((line) => line.length)).toEqual([12, 12, 12, 12, 2]);
  });

  test('a letter wider than the line stands alone; it cannot loop', () => {
    expect(lines('WW', 1)).toEqual(['W', 'W']);
  });

  test('no line is too wide and no letter is lost (150 runs, seed 12)', () => {
    const word = fc.string({
      unit: fc.constantFrom('a', 'i', 'W', '1', '.', '-', 'µ', 'é'),
      minLength: 1,
      maxLength: 30,
    });
    const text = fc.array(word, { minLength: 1, maxLength: 25 }).map((words) => words.join(' '));
    fc.assert(
      fc.property(text, fc.integer({ min: 20, max: 300 }), (given, width) => {
        const broken = lines(given, width);
        expect(broken.join('').replaceAll(' ', '')).toBe(given.replaceAll(' ', ''));
        for (const line of broken) expect(widthOf(line)).toBeLessThanOrEqual(width + 0.01);
        // Greedy: the first word of a line did not fit on the line before.
        for (const [index, line] of broken.slice(0, -1).entries()) {
          const next = broken[index + 1]?.split(' ')[0] ?? '';
          if (given.includes(`${line.split(' ').at(-1)} ${next}`)) {
            expect(widthOf(`${line} ${next}`)).toBeGreaterThan(width - 1);
          }
        }
      }),
      { seed: 12, numRuns: 150 },
    );
  });
});
