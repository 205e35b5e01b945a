/** The last part: who signed, the field itself, the digest once more, and the mark that nothing follows. */
import type { CertificateDocument } from '../../../../core/certificate/document.ts';
import { groupDigest } from '../../../../core/certificate/groupDigest.ts';
import { drawHeading } from './blocks.ts';
import { drawFacts, factsHeight, gutter } from './facts.ts';
import { fillWords } from './pageWords.ts';
import type { Sheet } from './sheet.ts';
import { drawSignatureField } from './signatureField.ts';
import { colours, rule, space, styles } from './tokens.ts';

const fieldHeight = 54;
/** The field, the end mark under it, and the space between. */
const partHeight = fieldHeight + space.double + styles.end.leading + space.step + 1;

export function drawSignaturePart(sheet: Sheet, document: CertificateDocument, moment: Date): void {
  const { words } = document;
  sheet.group('Sect', () => {
    const facts = { block: 'facts', facts: document.signerFacts } as const;
    drawHeading(sheet, words.signatureHeading, factsHeight(sheet, facts) + partHeight);
    drawFacts(sheet, facts);
    sheet.ensure(partHeight);
    const box = { x: sheet.left, y: sheet.y, width: (sheet.width - gutter) / 2, height: fieldHeight };
    drawSignatureField(
      sheet,
      {
        signer: document.signerText,
        reason: fillWords(document, words.signatureReason),
        alt: words.signatureFieldAlt,
      },
      box,
      moment,
    );
    drawDigest(sheet, document, box.x + box.width + gutter, box.y);
    sheet.y += fieldHeight + space.double;
  });
  drawEndMark(sheet, fillWords(document, words.end));
}

function drawDigest(sheet: Sheet, document: CertificateDocument, x: number, top: number): void {
  const width = sheet.page.right - x;
  const label = sheet.lines(styles.label, document.words.recordDigest, width);
  const digest = [0, 32].map((from) => groupDigest(document.recordDigest.slice(from, from + 32)));
  let y = top + 2;
  sheet.tag('P', () => {
    y += sheet.write(label, styles.label, x, y, width);
    sheet.write(digest, styles.digest, x, y, width);
  });
}

/** A clear end (ISO/IEC 17025:2017 clause 7.8.2.1 d). */
function drawEndMark(sheet: Sheet, words: string): void {
  const lines = sheet.lines(styles.end, words, sheet.width * 0.8);
  const top = sheet.y;
  sheet.rule(top, rule.firm, colours.ink);
  sheet.tag('P', () => {
    sheet.y += space.half;
    sheet.y += sheet.write(lines, styles.end, sheet.left, sheet.y, sheet.width, 'center');
  });
  sheet.rule(sheet.y + space.half, rule.firm, colours.ink);
}
