/** Whether the digest a reader sees, and the one a telephone reads, are the digest of the attached record. */
import type { PdfFile } from '../file/pdfFile.ts';
import { PdfSyntaxError } from '../file/pdfValue.ts';
import { type QrRun, qrRuns } from '../render/qrCode.ts';
import { type Operation, operationsOf, pagesOf, textOf } from './pageContent.ts';

export interface PrintedMarks {
  /** Text of the first page without white space. */
  readonly firstText: string;
  readonly lastText: string;
  /** Dark runs of modules drawn on the first page. */
  readonly modules: readonly QrRun[];
}

export function readPrintedMarks(file: PdfFile): PrintedMarks {
  const pages = pagesOf(file);
  const first = pages[0];
  const last = pages.at(-1);
  if (first === undefined || last === undefined) throw new PdfSyntaxError('no page', 0);
  const operations = operationsOf(file, first);
  const lastOperations = last === first ? operations : operationsOf(file, last);
  return {
    firstText: textOf(file, first, operations).replace(/\s/g, ''),
    lastText: textOf(file, last, lastOperations).replace(/\s/g, ''),
    modules: modulesIn(operations),
  };
}

/** True when the digest is printed on the first and on the last page. */
export function printsDigest(marks: PrintedMarks, digest: string): boolean {
  return marks.firstText.includes(digest) && marks.lastText.includes(digest);
}

/** True when the code drawn on the page is, module by module, the code of `text`. */
export function showsQrCode(marks: PrintedMarks, text: string): boolean {
  const { runs } = qrRuns(text);
  return (
    runs.length === marks.modules.length &&
    runs.every((run, index) => run.every((value, part) => value === marks.modules[index]?.[part]))
  );
}

/** Fewer rectangles in one path than this are a frame or a shape, not a code. */
const fewestRuns = 100;

/** The longest path of rectangles one unit high: how the renderer draws the code. */
function modulesIn(operations: readonly Operation[]): readonly QrRun[] {
  let best: readonly QrRun[] = [];
  let path: QrRun[] = [];
  for (const { operator, operands } of operations) {
    const [column, row, length, height] = operands.map((operand) =>
      operand.type === 'number' ? operand.value : Number.NaN,
    );
    if (operator === 're' && height === 1) path.push([column ?? 0, row ?? 0, length ?? 0]);
    else if (operator.toLowerCase() === 'f' || operator === 'q') {
      if (path.length > Math.max(best.length, fewestRuns)) best = path;
      path = [];
    }
  }
  return best;
}
