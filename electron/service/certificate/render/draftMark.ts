/** One large word across every page of a document that nobody has signed: no print of it can pass for a certificate. */
import type { Sheet } from './sheet.ts';

const SIZE = 120;
const SLANT_DEGREES = -52;
const SHADE = 0.14;
const INK = '#000000';

export function drawDraftMark(sheet: Sheet, word: string): void {
  const { doc, page } = sheet;
  const { start, count } = doc.bufferedPageRange();
  for (let i = start; i < start + count; i += 1) {
    doc.switchToPage(i);
    sheet.artifact(() => {
      const middle = { x: page.width / 2, y: page.height / 2 };
      doc.save();
      doc.rotate(SLANT_DEGREES, { origin: [middle.x, middle.y] });
      doc.font('bold', SIZE).fillColor(INK).fillOpacity(SHADE);
      doc.text(word, middle.x - doc.widthOfString(word) / 2, middle.y + SIZE / 3, {
        lineBreak: false,
        baseline: 'alphabetic',
      });
      doc.restore();
    }, 'Pagination');
  }
}
