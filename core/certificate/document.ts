/**
 * The printable certificate: everything that reaches paper, already rounded and worded.
 *
 * The renderer adds no word and rounds no number: what is here is printed as it stands. Numbers are decimal strings;
 * the few plain numbers (column shares, heights, the tolerance bar) only place ink and are never printed.
 * The same numbers stand, with unit and decimals, in the attached record (`CertificateRecord`), which is what is
 * digested, recomputed and checked.
 */
import type { Scene } from '../drawing/scene.ts';

/** What the certificate says was done (three outcomes, one document each). */
export type CertificateKind = 'calibrated' | 'routineCompletedPlacementNotShown' | 'notCalibrated';

/** Sheet sizes: ISO 216 A4 (210 x 297 mm) and US Letter (215.9 x 279.4 mm). */
export type PaperSize = 'A4' | 'Letter';

/** The three verdicts. The shape beside the word is filled, half filled and empty, in this order. */
export type VerdictKind = 'proven' | 'notProven' | 'outside';

/** How a cell stands out: `strong` is bold, `quiet` is secondary text, `struck` is a withdrawn reading. */
export type Emphasis = 'plain' | 'strong' | 'quiet' | 'struck';

/** One label with its value, for example `Odometer in` / `48 213 km`. A value may hold line feeds. */
export interface Fact {
  readonly label: string;
  readonly value: string;
  readonly emphasis?: Emphasis;
}

/** Label and value rows in one or two columns (two by default), read down the first column, then the second. */
export interface FactsBlock {
  readonly block: 'facts';
  readonly columns?: 1 | 2;
  readonly facts: readonly Fact[];
}

/** `share` is the column's part of the width relative to the other columns' shares. Numbers align `right`. */
export interface TableColumn {
  readonly heading: string;
  readonly align: 'left' | 'right' | 'center';
  readonly share: number;
}

/** A cell is its text, or its text with an emphasis. */
export type TableCell = string | { readonly text: string; readonly emphasis: Emphasis };

/**
 * A table. Rows are never split over pages and the head row is repeated on each page. With `rowHeadings` the first
 * cell of a row names the row (a reader for the blind reads it with every cell).
 */
export interface TableBlock {
  readonly block: 'table';
  readonly caption?: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly TableCell[])[];
  readonly rowHeadings?: boolean;
}

/**
 * The drawing of one decision, in the coordinate's own unit, zero at the required value.
 *
 * `lower` and `upper` are the tolerance limits (absent on a side without limit), `found` the deviation,
 * `boxHalfWidth` the guard the decision rule adds (1.645 u by default): the box lies inside the ticks exactly when the
 * verdict is *proven*, so that the picture is the rule. `whiskerHalfWidth` is U.
 */
export interface ToleranceBar {
  readonly lower?: number;
  readonly upper?: number;
  readonly found: number;
  readonly boxHalfWidth: number;
  readonly whiskerHalfWidth?: number;
  readonly lowerText?: string;
  readonly upperText?: string;
}

/**
 * One coordinate at one station. `deviation` is in words with its direction ("4.1 mm too near the car"), never a
 * signed number. `verdictText` is the verdict as worded ("within, margin smaller than the uncertainty").
 * `consequence` says what the deviation means at the sensor and down the road.
 */
export interface VerdictRow {
  readonly label: string;
  readonly required: string;
  readonly found: string;
  readonly deviation: string;
  readonly expandedUncertainty: string;
  readonly coverageFactor: string;
  readonly tolerance: string;
  readonly verdict: VerdictKind;
  readonly verdictText: string;
  readonly probability: string;
  readonly consequence?: string;
  readonly bar?: ToleranceBar;
}

/** The words above the columns of a verdict block, in the language of the document. */
export interface VerdictHeadings {
  readonly coordinate: string;
  readonly required: string;
  readonly found: string;
  readonly deviation: string;
  readonly expandedUncertainty: string;
  readonly coverageFactor: string;
  readonly tolerance: string;
  readonly verdict: string;
}

/** Required, found and verdict per coordinate of one station. `note` explains the bar and the columns once. */
export interface VerdictsBlock {
  readonly block: 'verdicts';
  readonly caption?: string;
  readonly headings: VerdictHeadings;
  readonly rows: readonly VerdictRow[];
  readonly note?: string;
}

