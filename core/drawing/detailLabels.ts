/** Words of the detail: title and key outside the circle, names of the two bars and of the ends inside it. */
import { type DecimalSign, formatFixed, formatLength, type LengthUnit } from '../units.ts';
import { DRAWING_WORDS } from '../words/drawing.ts';
import { fillTemplate } from '../words/say.ts';
import { detailPlaces } from './detail.ts';
import type { DetailModel } from './detailModel.ts';
import { type LabelWish, type Obstacles, placeLabels, type SheetSegment, spotsAround } from './labels.ts';
import { between, movedAlong, scenePoint } from './pieces.ts';
import type { DetailFrame } from './planLayout.ts';
import type { ScenePoint, TextItem } from './scene.ts';
import type { SheetPoint, SheetTransform } from './sceneView.ts';
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

function keyText(detail: DetailModel, writing: DetailWriting): string {
  const square = formatLength(
    detail.squareMm,
    detail.squareMm < 1 ? 1 : 0,
    writing.unit,
    writing.decimalSign,
  );
  const hasBox = detail.ahead !== undefined || detail.left !== undefined;
  const hasEllipse = detail.ellipse !== undefined;
  const template = hasBox
    ? hasEllipse
      ? DRAWING_WORDS['drawing.detail.key']
      : DRAWING_WORDS['drawing.detail.key.noEllipse']
    : hasEllipse
      ? DRAWING_WORDS['drawing.detail.key.noBox']
      : DRAWING_WORDS['drawing.detail.key.plain'];
  const key = fillTemplate(template, { square });
  if (detail.ellipseFactor === 1) return key;
  const factor = plainNumber(detail.ellipseFactor, writing.decimalSign);
  return `${key}  ·  ${fillTemplate(DRAWING_WORDS['drawing.detail.ellipseFactor'], { factor })}`;
}

/** Title over the circle, key under it. */
export function detailCaptions(
  detail: DetailModel,
  frame: DetailFrame,
  writing: DetailWriting,
  transform: SheetTransform,
): readonly TextItem[] {
  const { centrePt, radiusPt } = frame;
  const em = writing.textPt;
  const at = (yPt: number): ScenePoint => transform.toWorld({ xPt: centrePt.xPt, yPt });
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
      text: keyText(detail, writing),
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

/** What labels in the circle keep off: both bars, the box, the ellipse's frame, the arrows. */
export function detailObstacles(
  detail: DetailModel,
  frame: DetailFrame,
  arrows: readonly SheetSegment[],
  transform: SheetTransform,
): Obstacles {
  const places = detailPlaces(detail, frame);
  const sheet = (point: ScenePoint): SheetPoint => transform.toSheet(point);
  const zero = scenePoint(0, 0);
  const requiredEnds = [sheet(places.atEnd(1, zero)), sheet(places.atEnd(-1, zero))] as const;
  const { centre, endCarLeft, endCarRight, ellipse } = detail;
  const foundEnds =
    endCarLeft === undefined || endCarRight === undefined
      ? undefined
      : ([sheet(places.atEnd(1, endCarLeft)), sheet(places.atEnd(-1, endCarRight))] as const);
  const x = Math.max(Math.abs(detail.ahead?.lower ?? 0), Math.abs(detail.ahead?.upper ?? 0));
  const y = Math.max(Math.abs(detail.left?.lower ?? 0), Math.abs(detail.left?.upper ?? 0));
  const boxCorners = [places.atCentre(scenePoint(x, y)), places.atCentre(scenePoint(-x, -y))].map(sheet);
  const ellipsePt =
    ellipse === undefined
      ? 0
      : ellipse.semiMajorMm * detail.factor * detail.ellipseFactor * transform.ptPerMm;
  return {
    boxes: [
      around(boxCorners, 2),
      ...(centre === undefined ? [] : [around([sheet(places.atCentre(centre))], Math.max(ellipsePt, 6))]),
      ...requiredEnds.map((end) => around([end], 7)),
      ...(foundEnds ?? []).map((end) => around([end], 8)),
    ],
    segments: [requiredEnds, ...(foundEnds === undefined ? [] : [foundEnds]), ...arrows],
    within: around([frame.centrePt], frame.radiusPt),
  };
}

/** Names inside the circle, each where it is free. */
export function detailLabels(
  detail: DetailModel,
  frame: DetailFrame,
  obstacles: Obstacles,
  writing: DetailWriting,
  foundText: string,
  transform: SheetTransform,
): readonly TextItem[] {
  const places = detailPlaces(detail, frame);
  const em = writing.textPt;
  const distances = [0.6 * em, 1.1 * em, 1.8 * em, 2.8 * em, 4 * em];
  const zero = scenePoint(0, 0);
  const wish = (
    text: string,
    role: LabelWish['role'],
    bold: boolean,
    about: readonly ScenePoint[],
  ): LabelWish => ({
    text,
    role,
    bold,
    sizePt: em,
    masked: true,
    needed: true,
    spots: about
      .flatMap((at) => spotsAround(at, distances, transform))
      .filter((spot) => {
        const item = { text, sizePt: em, bold, ...spot };
        return insideCircle(textBox(item, transform), frame.centrePt, frame.radiusPt - 3);
      }),
  });
  const along = (a: ScenePoint, b: ScenePoint): readonly ScenePoint[] =>
    [0.22, 0.78, 0.3, 0.7, 0.12, 0.88].map((share) => between(a, b, share));
  const { endCarLeft, endCarRight } = detail;
  const left = places.atEnd(1, zero);
  const right = places.atEnd(-1, zero);
  const rimMm = frame.radiusMm - (1.3 * em) / transform.ptPerMm;
  return placeLabels(
    [
      ...(endCarLeft === undefined || endCarRight === undefined
        ? []
        : [
            wish(
              foundText,
              'accent',
              true,
              along(places.atEnd(-1, endCarRight), places.atEnd(1, endCarLeft)),
            ),
          ]),
      wish(DRAWING_WORDS['drawing.required'], 'ink', false, along(right, left)),
      wish(DRAWING_WORDS['drawing.carLeft'], 'pencil', false, [
        endCarLeft === undefined ? left : places.atEnd(1, endCarLeft),
        left,
      ]),
      wish(DRAWING_WORDS['drawing.carRight'], 'pencil', false, [
        endCarRight === undefined ? right : places.atEnd(-1, endCarRight),
        right,
      ]),
      {
        text: DRAWING_WORDS['drawing.towardCar'],
        role: 'pencil',
        bold: false,
        sizePt: em,
        masked: true,
        needed: false,
        spots: [{ at: movedAlong(frame.centre, rimMm, detail.facingRad), align: 'middle', rise: 'middle' }],
      },
    ],
    obstacles,
    transform,
  );
}
