/**
 * The side view: the car on the true floor, gravity's level, the plane of the tyres carried on to the target, and the
 * heights counted from it. Seen from the car's right, nose to the right. Floor rises are enlarged by a stated factor.
 */
import { formatFixed, mmPerMFromRad } from '../units.ts';
import { say } from '../words/index.ts';
import { carSide } from './carSide.ts';
import { heightItems } from './elevationHeights.ts';
import { type ElevationLayout, elevationLayout } from './elevationLayout.ts';
import {
  type ElevationModel,
  type ElevationRequest,
  elevationModel,
  overFloor,
  overPlane,
} from './elevationModel.ts';
import { touchItems } from './elevationTouches.ts';
import { heightDetail } from './heightDetail.ts';
import { line, scenePoint, sign } from './pieces.ts';
import type { Scene, SceneItem, ScenePoint, Stroke, TextItem } from './scene.ts';

/** A slope under this is level, mm/m. */
const LEVEL_MM_PER_M = 0.05;

function floorText(request: ElevationRequest, model: ElevationModel): string {
  const slope = mmPerMFromRad(model.slopeRad);
  const key =
    Math.abs(slope) < LEVEL_MM_PER_M
      ? 'drawing.elevation.flat'
      : slope > 0
        ? 'drawing.elevation.rising'
        : 'drawing.elevation.falling';
  const text =
    key === 'drawing.elevation.flat'
      ? say(key)
      : say(key, { slope: formatFixed(Math.abs(slope), 1, request.decimalSign) });
  if (model.factor === 1) return text;
  return say('drawing.elevation.factor', {
    floor: text,
    factor: formatFixed(model.factor, 0),
  });
}

/** Depth of the pale ground under the floor line, points. */
const GROUND_PT = 5;

function floorItems(
  request: ElevationRequest,
  model: ElevationModel,
  layout: ElevationLayout,
): readonly SceneItem[] {
  const surface = model.floor.map((place) => overFloor(model, place.aheadMm, 0));
  const depth = GROUND_PT / layout.transform.ptPerMm;
  const under = surface.map((place) => scenePoint(place.xMm, place.yMm - depth)).reverse();
  const first = model.floor[0]?.aheadMm ?? 0;
  const last = model.floor[model.floor.length - 1]?.aheadMm ?? 0;
  const level: readonly SceneItem[] =
    model.factor === 1
      ? []
      : [line([scenePoint(first, 0), scenePoint(last, 0)], { role: 'pencil', pen: 'thin', dash: 'dashDot' })];
  const { textPt } = request;
  const note: TextItem = {
    kind: 'text',
    at: layout.transform.toWorld({ xPt: textPt, yPt: layout.floorPt + 1.1 * textPt }),
    text: model.vehicle === undefined ? say('drawing.typical') : floorText(request, model),
    sizePt: textPt,
    bold: false,
    align: 'start',
    rise: 'below',
    role: 'pencil',
    masked: false,
  };
  return [
    {
      kind: 'polyline',
      closed: true,
      points: [...surface, ...under],
      fill: { role: 'pencil', tone: 'pale' },
    },
    ...level,
    line(surface, { role: 'ink', pen: 'normal' }),
    note,
  ];
}

/** The car tilted as the enlarged plane of its tyres. */
function carItems(model: ElevationModel): readonly SceneItem[] {
  const tilt = Math.atan(model.factor * Math.tan(model.slopeRad));
  const stand = (x: number, y: number): ScenePoint =>
    scenePoint(x * Math.cos(tilt) - y * Math.sin(tilt), x * Math.sin(tilt) + y * Math.cos(tilt));
  return carSide(model.plan.car, model.plan.datumKnown ? 'ink' : 'pencil', stand);
}

/** Drawn thickness of the board, mm. */
const BOARD_DEPTH_MM = 45;

function boardItem(
  face: ScenePoint,
  towardCar: 1 | -1,
  sizeMm: number,
  stroke: Stroke,
  filled: boolean,
): SceneItem {
  const away = face.xMm - towardCar * BOARD_DEPTH_MM;
  const low = face.yMm - sizeMm / 2;
  const high = face.yMm + sizeMm / 2;
  return {
    kind: 'polyline',
    closed: true,
    points: [
      scenePoint(face.xMm, low),
      scenePoint(face.xMm, high),
      scenePoint(away, high),
      scenePoint(away, low),
    ],
    stroke,
    ...(filled ? { fill: { role: 'accent', tone: 'pale' } } : {}),
  };
}

function fixtureItems(model: ElevationModel, layout: ElevationLayout): readonly SceneItem[] {
  const { requiredUpMm, foundUpMm, targetAheadMm, plan } = model;
  if (requiredUpMm === undefined) return [];
  const size = plan.fixture.boardWidthMm;
  const towardCar = targetAheadMm > 0 ? -1 : 1;
  const required = overPlane(model, plan.required?.face.xMm ?? targetAheadMm, requiredUpMm);
  const role = plan.datumKnown ? 'ink' : 'pencil';
  const dashed: Stroke = { role, pen: 'normal', dash: 'dashed' };
  const asRequired = [
    boardItem(required, towardCar, size, dashed, false),
    ...(foundUpMm === undefined ? [sign(required, 'centre', 9 * layout.signScale, role)] : []),
  ];
  if (foundUpMm === undefined) return asRequired;
  const face = overPlane(model, targetAheadMm, foundUpMm);
  const mast = plan.found?.bar.xMm ?? targetAheadMm;
  const foot = overFloor(model, mast, 0);
  const pen: Stroke = { role: 'accent', pen: 'normal' };
  return [
    ...asRequired,
    line([foot, scenePoint(mast, face.yMm + 0.55 * size)], { ...pen, pen: 'thick' }),
    line([overFloor(model, mast - 300, 0), overFloor(model, mast + 300, 0)], { ...pen, pen: 'thick' }),
    boardItem(face, towardCar, size, pen, true),
    sign(face, 'centre', 9 * layout.signScale, 'accent'),
  ];
}

/** The side view of a request; the fields it shares with the plan mean the same. */
export function elevationScene(request: ElevationRequest): Scene {
  const model = elevationModel(request);
  const layout = elevationLayout(request, model);
  const description =
    model.vehicle === undefined
      ? say('drawing.elevation.typical')
      : say('drawing.elevation.measured', { floor: floorText(request, model) });
  return {
    title: say('drawing.elevation.title'),
    description,
    view: 'level',
    viewerAt: 'ahead',
    sheet: request.sheet,
    bounds: layout.bounds,
    items: [
      ...floorItems(request, model, layout),
      ...carItems(model),
      ...heightItems(request, model, layout),
      ...fixtureItems(model, layout),
      ...heightDetail(request, model, layout),
      ...touchItems(request, model, layout),
    ],
  };
}
