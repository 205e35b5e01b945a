/**
 * The plan: car, lines, readings and fixture to one scale in a column, and beside them the detail circle in which
 * millimetres can be seen. It draws whatever is known: a typical layout in pencil before the first reading, the
 * measured car after the datum, the fixture with its ellipse after placement.
 */
import { formatDeg, formatFixed } from '../units.ts';
import { say } from '../words/index.ts';
import { detailPart } from './detailPart.ts';
import { between, line, scenePoint, sign } from './pieces.ts';
import { carItems, drawnThrust } from './planCar.ts';
import { deviationFigures, deviationText, planDimensions, stationPlace } from './planFigures.ts';
import { fixtureItems } from './planFixture.ts';
import { type PlanLayout, planLayout } from './planLayout.ts';
import { type PlanModel, type PlanRequest, planModel } from './planModel.ts';
import { pointSigns, type ReadingDrawing, readingDrawing, readingWords } from './planReadings.ts';
import type { Scene, SceneItem, Stroke, TextItem } from './scene.ts';

/** Radius of the ring that marks on the plan what the detail shows, points. */
const LENS_RING_PT = 13;

/** The ring about the target on the plan, and the line that leads from it to the circle. */
function leader(model: PlanModel, layout: PlanLayout): readonly SceneItem[] {
  const face = (model.found ?? model.required)?.face;
  if (face === undefined) return [];
  const { transform, detail } = layout;
  const from = transform.toSheet(face);
  const ringPt = LENS_RING_PT * layout.signScale;
  const distance = Math.hypot(detail.centrePt.xPt - from.xPt, detail.centrePt.yPt - from.yPt);
  const pen: Stroke = { role: 'pencil', pen: 'thin' };
  return [
    line(
      [
        between(face, detail.centre, ringPt / distance),
        between(face, detail.centre, 1 - detail.radiusPt / distance),
      ],
      pen,
    ),
    { kind: 'circle', centre: face, radiusMm: ringPt / transform.ptPerMm, stroke: pen },
  ];
}

/** Names of the two sides at the fixture's end of the column. */
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
  return [name(say('drawing.carLeft'), left, 0.6 * em), name(say('drawing.carRight'), right, 0.6 * em)];
}

/** The one line over the column: that nothing is measured, or the name of the thrust line and how it is drawn. */
function columnHeading(request: PlanRequest, model: PlanModel, layout: PlanLayout): readonly TextItem[] {
  const text = model.datumKnown ? thrustText(request, model, layout) : say('drawing.typical');
  if (text === undefined) return [];
  const { transform } = layout;
  const middle = transform.toSheet(scenePoint(model.car.wheelbaseMm / 2, 0));
  // The names of the two sides stand at the fixture's end of the column.
  const atTop = transform.toSheet(model.points.target).yPt > middle.yPt;
  const yPt = atTop ? 0.5 * request.textPt : request.sheet.heightPt - 0.5 * request.textPt;
  const half = model.car.widthMm / 2;
  // Flush with the car's flank, which leaves the corner of the sheet to a button.
  const fromPt = Math.min(...[half, -half].map((side) => transform.toSheet(scenePoint(0, side)).xPt));
  return [
    {
      kind: 'text',
      at: transform.toWorld({ xPt: fromPt, yPt }),
      text,
      sizePt: request.textPt,
      bold: false,
      align: 'start',
      rise: atTop ? 'below' : 'above',
      role: 'pencil',
      masked: true,
    },
  ];
}

function thrustText(request: PlanRequest, model: PlanModel, layout: PlanLayout): string | undefined {
  const thrust = drawnThrust(model, layout);
  const angle = model.vehicle?.thrustLine?.angle.value;
  if (thrust === undefined || angle === undefined) return undefined;
  const name = say('drawing.thrust', {
    angle: formatDeg(Math.abs(angle), 2, request.decimalSign),
  });
  if (thrust.factor === 1) return name;
  const factor = formatFixed(thrust.factor, 0);
  return `${name}, ${say('drawing.thrust.factor', { factor })}`;
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
      : ` ${say('drawing.plan.next', {
          reading: readingWords(readings.next),
        })}`;
  const { finding } = model;
  if (finding === undefined) {
    const known = model.datumKnown ? 'drawing.plan.datum' : 'drawing.plan.typical';
    return `${say(known)}${next}`;
  }
  const place = stationPlace(layout, finding);
  const text = (coordinate: 'ahead' | 'left' | 'yaw'): string => {
    const found = finding.coordinates.find((each) => each.coordinate === coordinate);
    return found === undefined ? '' : deviationText(request, place, found);
  };
  const found = say('drawing.plan.found', {
    ahead: text('ahead'),
    side: text('left'),
    turn: text('yaw'),
  });
  return `${found}${next}`;
}

/**
 * The plan scene of a request. Touchable items carry the slot key of their reading as `pick`.
 *
 * `planScene({ sheet: { widthPt: 700, heightPt: 520 }, textPt: 14, view: 'asIStand', decimalSign: '.', unit: 'mm',
 * stations: [], recipe: [], taken: [], medium: 'screen' })` draws a typical car and nothing else.
 */
export function planScene(request: PlanRequest): Scene {
  const model = planModel(request);
  const layout = planLayout(request, model);
  const readings = readingDrawing(request, model, layout);
  const items: readonly SceneItem[] = [
    ...leader(model, layout),
    ...carItems(model, layout),
    ...readings.lines,
    ...fixtureItems(model, layout.signScale),
    ...pointSigns(model, layout.signScale),
    ...(model.vehicle?.bodyFaceAheadMm === undefined
      ? []
      : [sign(scenePoint(model.vehicle.bodyFaceAheadMm, 0), 'dot', 5, 'ink')]),
    ...planDimensions(request, model, layout),
    ...columnNotes(request, model, layout),
    ...columnHeading(request, model, layout),
    ...detailPart(request, model, layout),
    ...deviationFigures(request, model, layout),
  ];
  return {
    title: say('drawing.plan.title'),
    description: descriptionOf(request, model, layout, readings),
    view: request.view,
    viewerAt: layout.viewerAt,
    sheet: request.sheet,
    bounds: layout.bounds,
    items,
  };
}
