/**
 * Draws a certificate as PDF/A-3b and PDF/UA-1, with an empty signature field.
 *
 * The same document gives the same bytes, on any day and in any time zone: the only moment in the file is the
 * document's own `issuedAt`.
 */
import type { CertificateDocument } from '../../../../core/certificate/document.ts';
import { err, invariant, ok, type Result } from '../../../../core/result.ts';
import { attachRecord } from './attachRecord.ts';
import { type Drawers, drawBlock, drawSection } from './blocks.ts';
import { drawDraftMark } from './draftMark.ts';
import { drawAnswer, drawFirstPageFoot, drawLetterhead } from './firstPage.ts';
import { type MissingGlyph, missingGlyphs } from './glyphGuard.ts';
import { escapeMetadata, finishPdf, openPdf, type Pdf, structureElement } from './pdfkit.ts';
import type { PictureBytes } from './pictures.ts';
import { drawRunningMatter } from './runningMatter.ts';
import type { SceneDrawer } from './sceneBlock.ts';
import { pageGeometry, Sheet } from './sheet.ts';
import { drawSignaturePart } from './signaturePart.ts';
import { space } from './tokens.ts';
import { escapeXml, pdfuaDeclaration } from './xmp.ts';

/** The bytes of the two embedded TrueType fonts, and who draws the scenes. */
export interface RenderParts {
  readonly fonts: { readonly regular: Uint8Array; readonly bold: Uint8Array };
  readonly drawScene: SceneDrawer;
  /** Absent: a document without photos. */
  readonly pictureBytes?: PictureBytes;
}

export interface RenderError {
  readonly code: 'certificate/glyphMissing';
  readonly missing: readonly MissingGlyph[];
}

/** The unsigned file; `signPdf` fills its signature field. Fails when a character cannot be printed. */
export async function renderCertificate(
  document: CertificateDocument,
  parts: RenderParts,
): Promise<Result<Uint8Array, RenderError>> {
  const moment = new Date(document.issuedAt);
  invariant(!Number.isNaN(moment.getTime()), `issuedAt is a date: ${document.issuedAt}`);
  const doc = openDocument(document, parts, moment);
  const missing = missingGlyphs(doc, document);
  if (missing.length > 0) return err({ code: 'certificate/glyphMissing', missing });
  const { drawScene, pictureBytes = () => undefined } = parts;
  draw(doc, document, { drawScene, pictureBytes }, moment);
  attachRecord(doc, document.attachment, moment);
  return ok(await finishPdf(doc));
}

function openDocument(document: CertificateDocument, parts: RenderParts, moment: Date): Pdf {
  const page = pageGeometry(document.paper);
  const doc = openPdf({
    size: [page.width, page.height],
    lang: document.lang,
    info: {
      title: `${document.title} ${document.number}`,
      author: document.shopName,
      subject: document.answer.words,
      createdAt: moment,
    },
  });
  doc.registerFont('regular', Buffer.from(parts.fonts.regular));
  doc.registerFont('bold', Buffer.from(parts.fonts.bold));
  escapeMetadata(doc, escapeXml);
  doc.appendXML(pdfuaDeclaration);
  return doc;
}

function draw(doc: Pdf, document: CertificateDocument, drawers: Drawers, moment: Date): void {
  doc.font('regular').addPage();
  const root = structureElement(doc, 'Document');
  doc.addStructure(root);
  const sheet = new Sheet(doc, pageGeometry(document.paper), root);
  drawLetterhead(sheet, document);
  drawAnswer(sheet, document);
  drawFirstPageFoot(sheet, document);
  for (const block of document.firstPage) drawBlock(sheet, block, drawers);
  // Evidence starts on a page of its own: page 1 stands alone when it is copied or sent as a picture.
  sheet.newPage();
  for (const section of document.sections) {
    drawSection(sheet, section, drawers);
    sheet.y += space.step;
  }
  drawSignaturePart(sheet, document, moment);
  root.end();
  drawRunningMatter(sheet, document);
  if (document.draft !== undefined) drawDraftMark(sheet, document.draft);
}
