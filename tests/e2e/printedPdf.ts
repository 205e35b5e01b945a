// A certificate as programs of others read it: poppler's text, its structure tree, and the attached file.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** All words of the file, page after page, in reading order. */
export function pdfWords(file: string, firstPage = 1, lastPage = 99): string {
  const text = execFileSync('pdftotext', ['-f', `${firstPage}`, '-l', `${lastPage}`, file, '-'], {
    encoding: 'utf8',
  });
  return text.replace(/\s+/g, ' ');
}

/** Names and contents of everything attached to the file. */
export function pdfAttachments(file: string): ReadonlyMap<string, string> {
  const listed = execFileSync('pdfdetach', ['-list', file], { encoding: 'utf8' });
  const names = [...listed.matchAll(/^\d+: (.+)$/gm)].map(([, name]) => name ?? '');
  const folder = mkdtempSync(join(tmpdir(), 'datumline-detach-'));
  try {
    execFileSync('pdfdetach', ['-saveall', '-o', folder, file]);
    return new Map(names.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

export interface PrintedTable {
  readonly caption: string;
  /** Cells of each row as they stand, the row's heading first. */
  readonly rows: readonly (readonly string[])[];
}

/** Every table of the tagged file: caption and rows, from the structure tree. */
export function pdfTables(file: string): readonly PrintedTable[] {
  const tree = execFileSync('pdfinfo', ['-struct-text', file], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const tables: { caption: string; rows: string[][] }[] = [];
  let tag = '';
  for (const raw of tree.split('\n')) {
    const text = /^\s*"(.*)"$/.exec(raw)?.[1];
    const table = tables.at(-1);
    if (text !== undefined) {
      if (table === undefined) continue;
      if (tag === 'Caption') table.caption += text;
      const row = table.rows.at(-1);
      if ((tag === 'TH' || tag === 'TD') && row !== undefined) row.push(`${row.pop() ?? ''}${text}`);
      continue;
    }
    const found = /^\s*([A-Za-z0-9]+)(?::| \(|$)/.exec(raw)?.[1];
    if (found === undefined) continue;
    tag = found;
    if (tag === 'Table') tables.push({ caption: '', rows: [] });
    else if (tag === 'TR') table?.rows.push([]);
    else if (tag === 'TH' || tag === 'TD') table?.rows.at(-1)?.push('');
  }
  return tables;
}

/** The first number in a cell, without its unit: "2.8 mm to the car's right" is 2.8. */
export function numberIn(cell: string): string {
  return /\d+\.\d+/.exec(cell)?.[0] ?? '';
}
