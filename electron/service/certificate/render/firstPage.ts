/** The upper part of page 1: who issued it, and the answer; and its foot: what it does not say, and the digest. */
import type {
  CertificateDocument,
  CertificateKind,
  VerdictKind,
} from '../../../../core/certificate/document.ts';
import { groupDigest } from '../../../../core/certificate/groupDigest.ts';
import { fillWords } from './pageWords.ts';
import { drawQrCode } from './qrCode.ts';
import type { Sheet } from './sheet.ts';
import { colours, qrSide, rule, space, styles, type TextStyle } from './tokens.ts';
import { drawVerdictShape, verdictColours } from './verdictShape.ts';

const firstTop = 42;

const kindShapes: Readonly<Record<CertificateKind, VerdictKind>> = {
  calibrated: 'proven',
  routineCompletedPlacementNotShown: 'notProven',
  notCalibrated: 'outside',
};

export function kindShape(kind: CertificateKind): VerdictKind {
  return kindShapes[kind];
}

export function drawLetterhead(sheet: Sheet, document: CertificateDocument): void {
  sheet.y = firstTop;
  const textWidth = sheet.width - qrSide - 24;
  const qrX = sheet.page.right - qrSide;
  sheet.artifact(() => drawMark(sheet, sheet.left, firstTop + 1));
  const textX = sheet.left + 24;
  let y = firstTop;
  const put = (text: string, style: TextStyle) => {
    const lines = sheet.lines(style, text, textWidth - 24);
    sheet.tag('P', () => {
      y += sheet.write(lines, style, textX, y, textWidth - 24);
    });
  };
  put(document.shopName, styles.shop);
  for (const line of document.shopLines) put(line, styles.shopLine);
  y += space.half;
  put(fillWords(document, document.words.numberAndEdition), styles.runningStrong);
  put(document.issuedAtText, styles.running);
  sheet.tag('Figure', () => drawQrCode(sheet.doc, document.qrText, qrX, firstTop, qrSide), {
    alt: `${document.words.qrAlt}: ${document.qrText}`,
    bbox: [qrX, firstTop, qrX + qrSide, firstTop + qrSide],
    placement: 'Block',
  });
  sheet.y = Math.max(y, firstTop + qrSide) + space.double;
}

/** The program's mark: a plumb line over a datum triangle. */
function drawMark(sheet: Sheet, x: number, y: number): void {
  const { doc } = sheet;
  doc.lineWidth(1.2).strokeColor(colours.ink).fillColor(colours.ink);
  doc
    .moveTo(x + 7, y)
    .lineTo(x + 7, y + 8)
    .stroke();
  doc
    .moveTo(x + 4.5, y + 7)
    .lineTo(x + 9.5, y + 7)
    .lineTo(x + 7, y + 13)
    .closePath()
    .fill();
  doc
    .moveTo(x + 7, y + 14.5)
    .lineTo(x + 12.5, y + 23)
    .lineTo(x + 1.5, y + 23)
    .closePath()
    .stroke();
}

const bandInset = 14;
const answerShapeSide = 19;

/**
 * The outcome. The three kinds differ at a glance and without colour: an open band under a heavy rule, a framed band,
 * a solid black band.
 */
export function drawAnswer(sheet: Sheet, document: CertificateDocument): void {
  const reversed = document.kind === 'notCalibrated';
  const words = reversed ? styles.answerReversed : styles.answer;
  const sentence = reversed ? styles.sentenceReversed : styles.sentence;
  const titleLines = sheet.lines(styles.title, document.title, sheet.width);
  sheet.tag('H1', () => {
    sheet.y += sheet.write(titleLines, styles.title, sheet.left, sheet.y, sheet.width);
  });
  sheet.y += space.half;

  const x = sheet.left + bandInset;
  const textX = x + answerShapeSide + 12;
  const textWidth = sheet.page.right - bandInset - textX;
  const wordLines = sheet.lines(words, document.answer.words, textWidth);
  const sentenceLines = sheet.lines(sentence, document.answer.sentence, textWidth);
  const top = sheet.y;
  const height = wordLines.length * words.leading + sentenceLines.length * sentence.leading + 23;
  sheet.artifact(() => {
    drawBand(sheet, document.kind, top, height);
    const shape = kindShape(document.kind);
    const colour = reversed ? colours.sheet : verdictColours[shape];
    drawVerdictShape(sheet.doc, shape, x, top + 14, answerShapeSide, colour);
  });
  sheet.y += 9;
  sheet.tag('P', () => {
    sheet.y += sheet.write(wordLines, words, textX, sheet.y, textWidth);
  });
  sheet.y += 2;
  sheet.tag('P', () => {
    sheet.y += sheet.write(sentenceLines, sentence, textX, sheet.y, textWidth);
  });
  sheet.y = top + height + space.step;
  if (document.replaces !== undefined) drawReplaces(sheet, document.replaces);
  drawSensors(sheet, document);
}

