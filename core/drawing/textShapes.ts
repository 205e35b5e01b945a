/** A line of text on the sheet, over a cleared patch when it is masked. */
import type { TextItem } from './scene.ts';
import { type SheetTransform, textSide } from './sceneView.ts';
import { type PathShape, type SheetShape, straightPath } from './sheetShape.ts';
import { type TextBox, textBox } from './textBox.ts';

/** How far the cleared patch stands out at either end of a text, points. */
const MASK_PT = 2;

function mask(box: TextBox): PathShape {
  const corners = [
    { xPt: box.minXPt - MASK_PT, yPt: box.minYPt },
    { xPt: box.maxXPt + MASK_PT, yPt: box.minYPt },
    { xPt: box.maxXPt + MASK_PT, yPt: box.maxYPt },
    { xPt: box.minXPt - MASK_PT, yPt: box.maxYPt },
  ];
  return { kind: 'path', commands: straightPath(corners, true), fill: { role: 'sheet', tone: 'full' } };
}

/** The shapes of one line of text. */
export function textShapes(item: TextItem, transform: SheetTransform): readonly SheetShape[] {
  const box = textBox(item, transform);
  const line: SheetShape = {
    kind: 'text',
    xPt: transform.toSheet(item.at).xPt,
    yPt: box.baselinePt,
    text: item.text,
    sizePt: item.sizePt,
    bold: item.bold,
    align: textSide(item, transform).align,
    role: item.role,
  };
  return item.masked ? [mask(box), line] : [line];
}
