/**
 * Where things lie on a plan's sheet: the car and the fixture in a column on one side, as large as the height allows,
 * and the detail circle, the heart of the drawing, in all the room beside it.
 */
import type { TargetPlace } from '../frames.ts';
import { targetPlace } from '../frames.ts';
import { scenePoint } from './pieces.ts';
import type { PlanModel, PlanRequest } from './planModel.ts';
import type { SceneBounds, ScenePoint, Sheet, ViewerPlace } from './scene.ts';
import { boundsForSheet, type SheetPoint, type SheetTransform, sheetTransform } from './sceneView.ts';
import { textWidthPt } from './textSize.ts';

/** The detail circle: where it stands and its radius, in the world and on the sheet. */
export interface DetailFrame {
  readonly centre: ScenePoint;
  readonly radiusMm: number;
  readonly centrePt: SheetPoint;
  readonly radiusPt: number;
}

/** The whole arrangement. */
export interface PlanLayout {
  readonly viewerAt: ViewerPlace;
  readonly bounds: SceneBounds;
  readonly transform: SheetTransform;
  readonly columnPt: number;
  /** Size of signs: 1 beside the 14 px text of the screen, smaller beside the smaller text of paper. */
  readonly signScale: number;
  readonly detail: DetailFrame;
}

/** Room between the fixture's bar and the far side of what is drawn behind it, mm. */
const BEHIND_BAR_MM = 380;
/** The text size for which signs have their plain size, and the least they shrink to. */
const SCREEN_TEXT_PT = 14;
const LEAST_SIGN_SCALE = 0.7;
/** Part of the sheet's width that the column may take. */
const COLUMN_SHARE = 0.46;

/** Where the target stands, which is where the viewer stands. */
export function placeOf(model: PlanModel): TargetPlace {
  if (model.requirement !== undefined) return model.requirement.place;
  const front = model.car.wheelbaseMm + model.car.frontOverhangMm;
  const face = model.points.target;
  return targetPlace({ aheadMm: face.xMm, leftMm: face.yMm }, front, -model.car.rearOverhangMm);
}

/** Corners of everything at car scale. */
function extent(model: PlanModel): readonly ScenePoint[] {
  const { car, points } = model;
  const front = car.wheelbaseMm + car.frontOverhangMm;
  const behindBar = (end: ScenePoint): ScenePoint => {
    const facing = (model.found ?? model.required)?.facingRad ?? Math.PI;
    return scenePoint(end.xMm - BEHIND_BAR_MM * Math.cos(facing), end.yMm - BEHIND_BAR_MM * Math.sin(facing));
  };
  return [
    scenePoint(front, car.widthMm / 2),
    scenePoint(-car.rearOverhangMm, -car.widthMm / 2),
    ...Object.values(points),
    behindBar(points['barEnd.carLeft']),
    behindBar(points['barEnd.carRight']),
  ];
}

interface SheetExtent {
  readonly minXPt: number;
  readonly maxXPt: number;
  readonly minYPt: number;
  readonly maxYPt: number;
}

/** The extent on a sheet of scale 1 with the world's zero at its upper corner: turned as the view asks. */
function turnedExtent(
  corners: readonly ScenePoint[],
  view: PlanRequest['view'],
  viewerAt: ViewerPlace,
): SheetExtent {
  const unit: Sheet = { widthPt: 2, heightPt: 2 };
  const bounds = { minXMm: -1, minYMm: -1, maxXMm: 1, maxYMm: 1 };
  const turn = sheetTransform({ view, viewerAt, bounds, sheet: unit });
  const places = corners.map(turn.toSheet);
  const xs = places.map((place) => place.xPt - 1);
  const ys = places.map((place) => place.yPt - 1);
  return {
    minXPt: Math.min(...xs),
    maxXPt: Math.max(...xs),
    minYPt: Math.min(...ys),
    maxYPt: Math.max(...ys),
  };
}

/** Margins of the column in points: dimensions stand on the side away from the detail. */
function columnMargins(request: PlanRequest): {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
} {
  const em = request.textPt;
  return {
    left: textWidthPt('2700.0 mm', em, false) + 2.2 * em,
    right: 1.6 * em,
    top: 2.6 * em,
    bottom: 2.6 * em,
  };
}

/** Lines of figures under the detail, and the title and key around it, in text heights. */
const TITLE_LINES = 1.9;
const KEY_LINES = 1.9;
const FIGURE_LINES = 5.2;

function detailFrame(request: PlanRequest, columnPt: number, transform: SheetTransform): DetailFrame {
  const { sheet, textPt } = request;
  const top = TITLE_LINES * textPt;
  const bottom = (KEY_LINES + (request.medium === 'paper' ? FIGURE_LINES : 0)) * textPt;
  const room = { width: sheet.widthPt - columnPt - textPt, height: sheet.heightPt - top - bottom };
  const radiusPt = Math.min(room.width, room.height) / 2;
  const centrePt = { xPt: columnPt + room.width / 2, yPt: top + room.height / 2 };
  return {
    centre: transform.toWorld(centrePt),
    radiusMm: radiusPt / transform.ptPerMm,
    centrePt,
    radiusPt,
  };
}

/** Arranges the sheet for a model. */
export function planLayout(request: PlanRequest, model: PlanModel): PlanLayout {
  const viewerAt = placeOf(model);
  const { sheet, view } = request;
  const margins = columnMargins(request);
  const box = turnedExtent(extent(model), view, viewerAt);
  const width = box.maxXPt - box.minXPt;
  const height = box.maxYPt - box.minYPt;
  const ptPerMm = Math.min(
    (sheet.heightPt - margins.top - margins.bottom) / height,
    (sheet.widthPt * COLUMN_SHARE - margins.left - margins.right) / width,
  );
  const spareY = sheet.heightPt - margins.top - margins.bottom - height * ptPerMm;
  const zero = {
    xPt: margins.left - box.minXPt * ptPerMm,
    yPt: margins.top + spareY / 2 - box.minYPt * ptPerMm,
  };
  const bounds = boundsForSheet(sheet, view, viewerAt, ptPerMm, scenePoint(0, 0), zero);
  const transform = sheetTransform({ view, viewerAt, bounds, sheet });
  const columnPt = margins.left + width * ptPerMm + margins.right;
  return {
    viewerAt,
    bounds,
    transform,
    columnPt,
    signScale: Math.max(LEAST_SIGN_SCALE, request.textPt / SCREEN_TEXT_PT),
    detail: detailFrame(request, columnPt, transform),
  };
}
