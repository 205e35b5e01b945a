/** A journal of two kinds of line, flushed to disk at each: enough to test what a killed process leaves behind. */
import { closeSync, existsSync, fsyncSync, openSync, readFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

const sealedSchema = z.strictObject({
  number: z.string(),
  edition: z.int(),
  recordDigest: z.string(),
});
const lineSchema = z.union([
  z.strictObject({ sealed: sealedSchema }),
  z.strictObject({ issued: z.string(), fileDigest: z.string() }),
]);

export type JournalLine = z.infer<typeof lineSchema>;
export type JournalSeal = z.infer<typeof sealedSchema>;

const pathIn = (folder: string) => join(folder, 'journal.jsonl');

export function append(folder: string, line: JournalLine): void {
  const file = openSync(pathIn(folder), 'a');
  writeSync(file, `${JSON.stringify(line)}\n`);
  fsyncSync(file);
  closeSync(file);
}

/** What is sealed and not issued. */
export function unissuedIn(folder: string): readonly JournalSeal[] {
  if (!existsSync(pathIn(folder))) return [];
  const lines = readFileSync(pathIn(folder), 'utf8').trim().split('\n');
  const parsed = lines.map((line) => lineSchema.parse(JSON.parse(line)));
  const issued = parsed.flatMap((line) => ('issued' in line ? [line.issued] : []));
  return parsed.flatMap((line) =>
    'sealed' in line && !issued.includes(line.sealed.recordDigest) ? [line.sealed] : [],
  );
}
