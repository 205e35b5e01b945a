/** Finds the file's signature the way a viewer does: catalog, form, field, value (ISO 32000-1 clauses 12.7, 12.8). */
import type { PdfFile } from './pdfFile.ts';
import { type PdfArray, type PdfDictionary, type PdfString, PdfSyntaxError } from './pdfValue.ts';

export interface SignatureDictionary {
  readonly dictionary: PdfDictionary;
  readonly byteRange: PdfArray;
  readonly contents: PdfString;
  readonly moment: PdfString;
}

/** `undefined` when the file has no signature field with a value. More than one is not a certificate of ours. */
export function findSignature(file: PdfFile): SignatureDictionary | undefined {
  const form = file.entry(file.catalog, 'AcroForm');
  if (form?.type !== 'dictionary') return undefined;
  const fields = file.entry(form, 'Fields');
  if (fields?.type !== 'array' || fields.items.length === 0) return undefined;
  if (fields.items.length > 1) throw new PdfSyntaxError('more than one field', fields.start);
  const field = file.dictionary(fields.items[0], 'field');
  const kind = file.entry(field, 'FT');
  const value = file.entry(field, 'V');
  if (kind?.type !== 'name' || kind.value !== 'Sig' || value?.type !== 'dictionary') return undefined;
  const byteRange = value.entries.get('ByteRange');
  const contents = value.entries.get('Contents');
  const moment = value.entries.get('M');
  if (byteRange?.type !== 'array' || contents?.type !== 'string' || moment?.type !== 'string')
    return undefined;
  return { dictionary: value, byteRange, contents, moment };
}
