/** Required, found, deviation in words, U, k, tolerance and verdict of each coordinate of a station. */
import type { VerdictRow, VerdictsBlock } from '../../../../core/certificate/document.ts';
import type { Sheet } from './sheet.ts';
import {
  captionHeight,
  drawCaption,
  drawHead,
  headHeight,
  type PlacedColumn,
  placeColumns,
  repeatHead,
} from './table.ts';
import { colours, rule, space, styles, type TextStyle } from './tokens.ts';
import { drawToleranceBar, toleranceBarHeight } from './toleranceBar.ts';
import { drawVerdictShape, verdictColours } from './verdictShape.ts';

const shapeSide = 7;
const shapeIndent = 12;
const padding = 4;
/** Between two columns: eight of them share the width. */
const verdictGap = 8;

/** One cell's text and where it stands. The first is the coordinate, the last the verdict. */
interface Cell {
  readonly lines: readonly string[];
  readonly style: TextStyle;
  readonly column: PlacedColumn;
  readonly indent: number;
}

interface MeasuredRow {
  readonly row: VerdictRow;
  readonly cells: readonly Cell[];
  readonly probability: readonly string[];
  readonly consequence: readonly string[];
  /** Height of coordinate, required and found, above the consequence. */
  readonly leftUpper: number;
  /** Height of deviation, U, k and tolerance, above the bar. */
  readonly middleUpper: number;
  readonly height: number;
}

/** Room the block needs to begin: caption, head and first row. */
export function verdictsStart(sheet: Sheet, block: VerdictsBlock): number {
  const columns = columnsOf(sheet, block);
  const [first] = block.rows;
  const row = first === undefined ? 0 : measureRow(sheet, first, columns).height;
  return captionHeight(sheet, block.caption) + headHeight(sheet, columns) + row;
}

export function drawVerdicts(sheet: Sheet, block: VerdictsBlock): void {
  const columns = columnsOf(sheet, block);
  const rows = block.rows.map((row) => measureRow(sheet, row, columns));
  sheet.ensure(verdictsStart(sheet, block));
  sheet.group('Table', () => {
    if (block.caption !== undefined) drawCaption(sheet, block.caption);
    drawHead(sheet, columns);
    for (const row of rows) {
      if (row.height > sheet.room) {
        sheet.newPage();
        repeatHead(sheet, columns);
      }
      drawRow(sheet, row, columns);
    }
  });
  if (block.note !== undefined) drawNote(sheet, block.note);
  sheet.y += space.step + space.half;
}

function columnsOf(sheet: Sheet, block: VerdictsBlock): readonly PlacedColumn[] {
  const { headings } = block;
  const layout = [
    [headings.coordinate, 'left', 17],
    [headings.required, 'right', 12],
    [headings.found, 'right', 12],
    [headings.deviation, 'left', 19],
    [headings.expandedUncertainty, 'right', 9],
    [headings.coverageFactor, 'right', 5],
    [headings.tolerance, 'right', 12],
    [headings.verdict, 'left', 21],
  ] as const;
  return placeColumns(
    layout.map(([heading, align, share]) => ({ heading, align, share })),
    sheet.left,
    sheet.width,
    verdictGap,
  );
}

