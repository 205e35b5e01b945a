/**
 * The detail circle, drawn: grid, tolerance box, required bar in dashed ink, the bar as it stands in accent with its
 * ellipse and guard arms, and the arrows of the move that comes next. Arms inside the box is what *proven* means.
 */
import type { Move } from '../placement/types.ts';
import type { DetailLimits, DetailModel, Shift } from './detailModel.ts';
import { line, movedAlong, scenePoint, sign } from './pieces.ts';
import type { DetailFrame } from './planLayout.ts';
import type { PolylineItem, SceneItem, ScenePoint, Stroke } from './scene.ts';

/** Places in the circle from true deviations. */
export interface DetailPlaces {
  /** A deviation at the target's centre. */
  readonly atCentre: (shift: Shift) => ScenePoint;
  /** A deviation at an end of the bar: +1 the car's-left end, -1 the other. */
  readonly atEnd: (end: 1 | -1, shift: Shift) => ScenePoint;
}

const NONE: Shift = scenePoint(0, 0);

/** Maps deviations into the circle. */
export function detailPlaces(detail: DetailModel, frame: DetailFrame): DetailPlaces {
  const shifted = (from: ScenePoint, shift: Shift): ScenePoint =>
    scenePoint(from.xMm + detail.factor * shift.xMm, from.yMm + detail.factor * shift.yMm);
  return {
    atCentre: (shift) => shifted(frame.centre, shift),
    atEnd: (end, shift) => shifted(movedAlong(frame.centre, end * detail.reachMm, detail.barRad), shift),
  };
}

/** The chords of a square grid through the circle's centre, every `stepMm` of the scene's world. */
function grid(frame: DetailFrame, stepMm: number): readonly SceneItem[] {
  const { centre, radiusMm } = frame;
  const hair: Stroke = { role: 'hairline', pen: 'thin' };
  const count = Math.floor(radiusMm / stepMm);
  return Array.from({ length: 2 * count + 1 }, (_, index) => (index - count) * stepMm).flatMap((off) => {
    const half = Math.sqrt(Math.max(0, radiusMm * radiusMm - off * off));
    if (half === 0) return [];
    return [
      line(
        [scenePoint(centre.xMm + off, centre.yMm - half), scenePoint(centre.xMm + off, centre.yMm + half)],
        hair,
      ),
      line(
        [scenePoint(centre.xMm - half, centre.yMm + off), scenePoint(centre.xMm + half, centre.yMm + off)],
        hair,
      ),
    ];
  });
}

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

/** At each end: the play a permitted turn gives, between two ticks, about a parallel to the required bar. */
function endPlay(detail: DetailModel, places: DetailPlaces, tickMm: number): readonly SceneItem[] {
  const play = detail.endPlayMm;
  if (play === undefined) return [];
  const thin: Stroke = { role: 'ink', pen: 'thin' };
  const normal = detail.barRad + Math.PI / 2;
  return ([1, -1] as const).flatMap((end) => {
    const middle = places.atEnd(end, detail.centre ?? NONE);
    const tick = (reach: number): SceneItem => {
      const at = movedAlong(middle, reach * detail.factor, normal);
      return line([movedAlong(at, -tickMm, detail.barRad), movedAlong(at, tickMm, detail.barRad)], {
        role: 'ink',
        pen: 'normal',
      });
    };
    const low = movedAlong(middle, -play * detail.factor, normal);
    const high = movedAlong(middle, play * detail.factor, normal);
    return [line([low, high], thin), tick(-play), tick(play)];
  });
}

