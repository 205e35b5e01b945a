/** Words of the detail: title and key outside the circle, names of the two bars and of the ends inside it. */
import { type DecimalSign, formatFixed, formatLength, type LengthUnit } from '../units.ts';
import { say } from '../words/index.ts';
import type { DetailModel } from './detailModel.ts';
import { type DetailPlaces, detailEnds, detailPlaces, detailPlay } from './detailPlaces.ts';
import { type LabelSpot, type LabelWish, type Obstacles, placeLabels, spotsAround } from './labels.ts';
import { movedAlong, scenePoint } from './pieces.ts';
import type { PlanLayout } from './planLayout.ts';
import type { ArrowItem, ScenePoint, TextItem } from './scene.ts';
import type { SheetPoint } from './sceneView.ts';
import { type SheetBox, textBox } from './textBox.ts';

/** How numbers and text are written. */
export interface DetailWriting {
  readonly textPt: number;
  readonly decimalSign: DecimalSign;
  readonly unit: LengthUnit;
}

/** A whole number without decimals, a fraction with one. */
function plainNumber(value: number, sign: DecimalSign): string {
  return formatFixed(value, Number.isInteger(value) ? 0 : 1, sign);
}

/** The title over the circle: what it shows, how much larger, and the side of a square of its grid. */
export function detailTitle(detail: DetailModel, layout: PlanLayout, writing: DetailWriting): TextItem {
  const { centrePt, radiusPt } = layout.detail;
  const { textPt, unit, decimalSign } = writing;
  const square = formatLength(detail.squareMm, detail.squareMm < 1 ? 1 : 0, unit, decimalSign);
  return {
    kind: 'text',
    at: layout.transform.toWorld({ xPt: centrePt.xPt, yPt: centrePt.yPt - radiusPt - 0.45 * textPt }),
    text: say('drawing.detail', {
      factor: plainNumber(detail.factor, decimalSign),
      square,
    }),
    sizePt: textPt,
    bold: false,
    align: 'middle',
    rise: 'above',
    role: 'ink',
    masked: false,
  };
}

/** True when a box's corners all lie in the circle. */
function insideCircle(box: SheetBox, centre: SheetPoint, radiusPt: number): boolean {
  return [box.minXPt, box.maxXPt].every((x) =>
    [box.minYPt, box.maxYPt].every((y) => Math.hypot(x - centre.xPt, y - centre.yPt) <= radiusPt),
  );
}

function around(points: readonly SheetPoint[], byPt: number): SheetBox {
  const xs = points.map((point) => point.xPt);
  const ys = points.map((point) => point.yPt);
  return {
    minXPt: Math.min(...xs) - byPt,
    maxXPt: Math.max(...xs) + byPt,
    minYPt: Math.min(...ys) - byPt,
    maxYPt: Math.max(...ys) + byPt,
  };
}

/** Half the room of a bar's end or of a bare centre, points. */
const END_ROOM_PT = 7;

/** What labels in the circle keep off: both bars, the play of the ends, the box, the ellipse, the arrows. */
function obstaclesOf(
  detail: DetailModel,
  layout: PlanLayout,
  places: DetailPlaces,
  arrows: readonly ArrowItem[],
): Obstacles {
  const sheet = layout.transform.toSheet;
  const { required, found } = detailEnds(detail, places);
  const { centre, ellipse } = detail;
  const reach = (limits: DetailModel['ahead']): number =>
    Math.max(Math.abs(limits?.lower ?? 0), Math.abs(limits?.upper ?? 0));
  const corner = scenePoint(reach(detail.ahead), reach(detail.left));
  const corners = [
    corner,
    scenePoint(corner.xMm, -corner.yMm),
    scenePoint(-corner.xMm, -corner.yMm),
    scenePoint(-corner.xMm, corner.yMm),
  ].map(places.atCentre);
  const ellipsePt =
    (ellipse?.semiMajorMm ?? 0) * detail.factor * detail.ellipseFactor * layout.transform.ptPerMm;
  const room = END_ROOM_PT * layout.signScale;
  const lines = [
    required,
    ...(found === undefined ? [] : [found]),
    ...detailPlay(detail, places),
    ...arrows.map((arrow) => [arrow.from, arrow.to] as const),
    ...corners.map((at, index) => [at, corners[(index + 1) % corners.length] ?? at] as const),
  ];
  return {
    boxes: [
      ...(centre === undefined ? [] : [around([sheet(places.atCentre(centre))], Math.max(ellipsePt, room))]),
      ...[...required, ...(found ?? [])].map((end) => around([sheet(end)], room)),
      ...arrows.map((arrow) => around([sheet(arrow.to)], room)),
    ],
    segments: lines.map(([a, b]) => [sheet(a), sheet(b)] as const),
    within: around([layout.detail.centrePt], layout.detail.radiusPt),
  };
}