function measureRow(sheet: Sheet, row: VerdictRow, columns: readonly PlacedColumn[]): MeasuredRow {
  const texts: readonly (readonly [string, TextStyle])[] = [
    [row.label, styles.cellStrong],
    [row.required, styles.cell],
    [row.found, styles.cell],
    [row.deviation, styles.cellStrong],
    [row.expandedUncertainty, styles.cell],
    [row.coverageFactor, styles.cell],
    [row.tolerance, styles.cell],
    [row.verdictText, { ...styles.cellStrong, colour: verdictColours[row.verdict] }],
  ];
  const cells = columns.map((column, index) => {
    const [text, style] = texts[index] ?? ['', styles.cell];
    const indent = index === columns.length - 1 ? shapeIndent : 0;
    return { lines: sheet.lines(style, text, column.width - indent), style, column, indent };
  });
  const verdict = cells.at(-1);
  const verdictWidth = (verdict?.column.width ?? 0) - shapeIndent;
  const probability = sheet.lines(styles.cellQuiet, row.probability, verdictWidth);
  const consequenceWidth = leftSpan(columns).width;
  const consequence =
    row.consequence === undefined ? [] : sheet.lines(styles.cellQuiet, row.consequence, consequenceWidth);
  const upperOf = (part: readonly Cell[]) =>
    Math.max(...part.map((cell) => cell.lines.length * cell.style.leading)) + 3;
  const leftUpper = upperOf(cells.slice(0, 3));
  const middleUpper = upperOf(cells.slice(3, 7));
  const left = leftUpper + consequence.length * styles.cellQuiet.leading;
  const middle = middleUpper + (row.bar === undefined ? 0 : toleranceBarHeight);
  const words = ((verdict?.lines.length ?? 0) + probability.length) * styles.cell.leading;
  const height = Math.max(left, middle, words) + 2 * padding;
  return { row, cells, probability, consequence, leftUpper, middleUpper, height };
}

/** The place of the consequence: under coordinate, required and found. */
function leftSpan(columns: readonly PlacedColumn[]) {
  const x = columns[0]?.x ?? 0;
  const last = columns[2];
  return { x, width: (last === undefined ? 0 : last.x + last.width) - x };
}

/** The place of the bar: under deviation, U, k and tolerance. */
function barSpan(columns: readonly PlacedColumn[]) {
  const x = columns[3]?.x ?? 0;
  const last = columns[6];
  return { x, width: (last === undefined ? 0 : last.x + last.width) - x };
}

function drawRow(sheet: Sheet, measured: MeasuredRow, columns: readonly PlacedColumn[]): void {
  const { row, cells } = measured;
  const top = sheet.y + padding;
  const bottom = sheet.y + measured.height;
  sheet.artifact(() => {
    sheet.line(sheet.left, bottom, sheet.page.right, bottom, rule.hair, colours.hairline);
    const verdict = cells.at(-1);
    if (verdict !== undefined) {
      drawVerdictShape(sheet.doc, row.verdict, verdict.column.x, top + 2, shapeSide);
    }
    if (row.bar === undefined) return;
    const place = barSpan(columns);
    drawToleranceBar(sheet, row.bar, row.verdict, {
      ...place,
      y: top + measured.middleUpper,
      height: toleranceBarHeight,
    });
  });
  sheet.group('TR', () => {
    cells.forEach((cell, index) => {
      const draw = () => drawCell(sheet, measured, cell, index, columns, top);
      if (index === 0) sheet.tag('TH', draw, { scope: 'Row' });
      else sheet.tag('TD', draw);
    });
  });
  sheet.y = bottom;
}

function drawCell(
  sheet: Sheet,
  measured: MeasuredRow,
  cell: Cell,
  index: number,
  columns: readonly PlacedColumn[],
  top: number,
): void {
  const { column, indent, style } = cell;
  const width = column.width - indent;
  const used = sheet.write(cell.lines, style, column.x + indent, top, width, column.align);
  if (index === columns.length - 1) {
    sheet.write(measured.probability, styles.cellQuiet, column.x + indent, top + used, width);
  }
  // The consequence explains the deviation and is read with it, though it stands where there is room.
  if (index === 3 && measured.consequence.length > 0) {
    const place = leftSpan(columns);
    sheet.write(measured.consequence, styles.cellQuiet, place.x, top + measured.leftUpper, place.width);
  }
}

function drawNote(sheet: Sheet, note: string): void {
  const lines = sheet.lines(styles.small, note, sheet.width);
  sheet.y += space.half;
  sheet.ensure(lines.length * styles.small.leading);
  sheet.tag('P', () => {
    sheet.y += sheet.write(lines, styles.small, sheet.left, sheet.y, sheet.width);
  });
}
