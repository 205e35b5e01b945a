/** Labels and values in a calm grid of one or two columns. Tagged as a table whose row heads are the labels. */
import type { Emphasis, Fact, FactsBlock } from '../../../../core/certificate/document.ts';
import type { Sheet } from './sheet.ts';
import { colours, rule, space, styles, type TextStyle } from './tokens.ts';

/** Between the two columns of facts. */
export const gutter = 24;
const labelShare = 0.38;

const valueStyles: Readonly<Record<Emphasis, TextStyle>> = {
  plain: styles.body,
  strong: styles.strong,
  quiet: styles.quiet,
  struck: styles.struck,
};

interface MeasuredFact {
  readonly label: readonly string[];
  readonly value: readonly string[];
  readonly style: TextStyle;
  readonly height: number;
}

interface Column {
  readonly x: number;
  readonly labelWidth: number;
  readonly valueWidth: number;
}

/** Height of the whole block. */
export function factsHeight(sheet: Sheet, block: FactsBlock): number {
  const { facts, rows } = layOut(sheet, block);
  return Array.from({ length: rows }, (_, row) => rowHeight(facts, rows, row)).reduce(
    (sum, height) => sum + height,
    space.step,
  );
}

function layOut(sheet: Sheet, block: FactsBlock) {
  const count = block.columns ?? 2;
  const columns = columnsOf(sheet, count);
  const [first] = columns;
  const facts = first === undefined ? [] : block.facts.flatMap((fact) => measure(sheet, fact, first));
  return { columns, facts, rows: Math.ceil(facts.length / count) };
}

export function drawFacts(sheet: Sheet, block: FactsBlock): void {
  const { columns, facts, rows } = layOut(sheet, block);
  if (rows === 0) return;
  sheet.group('Table', () => {
    for (let from = 0; from < rows; ) {
      const until = rowsThatFit(sheet, facts, rows, from);
      drawRows(sheet, facts, columns, rows, from, until);
      from = until;
      if (from < rows) sheet.newPage();
    }
  });
  sheet.y += space.step;
}

function columnsOf(sheet: Sheet, count: 1 | 2): readonly Column[] {
  const width = (sheet.width - (count - 1) * gutter) / count;
  // A single column keeps the label width of two, so that labels stand in one line down the page.
  const labelWidth = ((sheet.width - gutter) / 2) * labelShare;
  return Array.from({ length: count }, (_, index) => ({
    x: sheet.left + index * (width + gutter),
    labelWidth,
    valueWidth: width - labelWidth,
  }));
}

/** A fact too tall for any page is cut into several rows. */
function measure(sheet: Sheet, fact: Fact, column: Column): readonly MeasuredFact[] {
  const style = valueStyles[fact.emphasis ?? 'plain'];
  const label = sheet.lines(styles.label, fact.label, column.labelWidth - space.step);
  const value = sheet.lines(style, fact.value, column.valueWidth);
  const most = Math.max(1, Math.floor((sheet.capacity - 5) / style.leading));
  const pieces: MeasuredFact[] = [];
  for (let from = 0; from < value.length; from += most) {
    const part = value.slice(from, from + most);
    const height = Math.max(label.length * styles.label.leading, part.length * style.leading) + 5;
    pieces.push({ label, value: part, style, height });
  }
  return pieces;
}

function rowHeight(facts: readonly MeasuredFact[], rows: number, row: number): number {
  return Math.max(facts[row]?.height ?? 0, facts[row + rows]?.height ?? 0);
}

/** The row after the last that fits on this page; at least one row on a fresh page. */
function rowsThatFit(sheet: Sheet, facts: readonly MeasuredFact[], rows: number, from: number): number {
  let until = from;
  let height = 0;
  while (until < rows) {
    height += rowHeight(facts, rows, until);
    if (height > sheet.room) break;
    until++;
  }
  if (until > from) return until;
  if (sheet.y === sheet.page.top) return from + 1;
  sheet.newPage();
  return rowsThatFit(sheet, facts, rows, from);
}

function drawRows(
  sheet: Sheet,
  facts: readonly MeasuredFact[],
  columns: readonly Column[],
  rows: number,
  from: number,
  until: number,
): void {
  const tops: number[] = [sheet.y];
  for (let row = from; row < until; row++) tops.push((tops.at(-1) ?? 0) + rowHeight(facts, rows, row));
  sheet.artifact(() => {
    for (const [index, column] of columns.entries()) {
      for (let row = from; row < until; row++) {
        if (facts[row + index * rows] === undefined) continue;
        const y = tops[row - from + 1] ?? 0;
        sheet.line(
          column.x,
          y,
          column.x + column.labelWidth + column.valueWidth,
          y,
          rule.hair,
          colours.hairline,
        );
      }
    }
  });
  for (const [index, column] of columns.entries()) {
    for (let row = from; row < until; row++) {
      const fact = facts[row + index * rows];
      if (fact !== undefined) drawFact(sheet, fact, column, (tops[row - from] ?? 0) + 2);
    }
  }
  sheet.y = tops.at(-1) ?? sheet.y;
}

function drawFact(sheet: Sheet, fact: MeasuredFact, column: Column, y: number): void {
  sheet.group('TR', () => {
    sheet.tag('TH', () => sheet.write(fact.label, styles.label, column.x, y, column.labelWidth), {
      scope: 'Row',
    });
    sheet.tag('TD', () => {
      sheet.write(fact.value, fact.style, column.x + column.labelWidth, y, column.valueWidth);
    });
  });
}
