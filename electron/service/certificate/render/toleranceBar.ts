/**
 * The decision as a picture: a scale with zero at the required value, the tolerance as two ticks, the found value as a
 * line, the guard of the decision rule as a box around it and U as whiskers. The box lies inside the ticks exactly
 * when the verdict is *proven*.
 */
import type { ToleranceBar, VerdictKind } from '../../../../core/certificate/document.ts';
import type { Box, Sheet } from './sheet.ts';
import { colours, rule, styles } from './tokens.ts';
import { verdictColours } from './verdictShape.ts';

/** Height of the bar with the words under its ticks. */
export const toleranceBarHeight = 26;

/** A value far outside is drawn as an arrow at the edge, so that the tolerance stays readable. */
const farthestTolerances = 6;
const boxHeight = 9;
const tickHeight = 15;

/** Draws the bar as ink; the words of the row say the same. */
export function drawToleranceBar(sheet: Sheet, bar: ToleranceBar, verdict: VerdictKind, box: Box): void {
  const span = spanOf(bar);
  const centre = box.x + box.width / 2;
  const axis = box.y + tickHeight / 2 + 1;
  const placeOf = (value: number) =>
    centre + (Math.max(-span, Math.min(span, value)) / span) * (box.width / 2);
  sheet.line(box.x, axis, box.x + box.width, axis, rule.hair, colours.pencil);
  sheet.line(centre, axis - 3, centre, axis + 3, rule.hair, colours.pencil);
  if (Math.abs(bar.found) <= span) drawBox(sheet, bar, verdict, axis, placeOf);
  for (const [limit, words] of [
    [bar.lower, bar.lowerText],
    [bar.upper, bar.upperText],
  ] as const) {
    if (limit !== undefined) drawTick(sheet, placeOf(limit), axis, words, box);
  }
  drawFound(sheet, bar.found, span, axis, placeOf);
}

function spanOf(bar: ToleranceBar): number {
  const limit = Math.max(Math.abs(bar.lower ?? 0), Math.abs(bar.upper ?? 0));
  const reach = Math.abs(bar.found) + Math.max(bar.boxHalfWidth, bar.whiskerHalfWidth ?? 0);
  const span = Math.max(limit * 1.6, Math.min(reach * 1.1, limit * farthestTolerances));
  return span > 0 ? span : Math.max(reach, 1);
}

function drawBox(
  sheet: Sheet,
  bar: ToleranceBar,
  verdict: VerdictKind,
  axis: number,
  placeOf: (value: number) => number,
): void {
  const { doc } = sheet;
  const from = placeOf(bar.found - bar.boxHalfWidth);
  const to = placeOf(bar.found + bar.boxHalfWidth);
  const whisker = bar.whiskerHalfWidth;
  if (whisker !== undefined) {
    const ends = [placeOf(bar.found - whisker), placeOf(bar.found + whisker)] as const;
    sheet.line(ends[0], axis, ends[1], axis, rule.firm, colours.ink);
    for (const end of ends) sheet.line(end, axis - 2.5, end, axis + 2.5, rule.firm, colours.ink);
  }
  if (to - from < 0.5) return;
  const y = axis - boxHeight / 2;
  doc
    .rect(from, y, to - from, boxHeight)
    .fillColor(colours.wash)
    .fill();
  doc
    .lineWidth(rule.firm)
    .strokeColor(verdictColours[verdict])
    .rect(from, y, to - from, boxHeight)
    .stroke();
}

function drawTick(sheet: Sheet, x: number, axis: number, words: string | undefined, box: Box): void {
  sheet.line(x, axis - tickHeight / 2, x, axis + tickHeight / 2, 1.2, colours.ink);
  if (words === undefined) return;
  const width = sheet.doc.font(styles.tick.font, styles.tick.size).widthOfString(words);
  const centre = box.x + box.width / 2;
  // Each word keeps to its own side of zero, so that two close ticks do not write over one another.
  const from = x < centre ? box.x : centre + 3;
  const until = x < centre ? centre - 3 : box.x + box.width;
  const left = Math.max(from, Math.min(until - width, x - width / 2));
  sheet.write([words], styles.tick, left, axis + tickHeight / 2 + 1, width);
}

function drawFound(
  sheet: Sheet,
  found: number,
  span: number,
  axis: number,
  placeOf: (value: number) => number,
): void {
  const x = placeOf(found);
  const { doc } = sheet;
  if (Math.abs(found) <= span) {
    sheet.line(x, axis - tickHeight / 2 + 1, x, axis + tickHeight / 2 - 1, 2, colours.ink);
    return;
  }
  const back = found > 0 ? x - 7 : x + 7;
  doc
    .moveTo(x, axis)
    .lineTo(back, axis - 4)
    .lineTo(back, axis + 4);
  doc.closePath().fillColor(colours.ink).fill();
}
