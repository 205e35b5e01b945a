/**
 * The detail circle, drawn: grid, tolerance box, required bar in dashed ink, the bar as it stands in accent with its
 * ellipse and guard arms, and the arrows of the move that comes next. Arms inside the box is what *proven* means.
 */
import type { DetailLimits, DetailModel } from './detailModel.ts';
import { type DetailPlaces, detailEnds, detailPlaces, detailPlay } from './detailPlaces.ts';
import { gridChords } from './grid.ts';
import { line, movedAlong, scenePoint, sign } from './pieces.ts';
import type { DetailFrame, PlanLayout } from './planLayout.ts';
import type { ArrowItem, EllipseItem, PolylineItem, SceneItem, ScenePoint, Stroke } from './scene.ts';

/** A side without limit reaches this far, as a share of the radius. */
const OPEN_SHARE = 0.68;

interface Span {
  readonly low: number;
  readonly high: number;
}

function span(limits: DetailLimits | undefined, openMm: number): Span {
  return { low: limits?.lower ?? -openMm, high: limits?.upper ?? openMm };
}

/** The tolerance box: a surface, and an edge for each side that has a limit. */
function toleranceBox(
  detail: DetailModel,
  frame: DetailFrame,
  places: DetailPlaces,
): { readonly surface: readonly SceneItem[]; readonly edges: readonly SceneItem[] } {
  if (detail.ahead === undefined && detail.left === undefined) return { surface: [], edges: [] };
  const open = (OPEN_SHARE * frame.radiusMm) / detail.factor;
  const x = span(detail.ahead, open);
  const y = span(detail.left, open);
  const at = (xMm: number, yMm: number): ScenePoint => places.atCentre(scenePoint(xMm, yMm));
  const surface: PolylineItem = {
    kind: 'polyline',
    closed: true,
    points: [at(x.low, y.low), at(x.high, y.low), at(x.high, y.high), at(x.low, y.high)],
    fill: { role: 'pencil', tone: 'pale' },
  };
  const ink: Stroke = { role: 'ink', pen: 'normal' };
  const edges = [
    ...(detail.ahead?.lower === undefined ? [] : [line([at(x.low, y.low), at(x.low, y.high)], ink)]),
    ...(detail.ahead?.upper === undefined ? [] : [line([at(x.high, y.low), at(x.high, y.high)], ink)]),
    ...(detail.left?.lower === undefined ? [] : [line([at(x.low, y.low), at(x.high, y.low)], ink)]),
    ...(detail.left?.upper === undefined ? [] : [line([at(x.low, y.high), at(x.high, y.high)], ink)]),
  ];
  return { surface: [surface], edges };
}

/** The play of a permitted turn at each end, between two ticks. */
function playItems(detail: DetailModel, places: DetailPlaces, tickMm: number): readonly SceneItem[] {
  return detailPlay(detail, places).flatMap((play) => [
    line(play, { role: 'ink', pen: 'thin' }),
    ...play.map((at) =>
      line([movedAlong(at, -tickMm, detail.barRad), movedAlong(at, tickMm, detail.barRad)], {
        role: 'ink',
        pen: 'normal',
      }),
    ),
  ]);
}

function ellipseItems(
  detail: DetailModel,
  places: DetailPlaces,
  paint: Pick<EllipseItem, 'stroke'> | Pick<EllipseItem, 'fill'>,
): readonly SceneItem[] {
  const { ellipse, centre } = detail;
  if (ellipse === undefined || centre === undefined) return [];
  const scale = detail.factor * detail.ellipseFactor;
  return [
    {
      kind: 'ellipse',
      centre: places.atCentre(centre),
      semiMajorMm: ellipse.semiMajorMm * scale,
      semiMinorMm: ellipse.semiMinorMm * scale,
      turnRad: ellipse.turnRad,
      ...paint,
    },
  ];
}

/** Arms of the guard about the found centre: 1.645 u each way by the usual rule, closed by short bars. */
function guardArms(detail: DetailModel, places: DetailPlaces, capMm: number): readonly SceneItem[] {
  const { guard, centre } = detail;
  if (guard === undefined || centre === undefined || detail.ellipseFactor !== 1) return [];
  const pen: Stroke = { role: 'accent', pen: 'normal' };
  const at = places.atCentre(centre);
  return [
    { reach: guard.xMm * detail.factor, way: 0 },
    { reach: guard.yMm * detail.factor, way: Math.PI / 2 },
  ].flatMap(({ reach, way }) => {
    if (reach === 0) return [];
    const tips = [movedAlong(at, -reach, way), movedAlong(at, reach, way)];
    const cap = (tip: ScenePoint): SceneItem =>
      line([movedAlong(tip, -capMm, way + Math.PI / 2), movedAlong(tip, capMm, way + Math.PI / 2)], pen);
    return [line(tips, pen), ...tips.map(cap)];
  });
}

/** Sizes on the sheet, points. */
const TICK_PT = 5;
const END_PT = 11;
const CENTRE_PT = 9;

/** Everything inside the circle but its labels, bottom first, and the circle itself. */
export function detailItems(
  detail: DetailModel,
  layout: PlanLayout,
  arrows: readonly ArrowItem[],
): readonly SceneItem[] {
  const { detail: frame, signScale } = layout;
  const { ptPerMm } = layout.transform;
  const places = detailPlaces(detail, frame);
  const box = toleranceBox(detail, frame, places);
  const { required, found } = detailEnds(detail, places);
  const circle = { kind: 'circle', centre: frame.centre, radiusMm: frame.radiusMm } as const;
  const tickMm = (TICK_PT * signScale) / ptPerMm;
  const { centre } = detail;
  return [
    { ...circle, fill: { role: 'sheet', tone: 'full' } },
    ...gridChords(frame.centre, frame.radiusMm, detail.squareMm * detail.factor),
    ...box.surface,
    ...ellipseItems(detail, places, { fill: { role: 'accent', tone: 'pale' } }),
    ...box.edges,
    ...playItems(detail, places, tickMm),
    line(required, { role: 'ink', pen: 'normal', dash: 'dashed' }),
    ...required.map((end) => sign(end, 'ring', END_PT * 0.8 * signScale, 'ink')),
    sign(frame.centre, 'cross', 2 * CENTRE_PT * signScale, 'ink'),
    ...ellipseItems(detail, places, { stroke: { role: 'accent', pen: 'thin' } }),
    ...(found === undefined ? [] : [line(found, { role: 'accent', pen: 'thick' })]),
    ...guardArms(detail, places, tickMm),
    ...(found ?? []).map((end) => sign(end, 'barEnd', END_PT * signScale, 'accent')),
    ...arrows,
    ...(centre === undefined
      ? []
      : [sign(places.atCentre(centre), 'centre', CENTRE_PT * signScale, 'accent')]),
    { ...circle, stroke: { role: 'ink', pen: 'normal' } },
  ];
}
