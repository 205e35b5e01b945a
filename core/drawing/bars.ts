/**
 * The tolerance bar: a scale about the required value, the permitted deviations as two ticks, the found one as a line,
 * what the decision rule adds as a box about it, U as whiskers. *Proven* means the box lies between the ticks: the
 * picture is the rule. A schematic scene: one millimetre of its world is one point of its sheet.
 */

import { say } from '../words/index.ts';
import { line, scenePoint } from './pieces.ts';
import type { Scene, SceneItem, SceneRole, Sheet, Stroke, TextItem } from './scene.ts';

/** One decision to draw, in the coordinate's own unit, zero at the required value. */
export interface BarRequest {
  readonly sheet: Sheet;
  /** Text under the ticks, points; 0 leaves it out. */
  readonly textPt: number;
  /** Permitted deviations; a side without limit is absent. */
  readonly lower?: number;
  readonly upper?: number;
  readonly found: number;
  /** What the decision rule adds: 1.645 u by default. */
  readonly guard: number;
  /** U; absent draws no whiskers. */
  readonly expanded?: number;
  readonly lowerText?: string;
  readonly upperText?: string;
  readonly verdict: 'proven' | 'notProven' | 'outside';
  /** The decision in words. */
  readonly description: string;
}

/** How far the scale reaches, as multiples of the tolerance: at least, and at most to show a box that lies outside. */
const LEAST_REACH = 1.6;
const MOST_REACH = 3;
/** Air past the box or whiskers, as a multiple of their farthest end. */
const AIR = 1.05;
/** Without a tolerance the scale reaches this many guards. */
const UNBOUNDED_REACH = 3;
/** Room at either end of the scale, points. */
const MARGIN_PT = 8;
/** Half heights on the sheet, as shares of the bar's height. */
const HALF = { tick: 0.46, found: 0.36, box: 0.24, whisker: 0.12, zero: 0.12 } as const;

/** Where values lie on the bar: shares from 0 to 1, and whether the found value lies past the end. */
export interface BarScale {
  readonly reach: number;
  readonly place: (value: number) => number;
  readonly beyond: boolean;
}

/** The scale keeps the tolerance large; what lies farther out is drawn at its end and marked. */
export function barScale(
  request: Pick<BarRequest, 'lower' | 'upper' | 'found' | 'guard' | 'expanded'>,
): BarScale {
  const limit = Math.max(Math.abs(request.lower ?? 0), Math.abs(request.upper ?? 0));
  const widest = Math.max(Math.abs(request.found), UNBOUNDED_REACH * request.guard, request.expanded ?? 0);
  const farthest = AIR * (Math.abs(request.found) + Math.max(request.guard, request.expanded ?? 0));
  const reach =
    limit > 0
      ? Math.max(LEAST_REACH * limit, Math.min(farthest, MOST_REACH * limit))
      : widest > 0
        ? widest
        : 1;
  return {
    reach,
    place: (value) => Math.min(1, Math.max(0, (value / reach + 1) / 2)),
    beyond: Math.abs(request.found) > reach,
  };
}

interface BarPlaces {
  readonly x: (value: number) => number;
  readonly midMm: number;
  readonly highMm: number;
}

function placesOf(request: BarRequest, scale: BarScale): BarPlaces {
  const { widthPt, heightPt } = request.sheet;
  const textRoom = request.textPt * 1.4;
  return {
    x: (value) => MARGIN_PT + scale.place(value) * (widthPt - 2 * MARGIN_PT),
    midMm: textRoom + (heightPt - textRoom) / 2,
    highMm: heightPt - textRoom,
  };
}

function upright(places: BarPlaces, value: number, half: number, stroke: Stroke): SceneItem {
  const x = places.x(value);
  const reach = half * places.highMm;
  return line([scenePoint(x, places.midMm - reach), scenePoint(x, places.midMm + reach)], stroke);
}

function boxItem(request: BarRequest, places: BarPlaces, role: SceneRole): SceneItem {
  const low = places.x(request.found - request.guard);
  const high = places.x(request.found + request.guard);
  const half = HALF.box * places.highMm;
  return {
    kind: 'polyline',
    closed: true,
    points: [
      scenePoint(low, places.midMm - half),
      scenePoint(high, places.midMm - half),
      scenePoint(high, places.midMm + half),
      scenePoint(low, places.midMm + half),
    ],
    stroke: { role, pen: 'normal' },
    fill: { role, tone: 'pale' },
  };
}

function whiskers(request: BarRequest, places: BarPlaces, role: SceneRole): readonly SceneItem[] {
  const { expanded, found } = request;
  if (expanded === undefined) return [];
  const pen: Stroke = { role, pen: 'thin' };
  const ends = [found - expanded, found + expanded];
  return [
    line(
      ends.map((end) => scenePoint(places.x(end), places.midMm)),
      pen,
    ),
    ...ends.map((end) => upright(places, end, HALF.whisker, pen)),
  ];
}

function tickTexts(request: BarRequest, places: BarPlaces): readonly TextItem[] {
  const { textPt, lower, upper, lowerText, upperText } = request;
  if (textPt === 0) return [];
  const text = (value: number | undefined, words: string | undefined): readonly TextItem[] =>
    value === undefined || words === undefined
      ? []
      : [
          {
            kind: 'text',
            at: scenePoint(places.x(value), textPt * 1.2),
            text: words,
            sizePt: textPt,
            bold: false,
            align: 'middle',
            rise: 'below',
            role: 'pencil',
            masked: false,
          },
        ];
  return [...text(lower, lowerText), ...text(upper, upperText)];
}

/** An arrow head at the end of the scale says that the found value lies beyond it. */
function beyondItems(request: BarRequest, scale: BarScale, places: BarPlaces): readonly SceneItem[] {
  if (!scale.beyond) return [];
  const x = places.x(request.found);
  const way = Math.sign(request.found);
  return [
    {
      kind: 'arrow',
      from: scenePoint(x - way * 24, places.midMm),
      to: scenePoint(x + way * (MARGIN_PT - 1), places.midMm),
      headPt: 13,
      stroke: { role: request.verdict, pen: 'thick' },
    },
  ];
}

/** The scene of one tolerance bar. */
export function barScene(request: BarRequest): Scene {
  const scale = barScale(request);
  const places = placesOf(request, scale);
  const { sheet, verdict, lower, upper } = request;
  const ink: Stroke = { role: 'ink', pen: 'normal' };
  const ends = [
    scenePoint(places.x(-scale.reach), places.midMm),
    scenePoint(places.x(scale.reach), places.midMm),
  ];
  return {
    title: say('drawing.bar.title'),
    description: request.description,
    view: 'level',
    viewerAt: 'ahead',
    sheet,
    bounds: { minXMm: 0, minYMm: 0, maxXMm: sheet.widthPt, maxYMm: sheet.heightPt },
    items: [
      line(ends, { role: 'pencil', pen: 'thin' }),
      upright(places, 0, HALF.zero, { role: 'pencil', pen: 'thin' }),
      ...(scale.beyond ? [] : [...whiskers(request, places, verdict), boxItem(request, places, verdict)]),
      ...[lower, upper].flatMap((limit) =>
        limit === undefined ? [] : [upright(places, limit, HALF.tick, ink)],
      ),
      ...beyondItems(request, scale, places),
      ...(scale.beyond ? [] : [upright(places, request.found, HALF.found, { role: verdict, pen: 'thick' })]),
      ...tickTexts(request, places),
    ],
  };
}
