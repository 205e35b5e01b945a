/** The bytes of the attached record, through the catalog's list of associated files (ISO 19005-3 clause 6.8). */
import { createHash } from 'node:crypto';
import type { PdfFile } from '../file/pdfFile.ts';

/** `undefined` when nothing is attached, or its length or checksum is not the one noted beside it. */
export function attachedFile(file: PdfFile): Uint8Array | undefined {
  const associated = file.entry(file.catalog, 'AF');
  if (associated?.type !== 'array' || associated.items.length !== 1) return undefined;
  const specification = file.dictionary(associated.items[0], 'file specification');
  const embedded = file.dictionary(specification.entries.get('EF'), 'embedded file');
  const reference = embedded.entries.get('F');
  const bytes = file.stream(reference, 'attached record');
  const parameters = file.entry(file.dictionary(reference, 'attached record'), 'Params');
  if (parameters?.type !== 'dictionary') return undefined;
  const size = parameters.entries.get('Size');
  const checksum = parameters.entries.get('CheckSum');
  if (size?.type !== 'number' || size.value !== bytes.length || checksum?.type !== 'string') return undefined;
  const md5 = createHash('md5').update(bytes).digest();
  return md5.equals(checksum.bytes) ? bytes : undefined;
}
