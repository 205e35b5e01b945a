/** Words of the detail: title and key outside the circle, names of the two bars and of the ends inside it. */
import { type DecimalSign, formatFixed, formatLength, type LengthUnit } from '../units.ts';
import { DRAWING_WORDS } from '../words/drawing.ts';
import { fillTemplate } from '../words/say.ts';
import type { DetailModel } from './detailModel.ts';
import { type DetailPlaces, detailEnds, detailPlaces, detailPlay } from './detailPlaces.ts';
import { type LabelWish, type Obstacles, placeLabels, spotsAround } from './labels.ts';
import { between, movedAlong, scenePoint } from './pieces.ts';
import type { PlanLayout } from './planLayout.ts';
import type { ArrowItem, ScenePoint, TextItem } from './scene.ts';
import type { SheetPoint, SheetTransform } from './sceneView.ts';
import { type SheetBox, textBox } from './textBox.ts';
import { textWidthPt } from './textSize.ts';

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

const KEY_GAP = '   ';

/** What the signs in the circle mean, as much of it as there is room for. */
function keyText(detail: DetailModel, writing: DetailWriting, roomPt: number): string {
  const square = formatLength(
    detail.squareMm,
    detail.squareMm < 1 ? 1 : 0,
    writing.unit,
    writing.decimalSign,
  );
  const ellipse =
    detail.ellipseFactor === 1
      ? DRAWING_WORDS['drawing.detail.ellipse']
      : fillTemplate(DRAWING_WORDS['drawing.detail.ellipseFactor'], {
          factor: plainNumber(detail.ellipseFactor, writing.decimalSign),
        });
  const parts = [
    fillTemplate(DRAWING_WORDS['drawing.detail.square'], { square }),
    ...(detail.ellipse === undefined ? [] : [ellipse]),
    ...(detail.ahead === undefined && detail.left === undefined ? [] : [DRAWING_WORDS['drawing.detail.box']]),
  ];
  const fits = (count: number): boolean =>
    textWidthPt(parts.slice(0, count).join(KEY_GAP), writing.textPt, false) <= roomPt;
  const count = [3, 2].find((each) => each <= parts.length && fits(each)) ?? 1;
  return parts.slice(0, count).join(KEY_GAP);
}

/** Title over the circle, key under it. */
export function detailCaptions(
  detail: DetailModel,
  layout: PlanLayout,
  writing: DetailWriting,
  roomPt: number,
): readonly TextItem[] {
  const { centrePt, radiusPt } = layout.detail;
  const em = writing.textPt;
  const at = (yPt: number): ScenePoint => layout.transform.toWorld({ xPt: centrePt.xPt, yPt });
  const common = { kind: 'text', sizePt: em, align: 'middle', masked: false } as const;
  return [
    {
      ...common,
      at: at(centrePt.yPt - radiusPt - 0.45 * em),
      text: fillTemplate(DRAWING_WORDS['drawing.detail'], {
        factor: plainNumber(detail.factor, writing.decimalSign),
      }),
      bold: true,
      rise: 'above',
      role: 'ink',
    },
    {
      ...common,
      at: at(centrePt.yPt + radiusPt + 0.45 * em),
      text: keyText(detail, writing, roomPt),
      bold: false,
      rise: 'below',
      role: 'pencil',
    },
  ];
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
  const box = [corner, scenePoint(-corner.xMm, -corner.yMm)].map((at) => sheet(places.atCentre(at)));
  const ellipsePt =
    (ellipse?.semiMajorMm ?? 0) * detail.factor * detail.ellipseFactor * layout.transform.ptPerMm;
  const room = END_ROOM_PT * layout.signScale;
  const lines = [
    required,
    ...(found === undefined ? [] : [found]),
    ...detailPlay(detail, places),
    ...arrows.map((arrow) => [arrow.from, arrow.to] as const),
  ];
  return {
    boxes: [
      around(box, 2),
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
  /** Of the bar as it stands; absent when it is not known. */
  readonly found?: string;
  /** How far the next move goes. */
  readonly amount?: string;
  /** Said instead of a bar that is not known. */
  readonly note?: string;
}

/** Shares of a bar where its name may stand, best first: near an end, away from the middle. */
const NAME_SHARES = [0.22, 0.78, 0.3, 0.7, 0.12, 0.88] as const;

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
  const { required, found } = detailEnds(detail, places);
  const [left, right] = found ?? required;
  const along = ([a, b]: readonly [ScenePoint, ScenePoint]): readonly ScenePoint[] =>
    NAME_SHARES.map((share) => between(a, b, share));
  const wish = wishMaker(layout, em, transform);
  const rimMm = frame.radiusMm - (1.3 * em) / transform.ptPerMm;
  const rim = (wayRad: number) =>
    ({ at: movedAlong(frame.centre, rimMm, wayRad), align: 'middle', rise: 'middle' }) as const;
  const plain = { sizePt: em, bold: false, role: 'pencil', masked: true, needed: true } as const;
  const wishes: readonly LabelWish[] = [
    { ...plain, text: DRAWING_WORDS['drawing.towardCar'], spots: [rim(detail.facingRad)] },
    ...(names.note === undefined
      ? []
      : [{ ...plain, text: names.note, spots: [rim(detail.facingRad + Math.PI)] }]),
    ...(names.amount === undefined
      ? []
      : [
          wish(
            names.amount,
            'ink',
            true,
            arrows.map((arrow) => arrow.to),
          ),
        ]),
    ...(found === undefined || names.found === undefined
      ? []
      : [wish(names.found, 'accent', true, along(found))]),
    wish(DRAWING_WORDS['drawing.required'], 'ink', false, along(required)),
    wish(DRAWING_WORDS['drawing.carLeft'], 'pencil', false, [left]),
    wish(DRAWING_WORDS['drawing.carRight'], 'pencil', false, [right]),
  ];
  const usable = wishes.filter((each) => each.spots.length > 0);
  return placeLabels(usable, obstaclesOf(detail, layout, places, arrows), transform);
}

/** How far from what it names a label may stand, in text heights, best first. */
const NAME_DISTANCES = [0.6, 1.1, 1.8, 2.8, 4] as const;

type WishMaker = (
  text: string,
  role: LabelWish['role'],
  bold: boolean,
  about: readonly ScenePoint[],
) => LabelWish;

/** Wishes whose spots lie about given points and inside the circle; near spots of every point come first. */
function wishMaker(layout: PlanLayout, em: number, transform: SheetTransform): WishMaker {
  const { centrePt, radiusPt } = layout.detail;
  return (text, role, bold, about) => ({
    text,
    role,
    bold,
    sizePt: em,
    masked: true,
    needed: true,
    spots: NAME_DISTANCES.flatMap((distance) =>
      about.flatMap((at) => spotsAround(at, [distance * em], transform)),
    ).filter((spot) =>
      insideCircle(textBox({ text, sizePt: em, bold, ...spot }, transform), centrePt, radiusPt - 3),
    ),
  });
}
