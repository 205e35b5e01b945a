/**
 * The sheet being drawn: where the pen is, which structure element new content belongs to, and how text gets there.
 *
 * Every mark on the page goes through `tag` (content that is read aloud) or `artifact` (ink that says nothing new), so
 * nothing is left untagged (ISO 14289-1 clause 7.1).
 */
import type { PaperSize } from '../../../../core/certificate/document.ts';
import { type Pdf, type StructureElement, type StructureOptions, structureElement } from './pdfkit.ts';
import { breakLines } from './textLines.ts';
import type { TextStyle } from './tokens.ts';

/** Lengths in points from the upper left corner. `bottom` is the last place for content, above the footer. */
export interface PageGeometry {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const sizes: Readonly<Record<PaperSize, readonly [number, number]>> = {
  A4: [595.28, 841.89],
  Letter: [612, 792],
};

/** Margins of a sheet: wide enough to be punched and filed. */
export function pageGeometry(paper: PaperSize): PageGeometry {
  const [width, height] = sizes[paper];
  return { width, height, left: 52, top: 64, right: width - 44, bottom: height - 58 };
}

/** Where letters stand in their line, from its top: the same for all sizes, so that a row shares one baseline. */
const baselineShare = 0.74;

export type Align = 'left' | 'right' | 'center';

/** A box on the sheet, x and y at its upper left. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export class Sheet {
  readonly doc: Pdf;
  readonly page: PageGeometry;
  /** Where the next block begins. */
  y: number;
  /** Content must end here on this page; page 1 keeps room for its foot. */
  bottom: number;
  #parent: StructureElement;

  constructor(doc: Pdf, page: PageGeometry, root: StructureElement) {
    this.doc = doc;
    this.page = page;
    this.y = page.top;
    this.bottom = page.bottom;
    this.#parent = root;
  }

  get left(): number {
    return this.page.left;
  }

  get width(): number {
    return this.page.right - this.page.left;
  }

  /** Height of a fresh page. */
  get capacity(): number {
    return this.page.bottom - this.page.top;
  }

  get room(): number {
    return this.bottom - this.y;
  }

  newPage(): void {
    this.doc.addPage();
    this.y = this.page.top;
    this.bottom = this.page.bottom;
  }

  /** Goes to a new page inside a piece of tagged content, which then belongs to both pages. */
  continuePage(): void {
    this.doc.continueOnNewPage();
    this.y = this.page.top;
    this.bottom = this.page.bottom;
  }

  /** Makes sure `height` fits below the pen, unless no page could hold it. */
  ensure(height: number): void {
    if (height > this.room && this.y > this.page.top) this.newPage();
  }

  /** Content that is read: `draw` draws it now. */
  tag(type: string, draw: () => void, options: StructureOptions = {}): void {
    this.#parent.add(structureElement(this.doc, type, options, draw));
  }

  /** A group: everything tagged in `body` hangs under it. `prepare` may set attributes before it is written. */
  group(type: string, body: () => void, prepare?: (element: StructureElement) => void): void {
    const element = structureElement(this.doc, type);
    prepare?.(element);
    const outer = this.#parent;
    outer.add(element);
    this.#parent = element;
    body();
    this.#parent = outer;
    element.end();
  }

  /** An element whose children are set by the caller (the signature field). */
  adopt(element: StructureElement): void {
    this.#parent.add(element);
  }

  /** Ink that carries no meaning of its own: rules, frames, shapes beside their words, repeated heads. */
  artifact(draw: () => void, type: 'Layout' | 'Pagination' = 'Layout'): void {
    this.doc.markContent('Artifact', { type });
    draw();
    this.doc.endMarkedContent();
  }

  lines(style: TextStyle, text: string, width: number): readonly string[] {
    return breakLines(this.doc, style, text, width);
  }

  /** Draws lines from `y` down inside `width` and gives the height they took. */
  write(
    lines: readonly string[],
    style: TextStyle,
    x: number,
    y: number,
    width: number,
    align: Align = 'left',
  ) {
    const { doc } = this;
    doc.font(style.font, style.size).fillColor(style.colour);
    lines.forEach((line, index) => {
      if (line === '') return;
      const spare = align === 'left' ? 0 : width - doc.widthOfString(line);
      const shift = align === 'center' ? spare / 2 : spare;
      const baseline = y + (index + baselineShare) * style.leading;
      doc.text(line, x + shift, baseline, { lineBreak: false, baseline: 'alphabetic' });
    });
    return lines.length * style.leading;
  }

  line(x1: number, y1: number, x2: number, y2: number, width: number, colour: string): void {
    this.doc.lineWidth(width).strokeColor(colour).moveTo(x1, y1).lineTo(x2, y2).stroke();
  }

  /** A horizontal rule over the whole width, as an artifact. */
  rule(y: number, width: number, colour: string): void {
    this.artifact(() => this.line(this.page.left, y, this.page.right, y, width, colour));
  }
}
