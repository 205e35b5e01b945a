/**
 * The one door to pdfkit, with types for the members it keeps private or that its published types leave out.
 *
 * pdfkit is pinned to an exact version. Each private member is looked at when a document is opened, so another version
 * fails here, in words, and not somewhere on page 3.
 */
import { createRequire } from 'node:module';
import type PDFDocument from 'pdfkit';
import { invariant } from '../../../../core/result.ts';

/** Loaded with the first document: the service is up sooner, and most of its days print nothing. */
export const loadPdfkit = (): typeof PDFDocument => createRequire(import.meta.url)('pdfkit');

export type Pdf = InstanceType<typeof PDFDocument>;
export type StructureElement = PDFKit.PDFStructureElement;
type Draw = () => void;

/** An indirect object. Ending it writes it to the file. */
export interface PdfReference {
  data: Record<string, unknown>;
  end(bytes?: Uint8Array): void;
  write(chunk: string | Uint8Array): void;
}

/** What a structure element may carry. `bbox` is [left, top, right, bottom] from the sheet's upper left corner. */
export interface StructureOptions {
  readonly alt?: string;
  readonly scope?: 'Column' | 'Row';
  readonly bbox?: readonly [number, number, number, number];
  readonly placement?: 'Block';
}

/** A font as pdfkit holds it: glyph look-up and encoding of text into the codes of the embedded subset. */
export interface PdfFont {
  readonly id: string;
  readonly font: { hasGlyphForCodePoint(codePoint: number): boolean };
  encode(text: string): readonly [readonly string[], unknown];
  ref(): PdfReference;
}

interface PrivateParts {
  readonly _root: PdfReference;
  readonly _font: PdfFont;
  _addInfo(): void;
}

export interface PdfOptions {
  readonly size: readonly [number, number];
  readonly lang: string;
  readonly info: {
    readonly title: string;
    readonly author: string;
    readonly subject: string;
    readonly createdAt: Date;
  };
}

const producer = 'Datumline';

/** Opens an empty PDF 1.7 document that declares PDF/A-3b, tagged, with no font and no page yet. */
export function openPdf(options: PdfOptions): Pdf {
  const settings = {
    pdfVersion: '1.7',
    subset: 'PDF/A-3b',
    tagged: true,
    lang: options.lang,
    displayTitle: true,
    font: null,
    autoFirstPage: false,
    bufferPages: true,
    size: [...options.size],
    margin: 0,
    info: {
      Title: options.info.title,
      Author: options.info.author,
      Subject: options.info.subject,
      Producer: producer,
      Creator: producer,
      CreationDate: options.info.createdAt,
    },
  } as const;
  // The published types know no `font: null`, which keeps pdfkit from loading a font that is not embedded.
  const doc: Pdf = Reflect.construct(loadPdfkit(), [settings]);
  for (const member of ['_root', '_addInfo', 'ref', 'struct', 'addNamedEmbeddedFile', 'initForm', '_ctm']) {
    invariant(
      Reflect.get(doc, member) !== undefined,
      `pdfkit has no member ${member}: not the pinned version`,
    );
  }
  return doc;
}

function hasPrivateParts(doc: unknown): doc is PrivateParts {
  return typeof doc === 'object' && doc !== null && '_root' in doc;
}

function isReference(value: unknown): value is PdfReference {
  return typeof value === 'object' && value !== null && 'data' in value && 'end' in value;
}

function privateParts(doc: Pdf): PrivateParts {
  const parts: unknown = doc;
  invariant(hasPrivateParts(parts), 'a pdfkit document has a catalog');
  return parts;
}

/** A new indirect object. */
export function newReference(doc: Pdf, data: Record<string, unknown>): PdfReference {
  const reference: unknown = doc.ref(data);
  invariant(isReference(reference), 'pdfkit gives a reference');
  return reference;
}

/** The document's catalog. */
export function catalog(doc: Pdf): PdfReference {
  return privateParts(doc)._root;
}

/** The font last chosen with `doc.font()`. */
export function currentFont(doc: Pdf): PdfFont {
  return privateParts(doc)._font;
}

/** The page's own dictionary. */
export function pageDictionary(doc: Pdf): PdfReference {
  const dictionary: unknown = doc.page.dictionary;
  invariant(isReference(dictionary), 'a page has a dictionary');
  return dictionary;
}

/** The annotation added last to the current page. */
export function lastAnnotation(doc: Pdf): PdfReference {
  const annotations: unknown = doc.page.annotations;
  const last: unknown = Array.isArray(annotations) ? annotations.at(-1) : undefined;
  invariant(isReference(last), 'the page has an annotation');
  return last;
}

/** Starts an interactive form without the entries that PDF/A forbids, and gives its dictionary. */
export function openForm(doc: Pdf): PdfReference {
  doc.initForm();
  const form = catalog(doc).data.AcroForm;
  invariant(isReference(form), 'initForm makes a form');
  delete form.data.NeedAppearances;
  delete form.data.DA;
  return form;
}

/** A structure element; with `draw` its content is what `draw` draws once the element hangs in the tree. */
export function structureElement(
  doc: Pdf,
  type: string,
  options: StructureOptions = {},
  draw?: Draw,
): StructureElement {
  return draw === undefined ? doc.struct(type, options) : doc.struct(type, options, [draw]);
}

/** Sets an attribute object on an element that has not been written yet. */
export function setAttributes(element: StructureElement, attributes: Record<string, unknown>): void {
  const dictionary: unknown = Reflect.get(element, 'dictionary');
  invariant(isReference(dictionary), 'a structure element has a dictionary');
  dictionary.data.A = attributes;
}

/** Adds an annotation tied to a structure element, at `box` = [x, y, width, height] from the upper left corner. */
export function annotate(
  doc: Pdf,
  box: readonly [number, number, number, number],
  entries: Record<string, unknown>,
  element: StructureElement,
): void {
  const options: Record<string, unknown> = { ...entries, structParent: element };
  doc.annotate(box[0], box[1], box[2], box[3], options);
}

/** Puts a file into the document's list of embedded files and makes it the document's associated file. */
export function embedFile(doc: Pdf, name: string, specification: PdfReference): void {
  Reflect.apply(doc.addNamedEmbeddedFile, doc, [name, specification]);
  catalog(doc).data.AF = [specification];
}

/** Replaces the Info strings by escaped ones while pdfkit copies them, unescaped, into the XMP packet. */
export function escapeMetadata(doc: Pdf, escapeText: (text: string) => string): void {
  const parts = privateParts(doc);
  const original = parts._addInfo.bind(doc);
  parts._addInfo = () => {
    const info = doc.info;
    const entries = Object.entries(info).map(([key, value]) => [
      key,
      typeof value === 'string' ? escapeText(value) : value,
    ]);
    doc.info = Object.fromEntries(entries);
    original();
    doc.info = info;
  };
}

/** Ends the document and gives its bytes. */
export function finishPdf(doc: Pdf): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
    doc.end();
  });
}
