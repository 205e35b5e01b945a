/** Figures of the plan: the chain of dimensions beside the car, and on paper the deviations under the detail. */
import type { CoordinateFinding, StationFinding } from '../placement/finding.ts';
import { formatDeg, formatLength, wrapRad } from '../units.ts';
import { deviationInWords } from '../words/direction.ts';
import { say } from '../words/index.ts';
import { scenePoint } from './pieces.ts';
import type { PlanLayout } from './planLayout.ts';
import type { PlanModel, PlanRequest } from './planModel.ts';
import type { DimensionItem, SceneItem, ScenePoint, TextItem } from './scene.ts';
import { textWidthPt } from './textSize.ts';

/** Decimals of printed lengths (0.1 mm) and angles (0.01 degree), as everywhere in the product. */
const LENGTH_DECIMALS = 1;
const ANGLE_DECIMALS = 2;

function lengthText(request: PlanRequest, valueMm: number): string {
  return formatLength(valueMm, LENGTH_DECIMALS, request.unit, request.decimalSign);
}

/** A dimension parallel to the car on the side of the sheet away from the detail. */
function chainPiece(
  request: PlanRequest,
  layout: PlanLayout,
  offsetMm: number,
  measured: readonly [ScenePoint, ScenePoint],
  valueMm: number,
  uncertaintyMm: number | undefined,
): DimensionItem {
  const from = scenePoint(measured[0].xMm, offsetMm);
  const to = scenePoint(measured[1].xMm, offsetMm);
  const gap = (0.5 * request.textPt) / layout.transform.ptPerMm;
  return {
    kind: 'dimension',
    measured,
    from,
    to,
    textAt: scenePoint((from.xMm + to.xMm) / 2, offsetMm + Math.sign(offsetMm) * gap),
    align: 'end',
    rise: 'middle',
    valueText: lengthText(request, valueMm),
    ...(uncertaintyMm === undefined
      ? {}
      : {
          uncertaintyText: say('drawing.uncertainty', {
            amount: lengthText(request, uncertaintyMm),
          }),
        }),
    sizePt: request.textPt,
    role: 'ink',
  };
}

/** Coverage of a printed U where only u and dof are at hand: about 95 % (design value 2). */
const U_FACTOR = 2;

/** The side of the car that lies away from the detail circle: -1 is the car's right. */
function outerSide(layout: PlanLayout): 1 | -1 {
  const zero = layout.transform.toSheet(scenePoint(0, 0)).xPt;
  return layout.transform.toSheet(scenePoint(0, 1000)).xPt < zero ? 1 : -1;
}

/** Wheelbase, and from the ahead datum to the required target. Only for a car that lies along the sheet's height. */
export function planDimensions(
  request: PlanRequest,
  model: PlanModel,
  layout: PlanLayout,
): readonly SceneItem[] {
  if (layout.viewerAt === 'carLeft' || layout.viewerAt === 'carRight') return [];
  const side = outerSide(layout);
  const { points, vehicle, requirement, required } = model;
  const outermost = Math.max(...Object.values(points).map((each) => side * each.yMm));
  const offset = side * (outermost + (0.9 * request.textPt) / layout.transform.ptPerMm);
  const wheels = side === 1 ? (['hub.RL', 'hub.FL'] as const) : (['hub.RR', 'hub.FR'] as const);
  const wheelbase = chainPiece(
    request,
    layout,
    offset,
    [points[wheels[0]], points[wheels[1]]],
    vehicle?.wheelbase.value ?? model.car.wheelbaseMm,
    vehicle === undefined ? undefined : U_FACTOR * vehicle.wheelbase.u,
  );
  if (requirement === undefined || required === undefined) return [wheelbase];
  const valueMm = Math.abs(requirement.ahead.value);
  const datum = scenePoint(required.face.xMm - requirement.ahead.value, 0);
  const toTarget = chainPiece(request, layout, offset, [datum, required.face], valueMm, undefined);
  return [{ ...wheelbase, role: vehicle === undefined ? 'pencil' : 'ink' }, toTarget];
}

const FIGURE_COORDINATES = ['ahead', 'left', 'yaw'] as const;

/** The words of one deviation, for example "4.0 mm toward the car". */
export function deviationText(request: PlanRequest, place: StationPlace, finding: CoordinateFinding): string {
  const isTurn = finding.coordinate === 'yaw';
  const deviation = isTurn ? wrapRad(finding.deviation) : finding.deviation;
  const words = deviationInWords(finding.coordinate, deviation, place);
  const amount = isTurn
    ? formatDeg(Math.abs(deviation), ANGLE_DECIMALS, request.decimalSign)
    : lengthText(request, Math.abs(deviation));
  return say(words.key, words.key === 'dir.none' ? {} : { amount });
}

/** Where a target stands and how it faces, for its words. */
export type StationPlace = Parameters<typeof deviationInWords>[2];

/** The station's place for its words. */
export function stationPlace(layout: PlanLayout, finding: StationFinding): StationPlace {
  return { place: layout.viewerAt, facingYawRad: finding.required.yawRad };
}

/** On paper: deviation and U of ahead, side and turn under the detail's key. */
export function deviationFigures(
  request: PlanRequest,
  model: PlanModel,
  layout: PlanLayout,
): readonly TextItem[] {
  const { finding } = model;
  if (request.medium !== 'paper' || finding === undefined) return [];
  const em = request.textPt;
  const { centrePt, radiusPt } = layout.detail;
  const leftPt = layout.columnPt;
  const place = stationPlace(layout, finding);
  const rows = FIGURE_COORDINATES.flatMap((coordinate) => {
    const found = finding.coordinates.find((each) => each.coordinate === coordinate);
    return found === undefined ? [] : [found];
  });
  const widest = Math.max(...rows.map((row) => textWidthPt(deviationText(request, place, row), em, false)));
  const uPt = Math.min(leftPt + widest + 2 * em, request.sheet.widthPt - 8 * em);
  return rows.flatMap((row, index): readonly TextItem[] => {
    const yPt = centrePt.yPt + radiusPt + (2.6 + index * 1.45) * em;
    const common = { kind: 'text', sizePt: em, bold: false, rise: 'below', masked: false } as const;
    const U =
      row.coordinate === 'yaw'
        ? formatDeg(row.U, ANGLE_DECIMALS, request.decimalSign)
        : lengthText(request, row.U);
    return [
      {
        ...common,
        at: layout.transform.toWorld({ xPt: leftPt, yPt }),
        text: deviationText(request, place, row),
        align: 'start',
        role: 'ink',
      },
      {
        ...common,
        at: layout.transform.toWorld({ xPt: uPt, yPt }),
        text: say('drawing.uncertainty', { amount: U }),
        align: 'start',
        role: 'pencil',
      },
    ];
  });
}
