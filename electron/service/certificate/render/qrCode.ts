/** The QR code as vector ink: one filled path, so that no hairline shows between modules. */
import QRCode from 'qrcode';
import type { Pdf } from './pdfkit.ts';
import { colours } from './tokens.ts';

/** One run of dark modules in a row: column, row, length. */
export type QrRun = readonly [column: number, row: number, length: number];

/** The runs of dark modules, row by row, and the number of modules on a side (without the quiet zone). */
export function qrRuns(text: string): { readonly side: number; readonly runs: readonly QrRun[] } {
  const { modules } = QRCode.create(text, { errorCorrectionLevel: 'M' });
  const runs: QrRun[] = [];
  for (let row = 0; row < modules.size; row++) {
    let start = -1;
    for (let column = 0; column <= modules.size; column++) {
      const dark = column < modules.size && modules.get(row, column) === 1;
      if (dark && start < 0) start = column;
      if (!dark && start >= 0) {
        runs.push([start, row, column - start]);
        start = -1;
      }
    }
  }
  return { side: modules.size, runs };
}

/**
 * Draws the code into a square. Modules are drawn as whole numbers under one scale, so that the check can read them
 * back from the page without a camera.
 */
export function drawQrCode(doc: Pdf, text: string, x: number, y: number, square: number): void {
  const { side, runs } = qrRuns(text);
  doc
    .save()
    .translate(x, y)
    .scale(square / side);
  for (const [column, row, length] of runs) doc.rect(column, row, length, 1);
  doc.fillColor(colours.ink).fill().restore();
}
