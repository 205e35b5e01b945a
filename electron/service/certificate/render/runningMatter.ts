/**
 * Head and foot of the pages, drawn last, when the number of pages is known: every page carries number, edition and
 * "page n of N", so that pages belong together (ISO/IEC 17025:2017 clause 7.8.2.1 d).
 */
import type { CertificateDocument } from '../../../../core/certificate/document.ts';
import { kindShape } from './firstPage.ts';
import { fillWords } from './pageWords.ts';
import type { Sheet } from './sheet.ts';
import { colours, rule, styles } from './tokens.ts';
import { drawVerdictShape } from './verdictShape.ts';

export function drawRunningMatter(sheet: Sheet, document: CertificateDocument): void {
  const { start, count } = sheet.doc.bufferedPageRange();
  for (let index = 0; index < count; index++) {
    sheet.doc.switchToPage(start + index);
    sheet.artifact(() => {
      if (index > 0) drawHeader(sheet, document);
      drawFooter(sheet, document, index + 1, count);
    }, 'Pagination');
  }
}

function drawHeader(sheet: Sheet, document: CertificateDocument): void {
  const y = 34;
  sheet.write([document.shopName], styles.running, sheet.left, y, sheet.width);
  sheet.write([document.answer.words], styles.runningStrong, sheet.left, y, sheet.width, 'right');
  const width = sheet.doc.widthOfString(document.answer.words);
  drawVerdictShape(
    sheet.doc,
    kindShape(document.kind),
    sheet.page.right - width - 11,
    y + 1.5,
    7,
    colours.ink,
  );
  sheet.line(sheet.left, y + 14, sheet.page.right, y + 14, rule.hair, colours.pencil);
}

function drawFooter(sheet: Sheet, document: CertificateDocument, page: number, pages: number): void {
  const y = sheet.page.height - 40;
  sheet.line(sheet.left, y - 5, sheet.page.right, y - 5, rule.hair, colours.pencil);
  const number = fillWords(document, document.words.numberAndEdition);
  const count = fillWords(document, document.words.pageOf, page, pages);
  sheet.write([number], styles.running, sheet.left, y, sheet.width);
  sheet.write([count], styles.runningStrong, sheet.left, y, sheet.width, 'right');
}
