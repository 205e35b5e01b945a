/**
 * Refuses text the embedded fonts cannot draw, before anything is drawn.
 *
 * pdfkit would put an empty box in its place and say nothing (forbidden by ISO 19005-3 clause 6.2.11.8), and a name
 * printed as a box is worse than no certificate.
 */
import type { CertificateDocument } from '../../../../core/certificate/document.ts';
import { currentFont, type Pdf } from './pdfkit.ts';

export interface MissingGlyph {
  /** The character's number as `U+4E2D`. */
  readonly codePoint: string;
  /** The text it stands in. */
  readonly text: string;
}

/** Every character of the document that one of the two fonts lacks, each once, with the first text it stands in. */
export function missingGlyphs(doc: Pdf, document: CertificateDocument): readonly MissingGlyph[] {
  const { attachment: _attachedNotPrinted, ...printed } = document;
  const firstText = new Map<number, string>();
  for (const text of textsIn(printed)) {
    for (const character of text) {
      const codePoint = character.codePointAt(0) ?? 0;
      if (!firstText.has(codePoint)) firstText.set(codePoint, text);
    }
  }
  const missing: MissingGlyph[] = [];
  for (const [codePoint, text] of firstText) {
    if (codePoint === 0x0a || canDraw(doc, codePoint)) continue;
    missing.push({ codePoint: `U+${codePoint.toString(16).toUpperCase().padStart(4, '0')}`, text });
  }
  return missing;
}

function canDraw(doc: Pdf, codePoint: number): boolean {
  if (codePoint < 0x20 || (codePoint >= 0x7f && codePoint < 0xa0)) return false;
  return (['regular', 'bold'] as const).every((name) => {
    doc.font(name);
    return currentFont(doc).font.hasGlyphForCodePoint(codePoint);
  });
}

function* textsIn(value: unknown): Generator<string> {
  if (typeof value === 'string') yield value;
  else if (typeof value === 'object' && value !== null) {
    for (const member of Object.values(value)) yield* textsIn(member);
  }
}
