/** Where a line of text lies on the sheet: level, never mirrored, on the side of its point that it was composed for. */
import { assertNever } from '../result.ts';
import type { TextItem } from './scene.ts';
import { type SheetTransform, textSide } from './sceneView.ts';
import { ASCENT_EM, CAP_HEIGHT_EM, DESCENT_EM, textWidthPt } from './textSize.ts';

/** A rectangle of the sheet, points; `min` is its upper corner on the left of one who holds the sheet. */
export interface SheetBox {
  readonly minXPt: number;
  readonly minYPt: number;
  readonly maxXPt: number;
  readonly maxYPt: number;
}

/** A text's rectangle and its baseline. */
export interface TextBox extends SheetBox {
  readonly baselinePt: number;
}

/** Half the room of a line whose capitals are centred on its point, ems: as much above as its tails take below. */
const CENTRED_HALF_EM = DESCENT_EM + CAP_HEIGHT_EM / 2;

/** The rectangle a text takes in this view. */
export function textBox(
  item: Pick<TextItem, 'at' | 'text' | 'sizePt' | 'bold' | 'align' | 'rise'>,
  transform: SheetTransform,
): TextBox {
  const at = transform.toSheet(item.at);
  const { align, rise } = textSide(item, transform);
  const width = textWidthPt(item.text, item.sizePt, item.bold);
  const minXPt = align === 'start' ? at.xPt : align === 'end' ? at.xPt - width : at.xPt - width / 2;
  const em = item.sizePt;
  const across = { minXPt, maxXPt: minXPt + width };
  switch (rise) {
    case 'above':
      return {
        ...across,
        minYPt: at.yPt - (ASCENT_EM + DESCENT_EM) * em,
        maxYPt: at.yPt,
        baselinePt: at.yPt - DESCENT_EM * em,
      };
    case 'below':
      return {
        ...across,
        minYPt: at.yPt,
        maxYPt: at.yPt + (ASCENT_EM + DESCENT_EM) * em,
        baselinePt: at.yPt + ASCENT_EM * em,
      };
    case 'middle':
      return {
        ...across,
        minYPt: at.yPt - CENTRED_HALF_EM * em,
        maxYPt: at.yPt + CENTRED_HALF_EM * em,
        baselinePt: at.yPt + (CAP_HEIGHT_EM / 2) * em,
      };
    default:
      return assertNever(rise);
  }
}

/** True when two rectangles share more than a shared edge; `gapPt` asks for that much air between them. */
export function boxesOverlap(a: SheetBox, b: SheetBox, gapPt = 0): boolean {
  return (
    a.minXPt < b.maxXPt + gapPt &&
    b.minXPt < a.maxXPt + gapPt &&
    a.minYPt < b.maxYPt + gapPt &&
    b.minYPt < a.maxYPt + gapPt
  );
}