function ellipseItems(
  detail: DetailModel,
  places: DetailPlaces,
  paint: Pick<SceneItem & { kind: 'ellipse' }, 'stroke'> | Pick<SceneItem & { kind: 'ellipse' }, 'fill'>,
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

/** What a move does at the centre and at the ends, mm. */
export function moveShifts(
  move: Move,
  detail: DetailModel,
  barLengthMm: number,
): { readonly centre: Shift; readonly ends: readonly [Shift, Shift] } {
  const centre = scenePoint(move.predictedEffect.ahead, move.predictedEffect.left);
  const swing = (Math.tan(move.predictedEffect.yaw) * barLengthMm) / 2;
  const end = (side: 1 | -1): Shift => movedAlong(centre, side * swing, detail.barRad + Math.PI / 2);
  return { centre, ends: [end(1), end(-1)] };
}

/** An arrow under this length on the sheet says nothing. */
const LEAST_ARROW_PT = 5;

/** Arrows of one move: at the ends when it turns, else at the ends and the centre. */
export function moveArrows(
  move: Move,
  detail: DetailModel,
  places: DetailPlaces,
  barLengthMm: number,
  ptPerMm: number,
): readonly SceneItem[] {
  const { centre, endCarLeft, endCarRight } = detail;
  if (centre === undefined || endCarLeft === undefined || endCarRight === undefined) return [];
  const effect = moveShifts(move, detail, barLengthMm);
  const plus = (a: Shift, b: Shift): Shift => scenePoint(a.xMm + b.xMm, a.yMm + b.yMm);
  const pairs: readonly (readonly [ScenePoint, ScenePoint])[] = [
    [places.atEnd(1, endCarLeft), places.atEnd(1, plus(endCarLeft, effect.ends[0]))],
    [places.atEnd(-1, endCarRight), places.atEnd(-1, plus(endCarRight, effect.ends[1]))],
    [places.atCentre(centre), places.atCentre(plus(centre, effect.centre))],
  ];
  return pairs
    .filter(([from, to]) => Math.hypot(to.xMm - from.xMm, to.yMm - from.yMm) * ptPerMm >= LEAST_ARROW_PT)
    .map(([from, to]) => ({ kind: 'arrow', from, to, headPt: 13, stroke: { role: 'ink', pen: 'thick' } }));
}

/** Sizes on the sheet, points. */
const TICK_PT = 5;
const END_PT = 11;
const CENTRE_PT = 9;

/** Everything inside the circle but its labels, bottom first, and the circle itself. */
export function detailItems(
  detail: DetailModel,
  frame: DetailFrame,
  move: Move | undefined,
  barLengthMm: number,
): readonly SceneItem[] {
  const places = detailPlaces(detail, frame);
  const ptPerMm = frame.radiusPt / frame.radiusMm;
  const box = toleranceBox(detail, frame, places);
  const ends = [places.atEnd(1, NONE), places.atEnd(-1, NONE)];
  const dashed: Stroke = { role: 'ink', pen: 'normal', dash: 'dashed' };
  const { centre, endCarLeft, endCarRight } = detail;
  const found =
    centre === undefined || endCarLeft === undefined || endCarRight === undefined
      ? []
      : [places.atEnd(1, endCarLeft), places.atEnd(-1, endCarRight)];
  return [
    { kind: 'circle', centre: frame.centre, radiusMm: frame.radiusMm, fill: { role: 'sheet', tone: 'full' } },
    ...grid(frame, detail.squareMm * detail.factor),
    ...box.surface,
    ...ellipseItems(detail, places, { fill: { role: 'accent', tone: 'pale' } }),
    ...box.edges,
    ...endPlay(detail, places, TICK_PT / ptPerMm),
    line(ends, dashed),
    ...ends.map((end) => sign(end, 'ring', END_PT * 0.8, 'ink')),
    sign(frame.centre, 'cross', 2 * CENTRE_PT, 'ink'),
    ...ellipseItems(detail, places, { stroke: { role: 'accent', pen: 'thin' } }),
    ...(found.length === 0 ? [] : [line(found, { role: 'accent', pen: 'thick' })]),
    ...guardArms(detail, places, TICK_PT / ptPerMm),
    ...found.map((end) => sign(end, 'barEnd', END_PT, 'accent')),
    ...(centre === undefined ? [] : [sign(places.atCentre(centre), 'centre', CENTRE_PT, 'accent')]),
    ...(move === undefined ? [] : moveArrows(move, detail, places, barLengthMm, ptPerMm)),
    {
      kind: 'circle',
      centre: frame.centre,
      radiusMm: frame.radiusMm,
      stroke: { role: 'ink', pen: 'normal' },
    },
  ];
}
