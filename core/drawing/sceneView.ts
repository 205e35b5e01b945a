/**
 * From the world of a scene to its sheet: one even scale and one turn, never a mirror, so that the car's left stays
 * on the side where the viewer has it. The sheet's x runs to the right and its y runs down, in points.
 */
import { invariant } from '../result.ts';
import type {
  Scene,
  SceneBounds,
  ScenePoint,
  SceneView,
  Sheet,
  TextAlign,
  TextRise,
  ViewerPlace,
} from './scene.ts';

/** A place on the sheet, points, from its upper corner on the left of one who holds it. */
export interface SheetPoint {
  readonly xPt: number;
  readonly yPt: number;
}

/** A direction in the world; only its way counts. */
interface Way {
  readonly x: number;
  readonly y: number;
}

/** How a scene lies on its sheet. */
export interface SheetTransform {
  /** Points of the sheet for one millimetre of the world. */
  readonly ptPerMm: number;
  /** True when this view is half a turn from the one the scene was composed for. */
  readonly halfTurned: boolean;
  /** A world point on the sheet. */
  readonly toSheet: (point: ScenePoint) => SheetPoint;
  /** A point of the sheet in the world. */
  readonly toWorld: (point: SheetPoint) => ScenePoint;
}

/** The world's direction that points up the sheet: the way the viewer faces. */
function upWay(view: SceneView, viewerAt: ViewerPlace): Way {
  if (view === 'level') return { x: 0, y: 1 };
  if (view === 'carUp') return { x: 1, y: 0 };
  switch (viewerAt) {
    case 'ahead':
      return { x: -1, y: 0 };
    case 'behind':
      return { x: 1, y: 0 };
    case 'carLeft':
      return { x: 0, y: -1 };
    case 'carRight':
      return { x: 0, y: 1 };
  }
}

/** The direction to the viewer's right hand: `up` turned a quarter clockwise, which is what forbids a mirror. */
const rightWay = (up: Way): Way => ({ x: up.y, y: -up.x });

const dot = (way: Way, point: ScenePoint): number => way.x * point.xMm + way.y * point.yMm;

/**
 * The transform that fits `bounds` into `sheet`, centred. `view` may differ from the one the scene was composed for.
 * In `asIStand` with the viewer ahead, a point to the car's left lands on the viewer's right-hand side.
 */
export function sheetTransform(
  scene: Pick<Scene, 'view' | 'viewerAt' | 'bounds' | 'sheet'>,
  view: SceneView = scene.view,
): SheetTransform {
  const up = upWay(view, scene.viewerAt);
  const right = rightWay(up);
  const composedUp = upWay(scene.view, scene.viewerAt);
  const { widthMm, heightMm } = turnedSize(scene.bounds, right);
  const ptPerMm = fitScale(widthMm, heightMm, scene.sheet);
  const middle: ScenePoint = {
    xMm: (scene.bounds.minXMm + scene.bounds.maxXMm) / 2,
    yMm: (scene.bounds.minYMm + scene.bounds.maxYMm) / 2,
  };
  const half = { xPt: scene.sheet.widthPt / 2, yPt: scene.sheet.heightPt / 2 };
  return {
    ptPerMm,
    halfTurned: up.x * composedUp.x + up.y * composedUp.y === -1,
    toSheet: (point) => ({
      xPt: half.xPt + ptPerMm * (dot(right, point) - dot(right, middle)),
      yPt: half.yPt - ptPerMm * (dot(up, point) - dot(up, middle)),
    }),
    toWorld: (point) => {
      const along = (point.xPt - half.xPt) / ptPerMm;
      const rise = (half.yPt - point.yPt) / ptPerMm;
      return {
        xMm: middle.xMm + right.x * along + up.x * rise,
        yMm: middle.yMm + right.y * along + up.y * rise,
      };
    },
  };
}

function turnedSize(bounds: SceneBounds, right: Way): { widthMm: number; heightMm: number } {
  const spanX = bounds.maxXMm - bounds.minXMm;
  const spanY = bounds.maxYMm - bounds.minYMm;
  return right.x === 0 ? { widthMm: spanY, heightMm: spanX } : { widthMm: spanX, heightMm: spanY };
}

function fitScale(widthMm: number, heightMm: number, sheet: Sheet): number {
  invariant(widthMm > 0 && heightMm > 0, `a scene needs an area, got ${widthMm} by ${heightMm} mm`);
  return Math.min(sheet.widthPt / widthMm, sheet.heightPt / heightMm);
}

/**
 * The bounds of the world that fill `sheet` exactly at a given scale, so that a composer can place things by sheet
 * position. `anchorWorld` lands at `anchorSheet`.
 */
export function boundsForSheet(
  sheet: Sheet,
  view: SceneView,
  viewerAt: ViewerPlace,
  ptPerMm: number,
  anchorWorld: ScenePoint,
  anchorSheet: SheetPoint,
): SceneBounds {
  const up = upWay(view, viewerAt);
  const right = rightWay(up);
  const corner = (xPt: number, yPt: number): ScenePoint => {
    const along = (xPt - anchorSheet.xPt) / ptPerMm;
    const rise = (anchorSheet.yPt - yPt) / ptPerMm;
    return {
      xMm: anchorWorld.xMm + right.x * along + up.x * rise,
      yMm: anchorWorld.yMm + right.y * along + up.y * rise,
    };
  };
  const a = corner(0, 0);
  const b = corner(sheet.widthPt, sheet.heightPt);
  return {
    minXMm: Math.min(a.xMm, b.xMm),
    minYMm: Math.min(a.yMm, b.yMm),
    maxXMm: Math.max(a.xMm, b.xMm),
    maxYMm: Math.max(a.yMm, b.yMm),
  };
}

const OPPOSITE_ALIGN: Readonly<Record<TextAlign, TextAlign>> = {
  start: 'end',
  middle: 'middle',
  end: 'start',
};
const OPPOSITE_RISE: Readonly<Record<TextRise, TextRise>> = {
  above: 'below',
  middle: 'middle',
  below: 'above',
};

/** Align and rise of a text in this view: swapped when the sheet is half a turn from the composed one. */
export function textSide(
  text: { readonly align: TextAlign; readonly rise: TextRise },
  transform: SheetTransform,
): { readonly align: TextAlign; readonly rise: TextRise } {
  return transform.halfTurned
    ? { align: OPPOSITE_ALIGN[text.align], rise: OPPOSITE_RISE[text.rise] }
    : { align: text.align, rise: text.rise };
}
