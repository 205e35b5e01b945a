/**
 * The plan: car, lines, readings and fixture to one scale in a column, and beside them the detail circle in which
 * millimetres can be seen. It draws whatever is known: a typical layout in pencil before the first reading, the
 * measured car after the datum, the fixture with its ellipse after placement.
 */
import { formatDeg, formatFixed } from '../units.ts';
import { DRAWING_WORDS } from '../words/drawing.ts';
import { templateOf } from '../words/index.ts';
import { fillTemplate } from '../words/say.ts';
import { detailItems, detailPlaces, moveArrows } from './detail.ts';
import { detailCaptions, detailLabels, detailObstacles } from './detailLabels.ts';
import { type DetailModel, detailModel } from './detailModel.ts';
import { type LabelWish, placeLabels, type SheetSegment } from './labels.ts';
import { line, scenePoint, sign } from './pieces.ts';
import { carItems, drawnThrust } from './planCar.ts';
import { deviationFigures, deviationText, planDimensions, stationPlace } from './planFigures.ts';
import { fixtureItems } from './planFixture.ts';
import { type PlanLayout, planLayout } from './planLayout.ts';
import { type PlanModel, type PlanRequest, planModel } from './planModel.ts';
import { pointSigns, type ReadingDrawing, readingDrawing } from './planReadings.ts';
import type { ArrowItem, Scene, SceneItem, ScenePoint, TextItem } from './scene.ts';

/** The decision rule's usual guard, standard uncertainties (design value, one-sided 95 %). */
const GUARD_FACTOR = 1.645;
/** Radius of the ring that marks on the plan what the detail shows, points. */
const LENS_RING_PT = 13;

function writingOf(request: PlanRequest) {
  return { textPt: request.textPt, decimalSign: request.decimalSign, unit: request.unit };
}

/** The ring about the target on the plan, and the two lines that open from it to the circle. */
function leader(model: PlanModel, layout: PlanLayout): readonly SceneItem[] {
  const face = (model.found ?? model.required)?.face;
  if (face === undefined) return [];
  const { transform, detail } = layout;
  const from = transform.toSheet(face);
  const dx = detail.centrePt.xPt - from.xPt;
  const dy = detail.centrePt.yPt - from.yPt;
  const distance = Math.hypot(dx, dy);
  const way = Math.atan2(dy, dx);
  // An outer tangent of two circles leaves both at the same angle from the line of their centres.
  const open = Math.acos(Math.max(-1, Math.min(1, (LENS_RING_PT - detail.radiusPt) / distance)));
  const tangent = (side: 1 | -1): SceneItem => {
    const at = (centre: { xPt: number; yPt: number }, radius: number): ScenePoint =>
      transform.toWorld({
        xPt: centre.xPt + radius * Math.cos(way + side * open),
        yPt: centre.yPt + radius * Math.sin(way + side * open),
      });
    return line([at(from, LENS_RING_PT), at(detail.centrePt, detail.radiusPt)], {
      role: 'hairline',
      pen: 'normal',
    });
  };
  return [
    tangent(1),
    tangent(-1),
    {
      kind: 'circle',
      centre: face,
      radiusMm: LENS_RING_PT / transform.ptPerMm,
      stroke: { role: 'ink', pen: 'thin' },
      fill: { role: 'sheet', tone: 'full' },
    },
  ];
}

/** Names of the two sides under the fixture's column, and a metre to compare with. */
function columnNotes(request: PlanRequest, model: PlanModel, layout: PlanLayout): readonly SceneItem[] {
  const { transform } = layout;
  const em = request.textPt;
  const left = transform.toSheet(model.points['barEnd.carLeft']);
  const right = transform.toSheet(model.points['barEnd.carRight']);
  const fixtureBelow = left.yPt > request.sheet.heightPt / 2;
  const yPt = fixtureBelow ? request.sheet.heightPt - 0.7 * em : 0.7 * em;
  const rise = fixtureBelow ? 'above' : 'below';
  const middle = (left.xPt + right.xPt) / 2;
  const name = (text: string, at: { xPt: number }, gap: number): TextItem => ({
    kind: 'text',
    at: transform.toWorld({ xPt: middle + (at.xPt < middle ? -gap : gap), yPt }),
    text,
    sizePt: em,
    bold: false,
    align: at.xPt < middle ? 'end' : 'start',
    rise,
    role: 'pencil',
    masked: false,
  });
  return [
    name(DRAWING_WORDS['drawing.carLeft'], left, 0.6 * em),
    name(DRAWING_WORDS['drawing.carRight'], right, 0.6 * em),
  ];
}