/** What is written inside the circle. */
export interface DetailNames {
  /** How far the next move goes. */
  readonly amount?: string;
  /** Said instead of a bar that is not known. */
  readonly note?: string;
}

/** How far from the middle a note about what is missing stands, as a share of the radius. */
const NOTE_SHARE = 0.72;
/** How far from an arrow's head its amount may stand, in text heights, best first. */
const AMOUNT_DISTANCES = [0.8, 1.3, 2, 3, 4.5] as const;
/** How far off the bar the name of a side may stand, in text heights, and how far beyond the required end, points. */
const SIDE_OFF = [0, -1.4, 1.4, -2.8, 2.8, -4.2, 4.2, -6, 6] as const;
const SIDE_GAP_PT = 10;

/** Names inside the circle, each where it is free. */
export function detailLabels(
  detail: DetailModel,
  layout: PlanLayout,
  arrows: readonly ArrowItem[],
  names: DetailNames,
  writing: DetailWriting,
): readonly TextItem[] {
  const { detail: frame, transform } = layout;
  const places = detailPlaces(detail, frame);
  const em = writing.textPt;
  const plain = { sizePt: em, bold: false, role: 'pencil', masked: false, needed: true } as const;
  const inward = (byMm: number, wayRad: number): LabelSpot => ({
    at: movedAlong(frame.centre, byMm, wayRad),
    align: 'middle',
    rise: 'middle',
  });
  const rimMm = frame.radiusMm - (1.3 * em) / transform.ptPerMm;
  const [left, right] = detailEnds(detail, places).required;
  const wishes: readonly LabelWish[] = [
    { ...plain, text: say('drawing.towardCar'), spots: [inward(rimMm, detail.facingRad)] },
    ...(names.note === undefined
      ? []
      : [
          {
            ...plain,
            text: names.note,
            spots: [inward(NOTE_SHARE * frame.radiusMm, detail.facingRad + Math.PI)],
          },
        ]),
    sideWish(layout, plain, say('drawing.carLeft'), left),
    sideWish(layout, plain, say('drawing.carRight'), right),
    ...(names.amount === undefined ? [] : [amountWish(layout, plain, names.amount, arrows)]),
  ];
  const usable = wishes.filter((each) => each.spots.length > 0);
  return placeLabels(usable, obstaclesOf(detail, layout, places, arrows), transform);
}

type PlainWish = Omit<LabelWish, 'text' | 'spots'>;

function insideSpots(
  layout: PlanLayout,
  wish: Omit<LabelWish, 'spots'>,
  spots: readonly LabelSpot[],
): readonly LabelSpot[] {
  const { centrePt, radiusPt } = layout.detail;
  return spots.filter((spot) =>
    insideCircle(textBox({ ...wish, ...spot }, layout.transform), centrePt, radiusPt - 3),
  );
}

/** The name of a side stands beyond the required end on that side. */
function sideWish(layout: PlanLayout, plain: PlainWish, text: string, end: ScenePoint): LabelWish {
  const { transform, detail } = layout;
  const at = transform.toSheet(end);
  const em = plain.sizePt;
  const outward = at.xPt < detail.centrePt.xPt ? -1 : 1;
  const spots = SIDE_OFF.map(
    (off): LabelSpot => ({
      at: transform.toWorld({
        xPt: at.xPt + outward * SIDE_GAP_PT * layout.signScale,
        yPt: at.yPt + off * em,
      }),
      align: outward < 0 ? 'end' : 'start',
      rise: 'middle',
    }),
  );
  return { ...plain, text, spots: insideSpots(layout, { ...plain, text }, spots) };
}

/** The amount of a move stands near the head of one of its arrows. */
function amountWish(
  layout: PlanLayout,
  plain: PlainWish,
  text: string,
  arrows: readonly ArrowItem[],
): LabelWish {
  const wish = { ...plain, text, bold: true, role: 'ink', sizePt: plain.sizePt * AMOUNT_SCALE } as const;
  const spots = AMOUNT_DISTANCES.flatMap((distance) =>
    arrows.flatMap((arrow) => spotsAround(arrow.to, [distance * wish.sizePt], layout.transform)),
  );
  return { ...wish, spots: insideSpots(layout, wish, spots) };
}

/** The amount is read from afar. */
const AMOUNT_SCALE = 1.45;
