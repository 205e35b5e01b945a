/** Where things lie on the side view's sheet: car, floor and fixture at one scale, the height detail beside them. */
import type { ElevationModel, ElevationRequest } from './elevationModel.ts';
import { scenePoint } from './pieces.ts';
import type { DetailFrame } from './planLayout.ts';
import type { SceneBounds } from './scene.ts';
import { boundsForSheet, type SheetTransform, sheetTransform } from './sceneView.ts';

/** The arrangement of a side view. */
export interface ElevationLayout {
  readonly bounds: SceneBounds;
  readonly transform: SheetTransform;
  readonly signScale: number;
  readonly detail: DetailFrame;
  /** The lowest drawn point of the floor on the sheet, points. */
  readonly floorPt: number;
}

const SCREEN_TEXT_PT = 14;
const LEAST_SIGN_SCALE = 0.7;
/** Lines of text over the drawing, under it, and over the detail, in text heights. */
const TOP_LINES = 1.2;
const BOTTOM_LINES = 3.2;
const DETAIL_TITLE_LINES = 1.9;
/** The most of the sheet's width that the detail takes. */
const DETAIL_SHARE = 0.32;

/** Arranges the sheet. */
export function elevationLayout(request: ElevationRequest, model: ElevationModel): ElevationLayout {
  const { sheet, textPt } = request;
  const room = sheet.heightPt - (DETAIL_TITLE_LINES + 0.6) * textPt;
  const radiusPt = Math.min(room / 2, (sheet.widthPt * DETAIL_SHARE) / 2);
  const widthPt = sheet.widthPt - 2 * radiusPt - 2 * textPt;
  const { car } = model.plan;
  const xs = model.floor.map((place) => place.aheadMm);
  const rises = model.floor.map((place) => model.factor * place.riseMm);
  const lowMm = Math.min(0, ...rises);
  const targetUp =
    Math.max(model.requiredUpMm ?? 0, model.foundUpMm ?? 0) + model.plan.fixture.boardWidthMm / 2;
  const highMm = Math.max(0, ...rises) + Math.max(car.heightMm, targetUp);
  const minX = Math.min(...xs);
  const spanX = Math.max(...xs) - minX;
  const ptPerMm = Math.min(
    (widthPt - textPt) / spanX,
    (sheet.heightPt - (TOP_LINES + BOTTOM_LINES) * textPt) / (highMm - lowMm),
  );
  const usedPt = (highMm - lowMm) * ptPerMm;
  const free = sheet.heightPt - (TOP_LINES + BOTTOM_LINES) * textPt - usedPt;
  const floorPt = TOP_LINES * textPt + free / 2 + usedPt;
  const anchor = { xPt: textPt + (widthPt - textPt - spanX * ptPerMm) / 2, yPt: floorPt };
  const bounds = boundsForSheet(sheet, 'level', 'ahead', ptPerMm, scenePoint(minX, lowMm), anchor);
  const transform = sheetTransform({ view: 'level', viewerAt: 'ahead', bounds, sheet });
  const centrePt = {
    xPt: sheet.widthPt - 0.6 * textPt - radiusPt,
    yPt: DETAIL_TITLE_LINES * textPt + room / 2,
  };
  return {
    bounds,
    transform,
    signScale: Math.max(LEAST_SIGN_SCALE, textPt / SCREEN_TEXT_PT),
    floorPt,
    detail: { centre: transform.toWorld(centrePt), radiusMm: radiusPt / ptPerMm, centrePt, radiusPt },
  };
}