function drawBand(sheet: Sheet, kind: CertificateKind, top: number, height: number): void {
  const { doc } = sheet;
  if (kind === 'notCalibrated') {
    doc.rect(sheet.left, top, sheet.width, height).fillColor(colours.ink).fill();
    return;
  }
  if (kind === 'routineCompletedPlacementNotShown') {
    doc.lineWidth(rule.heavy).strokeColor(colours.ink);
    doc.rect(sheet.left + 1, top + 1, sheet.width - 2, height - 2).stroke();
    return;
  }
  doc.rect(sheet.left, top, sheet.width, height).fillColor(colours.wash).fill();
  sheet.line(sheet.left, top + 1, sheet.page.right, top + 1, rule.heavy, colours.ink);
  sheet.line(sheet.left, top + height, sheet.page.right, top + height, rule.hair, colours.pencil);
}

/** An edition that supersedes another says so at once, between two rules, before any result. */
function drawReplaces(sheet: Sheet, replaces: NonNullable<CertificateDocument['replaces']>): void {
  const width = sheet.width - 2 * bandInset;
  const x = sheet.left + bandInset;
  const words = sheet.lines(styles.strong, replaces.words, width);
  const reason = sheet.lines(styles.body, replaces.reason, width);
  const top = sheet.y;
  const height = words.length * styles.strong.leading + reason.length * styles.body.leading + 12;
  sheet.artifact(() => {
    for (const y of [top, top + 3, top + height, top + height + 3]) {
      sheet.line(sheet.left, y, sheet.page.right, y, rule.hair, colours.ink);
    }
  });
  sheet.y += 7;
  sheet.tag('P', () => {
    sheet.y += sheet.write(words, styles.strong, x, sheet.y, width);
  });
  sheet.tag('P', () => {
    sheet.y += sheet.write(reason, styles.body, x, sheet.y, width);
  });
  sheet.y = top + height + 3 + space.step;
}

function drawSensors(sheet: Sheet, document: CertificateDocument): void {
  if (document.answer.sensors.length === 0) return;
  const nameX = sheet.left + bandInset + answerShapeSide + 12;
  const nameWidth = 172;
  const outcomeX = nameX + nameWidth + 12;
  const outcomeWidth = sheet.page.right - outcomeX;
  sheet.group('Table', () => {
    for (const sensor of document.answer.sensors) {
      const name = sheet.lines(styles.sensor, sensor.name, nameWidth);
      const outcome = sheet.lines(styles.outcome, sensor.outcome, outcomeWidth);
      const height = Math.max(name.length, outcome.length) * styles.outcome.leading + 4;
      sheet.ensure(height);
      const top = sheet.y + 2;
      sheet.artifact(() => {
        if (sensor.verdict !== undefined)
          drawVerdictShape(sheet.doc, sensor.verdict, nameX - 15, top + 2.5, 8);
        sheet.line(nameX, sheet.y + height, sheet.page.right, sheet.y + height, rule.hair, colours.hairline);
      });
      sheet.group('TR', () => {
        sheet.tag('TH', () => sheet.write(name, styles.sensor, nameX, top, nameWidth), { scope: 'Row' });
        sheet.tag('TD', () => sheet.write(outcome, styles.outcome, outcomeX, top, outcomeWidth));
      });
      sheet.y += height;
    }
  });
  sheet.y += space.step + space.half;
}

/** The foot of page 1, drawn before the blocks above it: its room is then kept free. */
export function drawFirstPageFoot(sheet: Sheet, document: CertificateDocument): void {
  const limit = sheet.lines(styles.body, document.limitSentence, sheet.width);
  const heading = sheet.lines(styles.strong, document.words.limitHeading, sheet.width);
  const signer = sheet.lines(styles.small, document.signerText, sheet.width);
  const digest = sheet.lines(
    styles.small,
    `${document.words.recordDigest}: ${groupDigest(document.recordDigest)}`,
    sheet.width,
  );
  const parts: readonly (readonly [readonly string[], TextStyle])[] = [
    [heading, styles.strong],
    [limit, styles.body],
    [signer, styles.small],
    [digest, styles.small],
  ];
  const height = parts.reduce((sum, [lines, style]) => sum + lines.length * style.leading, 0) + space.double;
  const top = sheet.bottom - height;
  sheet.rule(top, rule.firm, colours.ink);
  let y = top + space.step;
  for (const [lines, style] of parts) {
    if (style === styles.small && lines === signer) y += space.half;
    sheet.tag('P', () => {
      y += sheet.write(lines, style, sheet.left, y, sheet.width);
    });
  }
  sheet.bottom = top - space.step;
}