/** The name of the thrust line, where the column has room. */
function thrustLabel(request: PlanRequest, model: PlanModel, layout: PlanLayout): readonly LabelWish[] {
  const thrust = drawnThrust(model, layout);
  const angle = model.vehicle?.thrustLine?.angle.value;
  if (thrust === undefined || angle === undefined) return [];
  const name = fillTemplate(DRAWING_WORDS['drawing.thrust'], {
    angle: formatDeg(Math.abs(angle), 2, request.decimalSign),
  });
  const factor =
    thrust.factor === 1
      ? ''
      : `, ${fillTemplate(DRAWING_WORDS['drawing.thrust.factor'], { factor: formatFixed(thrust.factor, 0) })}`;
  const { transform, columnPt } = layout;
  const rear = transform.toSheet(thrust.from);
  const atTop = rear.yPt < request.sheet.heightPt / 2;
  const yPt = atTop ? 0.5 * request.textPt : request.sheet.heightPt - 0.5 * request.textPt;
  return [
    {
      text: `${name}${factor}`,
      sizePt: request.textPt,
      bold: false,
      role: 'pencil',
      masked: true,
      needed: true,
      spots: [
        { at: transform.toWorld({ xPt: rear.xPt, yPt }), align: 'middle', rise: atTop ? 'below' : 'above' },
        { at: transform.toWorld({ xPt: columnPt, yPt }), align: 'end', rise: atTop ? 'below' : 'above' },
      ],
    },
  ];
}

function arrowSegments(
  request: PlanRequest,
  model: PlanModel,
  layout: PlanLayout,
  detail: DetailModel,
): readonly SheetSegment[] {
  const move = request.answer?.moves[0];
  if (move === undefined) return [];
  const arrows = moveArrows(
    move,
    detail,
    detailPlaces(detail, layout.detail),
    model.fixture.barLengthMm,
    layout.transform.ptPerMm,
  );
  return arrows
    .filter((item): item is ArrowItem => item.kind === 'arrow')
    .map((arrow) => [layout.transform.toSheet(arrow.from), layout.transform.toSheet(arrow.to)] as const);
}

function detailPart(request: PlanRequest, model: PlanModel, layout: PlanLayout): readonly SceneItem[] {
  const detail = detailModel(model, layout, request.guardFactor ?? GUARD_FACTOR);
  if (detail === undefined) return [];
  const writing = writingOf(request);
  const obstacles = detailObstacles(
    detail,
    layout.detail,
    arrowSegments(request, model, layout, detail),
    layout.transform,
  );
  const isExpected = model.finding?.basis === 'expected';
  const foundText = DRAWING_WORDS[isExpected ? 'drawing.expected' : 'drawing.found'];
  return [
    ...detailItems(detail, layout.detail, request.answer?.moves[0], model.fixture.barLengthMm),
    ...detailCaptions(detail, layout.detail, writing, layout.transform),
    ...detailLabels(detail, layout.detail, obstacles, writing, foundText, layout.transform),
  ];
}

/** What the drawing shows, in words, for who cannot see it and for the certificate's tags. */
function descriptionOf(
  request: PlanRequest,
  model: PlanModel,
  layout: PlanLayout,
  readings: ReadingDrawing,
): string {
  const next =
    readings.next === undefined
      ? ''
      : ` ${fillTemplate(DRAWING_WORDS['drawing.plan.next'], {
          reading: templateOf(readings.next.label) ?? readings.next.id,
        })}`;
  const { finding } = model;
  if (finding === undefined) {
    const known = model.datumKnown ? 'drawing.plan.datum' : 'drawing.plan.typical';
    return `${DRAWING_WORDS[known]}${next}`;
  }
  const place = stationPlace(layout, finding);
  const text = (coordinate: 'ahead' | 'left' | 'yaw'): string => {
    const found = finding.coordinates.find((each) => each.coordinate === coordinate);
    return found === undefined ? '' : deviationText(request, place, found);
  };
  const found = fillTemplate(DRAWING_WORDS['drawing.plan.found'], {
    ahead: text('ahead'),
    left: text('left'),
    yaw: text('yaw'),
  });
  return `${found}${next}`;
}

/**
 * The plan scene of a request. Touchable items carry the slot key of their reading as `pick`.
 *
 * `planScene({ sheet: { widthPt: 700, heightPt: 520 }, textPt: 14, view: 'asIStand', decimalSign: '.', unit: 'mm',
 * stations: [], recipe: [], taken: [], withFigures: false })` draws a typical car and nothing else.
 */
export function planScene(request: PlanRequest): Scene {
  const model = planModel(request);
  const layout = planLayout(request, model);
  const readings = readingDrawing(request, model, layout);
  const within = {
    minXPt: 0,
    minYPt: 0,
    maxXPt: request.sheet.widthPt,
    maxYPt: request.sheet.heightPt,
  };
  const items: readonly SceneItem[] = [
    ...leader(model, layout),
    ...carItems(model, layout),
    ...readings.lines,
    ...fixtureItems(model),
    ...pointSigns(model),
    ...(model.vehicle?.bodyFaceAheadMm === undefined
      ? []
      : [sign(scenePoint(model.vehicle.bodyFaceAheadMm, 0), 'dot', 5, 'ink')]),
    ...planDimensions(request, model, layout),
    ...columnNotes(request, model, layout),
    ...placeLabels(
      thrustLabel(request, model, layout),
      { boxes: [], segments: [], within },
      layout.transform,
    ),
    ...detailPart(request, model, layout),
    ...deviationFigures(request, model, layout),
  ];
  return {
    title: DRAWING_WORDS['drawing.plan.title'],
    description: descriptionOf(request, model, layout, readings),
    view: request.view,
    viewerAt: layout.viewerAt,
    sheet: request.sheet,
    bounds: layout.bounds,
    items,
  };
}
