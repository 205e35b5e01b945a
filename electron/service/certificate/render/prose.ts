/** Paragraphs, cautions and lists. */
import type { Emphasis, ListBlock, NoticeBlock, TextBlock } from '../../../../core/certificate/document.ts';
import { setAttributes } from './pdfkit.ts';
import type { Sheet } from './sheet.ts';
import { colours, rule, space, styles, type TextStyle } from './tokens.ts';

const emphasisStyle: Readonly<Record<Emphasis, TextStyle>> = {
  plain: styles.body,
  strong: styles.strong,
  quiet: styles.quiet,
  struck: styles.struck,
};

/** Lines that may flow over a page; a short paragraph stays whole. */
const keepTogether = 6;

export function drawText(sheet: Sheet, block: TextBlock): void {
  const style = emphasisStyle[block.emphasis ?? 'plain'];
  const lines = sheet.lines(style, block.text, Math.min(sheet.width, 430));
  sheet.ensure(Math.min(lines.length, keepTogether) * style.leading);
  sheet.tag('P', () => flow(sheet, lines, style, sheet.left, sheet.width));
  sheet.y += space.step;
}

/** Writes lines from the pen down and goes on over the page where they do not fit. */
function flow(sheet: Sheet, lines: readonly string[], style: TextStyle, x: number, width: number): void {
  for (const line of lines) {
    if (style.leading > sheet.room) sheet.continuePage();
    sheet.y += sheet.write([line], style, x, sheet.y, width);
  }
}

/** A framed caution with a heavy edge. One that fills more than a page loses its frame, never its text. */
export function drawNotice(sheet: Sheet, block: NoticeBlock): void {
  const inset = space.step + space.half;
  const width = sheet.width - 2 * inset;
  const heading = sheet.lines(styles.strong, block.heading, width);
  const lines = sheet.lines(styles.body, block.text, width);
  const height =
    heading.length * styles.strong.leading + lines.length * styles.body.leading + 2 * space.step - 2;
  const framed = height <= sheet.capacity;
  sheet.ensure(framed ? height : 6 * styles.body.leading);
  const top = sheet.y;
  if (framed) sheet.artifact(() => drawNoticeFrame(sheet, top, height));
  sheet.y += space.step - 1;
  sheet.tag('P', () => flow(sheet, heading, styles.strong, sheet.left + inset, width));
  sheet.tag('P', () => flow(sheet, lines, styles.body, sheet.left + inset, width));
  sheet.y = (framed ? top + height : sheet.y) + space.step;
}

function drawNoticeFrame(sheet: Sheet, top: number, height: number): void {
  const { doc } = sheet;
  doc.rect(sheet.left, top, sheet.width, height).fillColor(colours.wash).fill();
  doc.rect(sheet.left, top, 4, height).fillColor(colours.ink).fill();
  doc.lineWidth(rule.hair).strokeColor(colours.pencil);
  doc
    .rect(sheet.left + rule.hair / 2, top + rule.hair / 2, sheet.width - rule.hair, height - rule.hair)
    .stroke();
}

export function drawList(sheet: Sheet, block: ListBlock): void {
  const indent = block.ordered === true ? 20 : 14;
  const numbering = block.ordered === true ? 'Decimal' : 'None';
  sheet.group(
    'L',
    () => {
      for (const [index, item] of block.items.entries()) drawItem(sheet, item, label(block, index), indent);
    },
    // ISO 14289-1 clause 7.6: a numbered list says how it is numbered.
    (element) => setAttributes(element, { O: 'List', ListNumbering: numbering }),
  );
  sheet.y += space.half;
}

function label(block: ListBlock, index: number): string {
  return block.ordered === true ? `${index + 1}.` : '–';
}

function drawItem(sheet: Sheet, item: string, mark: string, indent: number): void {
  const width = Math.min(sheet.width, 430) - indent;
  const lines = sheet.lines(styles.body, item, width);
  sheet.ensure(Math.min(lines.length, keepTogether) * styles.body.leading);
  sheet.group('LI', () => {
    sheet.tag('Lbl', () => sheet.write([mark], styles.body, sheet.left, sheet.y, indent));
    sheet.tag('LBody', () => flow(sheet, lines, styles.body, sheet.left + indent, width));
  });
  sheet.y += 3;
}
