/** A dimension on the sheet: extension lines, a line with slender arrows, the value over its uncertainty (ISO 129-1). */

import { arrowShapes } from './arrowShapes.ts';
import type { DimensionItem, Stroke, TextItem } from './scene.ts';
import type { SheetPoint, SheetTransform } from './sceneView.ts';
import { type PathShape, pathStroke, type SheetShape, straightPath } from './sheetShape.ts';
import { textShapes } from './textShapes.ts';

/** Air between a measured point and its extension line, points. */
const EXTENSION_GAP_PT = 2;
/** How far an extension line runs past the dimension line, points. */
const EXTENSION_PAST_PT = 3;
const HEAD_PT = 7;
const HEAD_SLENDER = 0.34;

/** The two lines of text of a dimension: the value stands over its uncertainty in every view. */
export function dimensionTexts(item: DimensionItem, halfTurned: boolean): readonly TextItem[] {
  const common = {
    kind: 'text',
    at: item.textAt,
    align: item.align,
    sizePt: item.sizePt,
    bold: false,
    masked: true,
  } as const;
  const value = { ...common, text: item.valueText, role: item.role };
  if (item.uncertaintyText === undefined) return [{ ...value, rise: item.rise }];
  const [over, under] = halfTurned ? (['below', 'above'] as const) : (['above', 'below'] as const);
  return [
    { ...value, rise: over },
    { ...common, text: item.uncertaintyText, rise: under, role: 'pencil' },
  ];
}

function extensionLine(measured: SheetPoint, end: SheetPoint): readonly PathShape[] {
  const length = Math.hypot(end.xPt - measured.xPt, end.yPt - measured.yPt);
  if (length <= EXTENSION_GAP_PT) return [];
  const x = (end.xPt - measured.xPt) / length;
  const y = (end.yPt - measured.yPt) / length;
  const points = [
    { xPt: measured.xPt + x * EXTENSION_GAP_PT, yPt: measured.yPt + y * EXTENSION_GAP_PT },
    { xPt: end.xPt + x * EXTENSION_PAST_PT, yPt: end.yPt + y * EXTENSION_PAST_PT },
  ];
  return [
    {
      kind: 'path',
      commands: straightPath(points, false),
      stroke: pathStroke({ role: 'pencil', pen: 'thin' }),
    },
  ];
}

/** The shapes of one dimension. */
export function dimensionShapes(item: DimensionItem, transform: SheetTransform): readonly SheetShape[] {
  const from = transform.toSheet(item.from);
  const to = transform.toSheet(item.to);
  const pen: Stroke = { role: item.role, pen: 'thin' };
  const middle = { xPt: (from.xPt + to.xPt) / 2, yPt: (from.yPt + to.yPt) / 2 };
  return [
    ...extensionLine(transform.toSheet(item.measured[0]), from),
    ...extensionLine(transform.toSheet(item.measured[1]), to),
    ...arrowShapes(middle, from, HEAD_PT, HEAD_SLENDER, pen),
    ...arrowShapes(middle, to, HEAD_PT, HEAD_SLENDER, pen),
    ...dimensionTexts(item, transform.halfTurned).flatMap((text) => textShapes(text, transform)),
  ];
}
