/** Reads back what stands on the pages: the operators of a content stream, and the text they show. */
import type { PdfFile } from '../file/pdfFile.ts';
import { type PdfDictionary, PdfReader, PdfSyntaxError, type PdfValue } from '../file/pdfValue.ts';

export interface Operation {
  readonly operator: string;
  readonly operands: readonly PdfValue[];
}

const mostPages = 2000;

/** The page dictionaries in order. Ours are one flat list. */
export function pagesOf(file: PdfFile): readonly PdfDictionary[] {
  const tree = file.dictionary(file.catalog.entries.get('Pages'), 'page tree');
  const kids = file.entry(tree, 'Kids');
  if (kids?.type !== 'array' || kids.items.length > mostPages) {
    throw new PdfSyntaxError('no list of pages', tree.start);
  }
  return kids.items.map((item) => file.dictionary(item, 'page'));
}

/** The operations of a page in order (ISO 32000-1 clause 7.8.2). */
export function operationsOf(file: PdfFile, page: PdfDictionary): readonly Operation[] {
  const bytes = file.stream(page.entries.get('Contents'), 'page content');
  const reader = new PdfReader(bytes, 0);
  const operations: Operation[] = [];
  let operands: PdfValue[] = [];
  for (;;) {
    reader.skipWhiteSpace();
    if (reader.at >= bytes.length) return operations;
    const first = String.fromCharCode(reader.peek());
    if (/[A-Za-z'"*]/.test(first)) {
      operations.push({ operator: reader.word(), operands });
      operands = [];
    } else operands.push(reader.value());
  }
}

/** The text of a page, one line of text per text object, through the fonts' own tables. */
export function textOf(file: PdfFile, page: PdfDictionary, operations: readonly Operation[]): string {
  const fonts = fontTables(file, page);
  let font: ReadonlyMap<number, string> = new Map();
  let text = '';
  for (const { operator, operands } of operations) {
    const [first] = operands;
    if (operator === 'Tf' && first?.type === 'name') font = fonts.get(first.value) ?? new Map();
    if (operator === 'ET') text += '\n';
    if (operator === 'TJ' && first?.type === 'array') {
      for (const item of first.items) if (item.type === 'string') text += decode(item.bytes, font);
    }
  }
  return text;
}

function decode(bytes: Uint8Array, font: ReadonlyMap<number, string>): string {
  let text = '';
  for (let at = 0; at + 1 < bytes.length; at += 2) {
    text += font.get((bytes[at] ?? 0) * 256 + (bytes[at + 1] ?? 0)) ?? '\uFFFD';
  }
  return text;
}

function fontTables(file: PdfFile, page: PdfDictionary): ReadonlyMap<string, ReadonlyMap<number, string>> {
  const resources = file.dictionary(page.entries.get('Resources'), 'resources');
  const fonts = file.entry(resources, 'Font');
  const tables = new Map<string, ReadonlyMap<number, string>>();
  if (fonts?.type !== 'dictionary') return tables;
  for (const [name, value] of fonts.entries) {
    const font = file.dictionary(value, 'font');
    tables.set(name, toUnicode(file.stream(font.entries.get('ToUnicode'), 'font table')));
  }
  return tables;
}

/** Code to text, from the ranges the embedded font's table lists (ISO 32000-1 clause 9.10.3). */
function toUnicode(table: Uint8Array): ReadonlyMap<number, string> {
  const map = new Map<number, string>();
  const ranges = /<([0-9a-fA-F]{4})> <[0-9a-fA-F]{4}> \[([^\]]*)\]/g;
  for (const [, start = '0', list = ''] of Buffer.from(table).toString('latin1').matchAll(ranges)) {
    let code = Number.parseInt(start, 16);
    for (const [, units = ''] of list.matchAll(/<([^>]*)>/g)) {
      map.set(code++, utf16(units));
    }
  }
  return map;
}

function utf16(units: string): string {
  const codes = units.split(/\s+/).filter((unit) => unit !== '');
  return String.fromCharCode(...codes.map((unit) => Number.parseInt(unit, 16)));
}
