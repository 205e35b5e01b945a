/** Heights of the side view: the plane of the tyres carried on to the target, and the target's height over it. */
import { formatLength } from '../units.ts';
import { say } from '../words/index.ts';
import { dimensionTexts } from './dimensionShapes.ts';
import type { ElevationLayout } from './elevationLayout.ts';
import { type ElevationModel, type ElevationRequest, overPlane } from './elevationModel.ts';
import { between, line, scenePoint } from './pieces.ts';
import type { DimensionItem, SceneItem } from './scene.ts';
import { boxesOverlap, type SheetBox, textBox } from './textBox.ts';

/** The car's deck as a share of its height, and where its cabin begins behind the rear axle and ends before the front one, mm. */
const DECK_SHARE = 0.7;
const CABIN_FROM_MM = -300;
/** How far the line of the height stands off the target's face, points. */
const LINE_OFF_PT = 15;
/** Where along its line the value of the height may stand, best first: over the bonnet, half way, lower. */
const HEIGHT_SHARES = [0.82, 0.5, 0.66, 0.3] as const;

/** Rough frames of the car's body and cabin on the sheet, for a text to keep off. */
function carBoxes(model: ElevationModel, layout: ElevationLayout): readonly SheetBox[] {
  const { car } = model.plan;
  const frame = (fromMm: number, toMm: number, upMm: number): SheetBox => {
    const a = layout.transform.toSheet(overPlane(model, fromMm, 0));
    const b = layout.transform.toSheet(overPlane(model, toMm, upMm));
    return { minXPt: a.xPt, maxXPt: b.xPt, minYPt: b.yPt, maxYPt: Math.max(a.yPt, b.yPt) };
  };
  const front = car.wheelbaseMm + car.frontOverhangMm;
  return [
    frame(-car.rearOverhangMm, front, DECK_SHARE * car.heightMm),
    frame(CABIN_FROM_MM, car.wheelbaseMm - CABIN_FROM_MM, car.heightMm),
  ];
}

/** The value of the height beside its line: found with its U, else required. */
function heightDimension(
  request: ElevationRequest,
  model: ElevationModel,
  layout: ElevationLayout,
  heightMm: number,
): DimensionItem {
  const { targetAheadMm } = model;
  const toward = targetAheadMm > 0 ? 1 : -1;
  const up = model.plan.finding?.coordinates.find((each) => each.coordinate === 'up');
  const offset = targetAheadMm - toward * (LINE_OFF_PT / layout.transform.ptPerMm);
  const text = (mm: number): string => formatLength(mm, 1, request.unit, request.decimalSign);
  const from = overPlane(model, offset, 0);
  const to = scenePoint(offset, overPlane(model, targetAheadMm, heightMm).yMm);
  const gapMm = (toward * 0.5 * request.textPt) / layout.transform.ptPerMm;
  const dimension: Omit<DimensionItem, 'textAt'> = {
    kind: 'dimension',
    measured: [overPlane(model, targetAheadMm, 0), overPlane(model, targetAheadMm, heightMm)],
    from,
    to,
    align: toward > 0 ? 'end' : 'start',
    rise: 'middle',
    valueText: text(heightMm),
    ...(up === undefined ? {} : { uncertaintyText: say('drawing.uncertainty', { amount: text(up.U) }) }),
    sizePt: request.textPt,
    role: 'ink',
  };
  const spots = HEIGHT_SHARES.map((share) => {
    const at = between(from, to, share);
    return scenePoint(at.xMm - gapMm, at.yMm);
  });
  const inTheWay = carBoxes(model, layout);
  const free = spots.find((textAt) =>
    dimensionTexts({ ...dimension, textAt }, false).every((line) => {
      const box = textBox(line, layout.transform);
      return !inTheWay.some((other) => boxesOverlap(box, other));
    }),
  );
  return { ...dimension, textAt: free ?? spots[0] ?? from };
}

/** The plane of the tyres carried on to the target, and the height over it. */
export function heightItems(
  request: ElevationRequest,
  model: ElevationModel,
  layout: ElevationLayout,
): readonly SceneItem[] {
  const { requiredUpMm, targetAheadMm, plan } = model;
  if (requiredUpMm === undefined) return [];
  const toward = targetAheadMm > 0 ? 1 : -1;
  const start = toward > 0 ? plan.car.wheelbaseMm + plan.car.frontOverhangMm : -plan.car.rearOverhangMm;
  const past = targetAheadMm + toward * (26 / layout.transform.ptPerMm);
  return [
    line([overPlane(model, start, 0), overPlane(model, past, 0)], {
      role: 'ink',
      pen: 'thin',
      dash: 'dashed',
    }),
    heightDimension(request, model, layout, model.foundUpMm ?? requiredUpMm),
  ];
}
