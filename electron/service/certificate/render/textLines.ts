/** Breaks text into lines, once, so that measuring and drawing cannot disagree. */
import type { Pdf } from './pdfkit.ts';
import type { TextStyle } from './tokens.ts';

/**
 * Greedy line breaking at blanks and line feeds. A word wider than the line gives way at its protected blanks, or is
 * cut where it fills the line (serial numbers, digests); no text is ever lost or shortened.
 */
export function breakLines(doc: Pdf, style: TextStyle, text: string, width: number): readonly string[] {
  doc.font(style.font, style.size);
  const lines: string[] = [];
  for (const paragraph of text.split('\n')) lines.push(...breakParagraph(doc, paragraph, width));
  return lines;
}

function breakParagraph(doc: Pdf, paragraph: string, width: number): readonly string[] {
  const blankWidth = doc.widthOfString(' ');
  const lines: string[] = [];
  let line = '';
  let lineWidth = 0;
  for (const word of paragraph.split(' ')) {
    // Measured with its blank, as it will be drawn: pdfkit then shapes each word once.
    const wordWidth = doc.widthOfString(`${word} `) - blankWidth;
    if (line !== '' && lineWidth + blankWidth + wordWidth <= width) {
      line += ` ${word}`;
      lineWidth += blankWidth + wordWidth;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = wordWidth <= width ? [word] : divideWord(doc, word, width);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1) ?? '';
    lineWidth = pieces.length === 1 ? wordWidth : doc.widthOfString(line);
  }
  lines.push(line);
  return lines;
}

/** At its protected blanks where that is enough, else anywhere. */
function divideWord(doc: Pdf, word: string, width: number): readonly string[] {
  const parts = word.split(/(?<=\u00a0)/);
  if (parts.length === 1) return cutWord(doc, word, width);
  return breakParagraph(doc, parts.map((part) => part.replace('\u00a0', '')).join(' '), width);
}

function cutWord(doc: Pdf, word: string, width: number): readonly string[] {
  const pieces: string[] = [];
  let piece = '';
  for (const character of word) {
    if (piece !== '' && doc.widthOfString(piece + character) > width) {
      pieces.push(piece);
      piece = '';
    }
    piece += character;
  }
  pieces.push(piece);
  return pieces;
}
