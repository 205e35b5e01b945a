/**
 * The empty signature field: a hole for the signature value, and a visible frame a reader can click on.
 *
 * The entries follow ISO 32000-1 clause 12.8.1 with the PAdES sub-filter of ETSI EN 319 142-1 clause 6.3; flags and
 * appearance follow ISO 19005-3 clauses 6.3.2 (Print set) and 6.3.3.
 */
import { emptyByteRange, holeBytes } from '../sign/emptySignature.ts';
import { pdfString } from './attachRecord.ts';
import {
  annotate,
  catalog,
  currentFont,
  lastAnnotation,
  newReference,
  openForm,
  type Pdf,
  type PdfReference,
  pageDictionary,
  structureElement,
} from './pdfkit.ts';
import type { Box, Sheet } from './sheet.ts';
import { styles } from './tokens.ts';

export interface SignatureFieldWords {
  readonly signer: string;
  readonly reason: string;
  readonly alt: string;
}

/** Print (4) and Locked (128). */
const printAndLocked = 132;
const signaturesExistAppendOnly = 3;

export function drawSignatureField(sheet: Sheet, words: SignatureFieldWords, box: Box, moment: Date): void {
  const { doc } = sheet;
  const signature = newReference(doc, {
    Type: 'Sig',
    Filter: 'Adobe.PPKLite',
    SubFilter: 'ETSI.CAdES.detached',
    ByteRange: emptyByteRange,
    Contents: new Uint8Array(holeBytes),
    M: moment,
    Name: pdfString(words.signer),
    Reason: pdfString(words.reason),
  });
  signature.end();
  const lines = sheet.lines(styles.body, words.signer, box.width - 20);
  doc.font(styles.body.font, styles.body.size);
  const form = openForm(doc);
  form.data.SigFlags = signaturesExistAppendOnly;
  const element = structureElement(doc, 'Form', { alt: words.alt });
  sheet.adopt(element);
  annotate(
    doc,
    [box.x, box.y, box.width, box.height],
    {
      Subtype: 'Widget',
      FT: 'Sig',
      F: printAndLocked,
      T: pdfString('Signature1'),
      TU: pdfString(words.alt),
      V: signature,
      P: pageDictionary(doc),
      AP: { N: appearance(doc, lines, box) },
    },
    element,
  );
  // While this page is current: pdfkit notes the page of an annotation when the element is written.
  element.end();
  const fields = form.data.Fields;
  if (Array.isArray(fields)) fields.push(lastAnnotation(doc));
  // ETSI EN 319 142-1: a PDF 1.7 file says which extension it uses.
  catalog(doc).data.Extensions = { ESIC: { BaseVersion: '1.7', ExtensionLevel: 1 } };
}

/** What the frame shows: the signer's line, in the embedded font, inside a thin border. */
function appearance(doc: Pdf, lines: readonly string[], box: Box): PdfReference {
  const font = currentFont(doc);
  const { size, leading } = styles.body;
  const top = box.height / 2 + (lines.length * leading) / 2 - size;
  const text = lines.map((line, index) => {
    const [codes] = font.encode(line);
    return `BT /${font.id} ${size} Tf 1 0 0 1 10 ${(top - index * leading).toFixed(2)} Tm <${codes.join('')}> Tj ET`;
  });
  const frame = `0.6 w 0.353 0.38 0.412 RG 0.5 0.5 ${(box.width - 1).toFixed(2)} ${(box.height - 1).toFixed(2)} re S`;
  const form = newReference(doc, {
    Type: 'XObject',
    Subtype: 'Form',
    BBox: [0, 0, box.width, box.height],
    Resources: { Font: { [font.id]: font.ref() } },
  });
  form.write([frame, '0.102 0.114 0.129 rg', ...text].join('\n'));
  form.end();
  return form;
}
