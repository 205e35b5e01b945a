/**
 * Attaches the record to the document (ISO 19005-3 clause 6.8, ISO 32000-1 clause 7.11.4).
 *
 * Built by hand because pdfkit's own `file()` writes the checksum as 32 characters of text where the standard asks for
 * 16 bytes.
 */
import { createHash } from 'node:crypto';
import type { DocumentAttachment } from '../../../../core/certificate/document.ts';
import { embedFile, newReference, type Pdf } from './pdfkit.ts';

export function attachRecord(doc: Pdf, attachment: DocumentAttachment, moment: Date): void {
  const bytes = new TextEncoder().encode(attachment.json);
  const file = newReference(doc, {
    Type: 'EmbeddedFile',
    Subtype: 'application#2Fjson',
    Params: {
      Size: bytes.length,
      CreationDate: moment,
      ModDate: moment,
      CheckSum: new Uint8Array(createHash('md5').update(bytes).digest()),
    },
  });
  file.end(bytes);
  const specification = newReference(doc, {
    Type: 'Filespec',
    F: pdfString(attachment.name),
    UF: pdfString(attachment.name),
    Desc: pdfString(attachment.description),
    AFRelationship: 'Data',
    EF: { F: file, UF: file },
  });
  specification.end();
  embedFile(doc, attachment.name, specification);
}

/** pdfkit writes a primitive string as a name and a `String` object as text. */
export function pdfString(text: string): object {
  return Object(text);
}