/** A drawing to scale. `altText` says in words what the drawing shows; `heightMm` is its height on paper, mm. */
export interface SceneBlock {
  readonly block: 'scene';
  readonly scene: Scene;
  readonly altText: string;
  readonly caption?: string;
  readonly heightMm: number;
}

/** Photos, drawn from stored files by their digests. `altText` says in words what each shows; `facts` stand below its caption. */
export interface PicturesBlock {
  readonly block: 'pictures';
  readonly pictures: readonly {
    readonly digest: string;
    readonly widthPx: number;
    readonly heightPx: number;
    readonly altText: string;
    readonly caption: string;
    readonly facts: readonly string[];
  }[];
}

/** A paragraph; `quiet` is secondary text. */
export interface TextBlock {
  readonly block: 'text';
  readonly text: string;
  readonly emphasis?: Emphasis;
}

/** A caution in a frame. `heading` is the word that opens it ("Caution", "Not done"). */
export interface NoticeBlock {
  readonly block: 'notice';
  readonly heading: string;
  readonly text: string;
}

/** Items, marked by a dash or by numbers from 1. */
export interface ListBlock {
  readonly block: 'list';
  readonly ordered?: boolean;
  readonly items: readonly string[];
}

/** Everything that can be printed, a closed union. */
export type DocumentBlock =
  | FactsBlock
  | TableBlock
  | VerdictsBlock
  | SceneBlock
  | PicturesBlock
  | TextBlock
  | NoticeBlock
  | ListBlock;

/** A headed part of the evidence. */
export interface DocumentSection {
  readonly heading: string;
  readonly blocks: readonly DocumentBlock[];
}

/**
 * The answer at the head of page 1: the outcome in large words, one sentence under it, and one line per sensor with
 * its outcome (drawn with the verdict's shape; without one where nothing was to be judged here).
 */
export interface DocumentAnswer {
  readonly words: string;
  readonly sentence: string;
  readonly sensors: readonly {
    readonly name: string;
    readonly outcome: string;
    readonly verdict?: VerdictKind;
  }[];
}

/**
 * The words of the page itself, in the language of the document. `{page}`, `{pages}`, `{number}` and `{edition}` are
 * filled in by the renderer, which alone knows how many pages there are.
 */
export interface PageWords {
  readonly pageOf: string;
  readonly numberAndEdition: string;
  readonly end: string;
  readonly recordDigest: string;
  readonly qrAlt: string;
  readonly signatureHeading: string;
  readonly signatureFieldAlt: string;
  readonly signatureReason: string;
  readonly limitHeading: string;
  readonly continued: string;
}

/** The file inside the file: the canonical JSON text of a `CertificateAttachment`. */
export interface DocumentAttachment {
  readonly name: string;
  readonly description: string;
  readonly json: string;
}

/**
 * A whole certificate, ready to print.
 *
 * `issuedAt` is UTC, ISO 8601 with seconds (`2026-03-05T14:07:09Z`): it becomes the creation date and the time of
 * signing claimed in the file; `issuedAtText` is the same moment as printed. `recordDigest` is 64 lower-case
 * hexadecimal digits; `qrText` is `certificateQrText(number, edition, recordDigest)`. `replaces` is present on an
 * edition that supersedes another and is printed under the answer.
 */
export interface CertificateDocument {
  readonly number: string;
  readonly edition: number;
  readonly replaces?: {
    readonly number: string;
    readonly edition: number;
    readonly words: string;
    readonly reason: string;
  };
  readonly kind: CertificateKind;
  readonly title: string;
  /** The word across every page of a document that is not issued; absent on a certificate. */
  readonly draft?: string;
  readonly answer: DocumentAnswer;
  readonly paper: PaperSize;
  readonly lang: string;
  readonly shopName: string;
  readonly shopLines: readonly string[];
  readonly firstPage: readonly DocumentBlock[];
  readonly sections: readonly DocumentSection[];
  readonly limitSentence: string;
  readonly issuedAt: string;
  readonly issuedAtText: string;
  readonly signerText: string;
  readonly signerFacts: readonly Fact[];
  readonly recordDigest: string;
  readonly qrText: string;
  readonly attachment: DocumentAttachment;
  readonly words: PageWords;
}
