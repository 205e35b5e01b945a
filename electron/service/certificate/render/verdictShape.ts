/** The shape that stands beside a verdict's word: filled, half filled or empty square, told apart without colour. */
import type { VerdictKind } from '../../../../core/certificate/document.ts';
import type { Pdf } from './pdfkit.ts';
import { colours } from './tokens.ts';

export const verdictColours: Readonly<Record<VerdictKind, string>> = {
  proven: colours.proven,
  notProven: colours.notProven,
  outside: colours.outside,
};

/** Draws the shape with its upper left corner at x, y. */
export function drawVerdictShape(
  doc: Pdf,
  verdict: VerdictKind,
  x: number,
  y: number,
  side: number,
  colour: string = verdictColours[verdict],
): void {
  const line = side / 7;
  const fill = { proven: 1, notProven: 0.5, outside: 0 }[verdict];
  if (fill > 0)
    doc
      .rect(x, y, side * fill, side)
      .fillColor(colour)
      .fill();
  doc
    .lineWidth(line)
    .strokeColor(colour)
    .rect(x + line / 2, y + line / 2, side - line, side - line)
    .stroke();
}
