/** Tables that break between rows and repeat their head. */
import type { Emphasis, TableBlock, TableCell, TableColumn } from '../../../../core/certificate/document.ts';
import type { Sheet } from './sheet.ts';
import { colours, rule, space, styles, type TextStyle } from './tokens.ts';

/** A column with its place on the sheet. */
export interface PlacedColumn {
  readonly heading: string;
  readonly align: TableColumn['align'];
  readonly x: number;
  readonly width: number;
}

/** Between two columns of a table. */
const tableGap = 10;

const cellStyles: Readonly<Record<Emphasis, TextStyle>> = {
  plain: styles.cell,
  strong: styles.cellStrong,
  quiet: styles.cellQuiet,
  struck: styles.cellQuiet,
};

interface MeasuredCell {
  readonly lines: readonly string[];
  readonly style: TextStyle;
  readonly struck: boolean;
}

interface MeasuredRow {
  readonly cells: readonly MeasuredCell[];
  readonly height: number;
}

export function placeColumns(
  columns: readonly TableColumn[],
  left: number,
  width: number,
  columnGap = tableGap,
): readonly PlacedColumn[] {
  const shares = columns.reduce((sum, column) => sum + column.share, 0);
  const usable = width - columnGap * (columns.length - 1);
  let x = left;
  return columns.map((column) => {
    const placed = {
      heading: column.heading,
      align: column.align,
      x,
      width: (usable * column.share) / shares,
    };
    x += placed.width + columnGap;
    return placed;
  });
}

/** Tables up to this many rows stay whole where they fit into a third of a page. */
const smallTable = 12;

/** Room the table needs to begin: all of a small one, else caption, head and two rows. */
export function tableStart(sheet: Sheet, block: TableBlock): number {
  const columns = placeColumns(block.columns, sheet.left, sheet.width);
  const above = captionHeight(sheet, block.caption) + headHeight(sheet, columns);
  const heightOf = (count: number) =>
    block.rows
      .slice(0, count)
      .flatMap((row) => measureRow(sheet, row, columns))
      .reduce((sum, row) => sum + row.height, above);
  const whole = block.rows.length <= smallTable ? heightOf(smallTable) : Number.POSITIVE_INFINITY;
  return whole <= sheet.capacity / 3 ? whole : heightOf(2);
}

export function drawTable(sheet: Sheet, block: TableBlock): void {
  if (block.columns.length === 0) return;
  const columns = placeColumns(block.columns, sheet.left, sheet.width);
  sheet.ensure(tableStart(sheet, block));
  sheet.group('Table', () => {
    if (block.caption !== undefined) drawCaption(sheet, block.caption);
    drawHead(sheet, columns);
    const rows = block.rows.flatMap((row) => measureRow(sheet, row, columns));
    for (const [index, row] of rows.entries()) {
      if (roomWanted(rows, index) > sheet.room) {
        sheet.newPage();
        repeatHead(sheet, columns);
      }
      drawRow(sheet, row, columns, block.rowHeadings === true);
    }
  });
  sheet.y += space.step + space.half;
}

/** A row's own height; with the last one's for the last but one, so that no row goes over the page alone. */
function roomWanted(rows: readonly MeasuredRow[], index: number): number {
  const own = rows[index]?.height ?? 0;
  return index === rows.length - 2 && index > 0 ? own + (rows.at(-1)?.height ?? 0) : own;
}

export function captionHeight(sheet: Sheet, caption: string | undefined): number {
  if (caption === undefined) return 0;
  return sheet.lines(styles.caption, caption, sheet.width).length * styles.caption.leading + space.half;
}

export function drawCaption(sheet: Sheet, caption: string): void {
  const lines = sheet.lines(styles.caption, caption, sheet.width);
  sheet.tag('Caption', () => {
    sheet.y += sheet.write(lines, styles.caption, sheet.left, sheet.y, sheet.width);
  });
  sheet.y += space.half;
}

function headLines(sheet: Sheet, columns: readonly PlacedColumn[]): readonly (readonly string[])[] {
  return columns.map((column) => sheet.lines(styles.head, column.heading, column.width));
}

export function headHeight(sheet: Sheet, columns: readonly PlacedColumn[]): number {
  if (columns.length === 0) return 0;
  const most = Math.max(...headLines(sheet, columns).map((lines) => lines.length));
  return most * styles.head.leading + space.step;
}

