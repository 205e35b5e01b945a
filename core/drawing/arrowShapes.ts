/** Arrows on the sheet: a shaft and a filled head whose size belongs to the paper. */
import type { Stroke } from './scene.ts';
import type { SheetPoint } from './sceneView.ts';
import { pathStroke, type SheetShape, straightPath } from './sheetShape.ts';

/** The part of a short arrow that its head may take, so that a small move still shows a shaft. */
const HEAD_SHARE = 0.75;

/**
 * Shaft and head from `from` to `to`. `headPt` is the head's length, `slender` its width as a share of its length.
 * An arrow without length has no way to point and gives no shape.
 */
export function arrowShapes(
  from: SheetPoint,
  to: SheetPoint,
  headPt: number,
  slender: number,
  stroke: Stroke,
): readonly SheetShape[] {
  const length = Math.hypot(to.xPt - from.xPt, to.yPt - from.yPt);
  if (length < 1e-9) return [];
  const x = (to.xPt - from.xPt) / length;
  const y = (to.yPt - from.yPt) / length;
  const head = Math.min(headPt, length * HEAD_SHARE);
  const half = (head * slender) / 2;
  const neck = { xPt: to.xPt - x * head, yPt: to.yPt - y * head };
  const wings = [
    { xPt: neck.xPt - y * half, yPt: neck.yPt + x * half },
    to,
    { xPt: neck.xPt + y * half, yPt: neck.yPt - x * half },
  ];
  return [
    { kind: 'path', commands: straightPath([from, neck], false), stroke: pathStroke(stroke) },
    { kind: 'path', commands: straightPath(wings, true), fill: { role: stroke.role, tone: 'full' } },
  ];
}