/** The head row, tagged. */
export function drawHead(sheet: Sheet, columns: readonly PlacedColumn[]): void {
  inkHead(sheet, columns, (draw) => sheet.tag('TH', draw, { scope: 'Column' }));
}

/** The head row again on a further page: ink only, since it was read already (ISO 14289-1 clause 7.1). */
export function repeatHead(sheet: Sheet, columns: readonly PlacedColumn[]): void {
  inkHead(sheet, columns, undefined);
}

function inkHead(
  sheet: Sheet,
  columns: readonly PlacedColumn[],
  tagCell: ((draw: () => void) => void) | undefined,
): void {
  const height = headHeight(sheet, columns);
  const y = sheet.y;
  const lines = headLines(sheet, columns);
  const most = Math.max(...lines.map((cell) => cell.length));
  const drawCell = (column: PlacedColumn, index: number) => {
    const cell = lines[index] ?? [];
    // Heads stand on the rule, whatever their number of lines.
    const top = y + 2 + (most - cell.length) * styles.head.leading;
    sheet.write(cell, styles.head, column.x, top, column.width, column.align);
  };
  const ruleY = y + height - 3;
  sheet.artifact(
    () => {
      sheet.line(sheet.left, ruleY, sheet.page.right, ruleY, rule.firm, colours.ink);
      if (tagCell === undefined) columns.forEach(drawCell);
    },
    tagCell === undefined ? 'Pagination' : 'Layout',
  );
  if (tagCell !== undefined) {
    sheet.group('TR', () => {
      for (const [index, column] of columns.entries()) tagCell(() => drawCell(column, index));
    });
  }
  sheet.y += height;
}

/** A row too tall for any page is cut into several rows, at lines. */
function measureRow(
  sheet: Sheet,
  row: readonly TableCell[],
  columns: readonly PlacedColumn[],
): readonly MeasuredRow[] {
  const cells = columns.map((column, index) => measureCell(sheet, row[index] ?? '', column.width));
  const most = Math.max(1, Math.floor((sheet.capacity - 60) / styles.cell.leading));
  const count = Math.max(...cells.map((cell) => cell.lines.length));
  const rows: MeasuredRow[] = [];
  for (let from = 0; from < count; from += most) {
    const part = cells.map((cell) => ({ ...cell, lines: cell.lines.slice(from, from + most) }));
    const height = Math.max(...part.map((cell) => cell.lines.length * cell.style.leading)) + 5;
    rows.push({ cells: part, height });
  }
  return rows;
}

function measureCell(sheet: Sheet, cell: TableCell, width: number): MeasuredCell {
  const text = typeof cell === 'string' ? cell : cell.text;
  const emphasis = typeof cell === 'string' ? 'plain' : cell.emphasis;
  const style = cellStyles[emphasis];
  return { lines: sheet.lines(style, text, width), style, struck: emphasis === 'struck' };
}

function drawRow(sheet: Sheet, row: MeasuredRow, columns: readonly PlacedColumn[], headed: boolean): void {
  const top = sheet.y + 2;
  const bottom = sheet.y + row.height;
  sheet.artifact(() => sheet.line(sheet.left, bottom, sheet.page.right, bottom, rule.hair, colours.hairline));
  sheet.group('TR', () => {
    columns.forEach((column, index) => {
      const cell = row.cells[index];
      const draw = () => {
        if (cell !== undefined) drawCell(sheet, cell, column, top);
      };
      if (headed && index === 0) sheet.tag('TH', draw, { scope: 'Row' });
      else sheet.tag('TD', draw);
    });
  });
  sheet.y = bottom;
}

function drawCell(sheet: Sheet, cell: MeasuredCell, column: PlacedColumn, top: number): void {
  sheet.write(cell.lines, cell.style, column.x, top, column.width, column.align);
  if (!cell.struck) return;
  cell.lines.forEach((line, index) => {
    const y = top + (index + 0.5) * cell.style.leading;
    const length = sheet.doc.widthOfString(line);
    const spare = column.align === 'left' ? 0 : column.width - length;
    const x = column.x + (column.align === 'center' ? spare / 2 : spare);
    sheet.line(x, y, x + length, y, 0.6, cell.style.colour);
  });
}
