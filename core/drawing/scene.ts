/**
 * A drawing as data: one list of items in millimetres of the real world, drawn by the window (SVG) and by the
 * certificate (PDF) alike. What a thing looks like is a role and a pen, never a colour; what belongs to the paper
 * and not to the world (text, symbols, pen widths, arrow heads) is sized in points of the sheet the scene was
 * composed for, so it stays readable at any scale. Items are drawn in their order, the first at the bottom.
 */

/** A place in the scene's own world, mm. In a plan x is ahead and y is the car's left; in an elevation y is up. */
export interface ScenePoint {
  readonly xMm: number;
  readonly yMm: number;
}

/** The colour tokens an item may ask for; `sheet` is the ground of the drawing itself (to mask or to clear). */
export const SCENE_ROLES = [
  'ink',
  'pencil',
  'hairline',
  'accent',
  'proven',
  'notProven',
  'outside',
  'sheet',
] as const;
/** One colour token of a scene. */
export type SceneRole = (typeof SCENE_ROLES)[number];

/** Line widths of the paper, in the ratio of technical drawing; points are in `PEN_PT`. */
export type Pen = 'thin' | 'normal' | 'thick';

/** Line kinds that tell lines apart without colour; patterns are in `DASH_PT`. */
export type Dash = 'solid' | 'dashed' | 'dashDot' | 'dotted' | 'longDash';

/** Pen widths, points of the sheet. Each is about twice the one before (ISO 128 asks for a ratio of two or more). */
export const PEN_PT: Readonly<Record<Pen, number>> = { thin: 0.6, normal: 1.2, thick: 2.4 };

/** Dash patterns, points of the sheet: mark, gap, mark, gap. Empty is a solid line. */
export const DASH_PT: Readonly<Record<Dash, readonly number[]>> = {
  solid: [],
  dashed: [6, 3.5],
  dashDot: [14, 3, 2, 3],
  dotted: [1.2, 2.8],
  longDash: [16, 5],
};

/** A surface's tone: the role's colour itself, or a pale mix of it with the sheet (opaque, so it prints). */
export type FillTone = 'full' | 'pale';

/** What makes an item touchable and what a reader for the blind says of it. */
export interface Touchable {
  /** The reading or point that a touch of this item means. */
  readonly pick?: string;
  /** What is touched, in words; needed with `pick`. */
  readonly pickLabel?: string;
  /** True for the reading that comes next: it pulses once. */
  readonly pulse?: boolean;
}

/** The line of an item. */
export interface Stroke {
  readonly role: SceneRole;
  readonly pen: Pen;
  readonly dash?: Dash;
}

/** The surface of an item. */
export interface Fill {
  readonly role: SceneRole;
  readonly tone: FillTone;
}

/** Line, surface or both; an item with neither is a touch area only. */
export interface Painted extends Touchable {
  readonly stroke?: Stroke;
  readonly fill?: Fill;
}

/** Straight pieces through points; `closed` joins the last to the first. */
export interface PolylineItem extends Painted {
  readonly kind: 'polyline';
  readonly points: readonly ScenePoint[];
  readonly closed: boolean;
}

/** One cubic piece: two control points and its end. */
export interface CubicPiece {
  readonly control1: ScenePoint;
  readonly control2: ScenePoint;
  readonly end: ScenePoint;
}

/** Smooth line of cubic pieces from `start`. */
export interface CurveItem extends Painted {
  readonly kind: 'curve';
  readonly start: ScenePoint;
  readonly pieces: readonly CubicPiece[];
  readonly closed: boolean;
}

/** A circle of the world. */
export interface CircleItem extends Painted {
  readonly kind: 'circle';
  readonly centre: ScenePoint;
  readonly radiusMm: number;
}

/** An ellipse; `turnRad` is the major axis from the world's x toward its y. */
export interface EllipseItem extends Painted {
  readonly kind: 'ellipse';
  readonly centre: ScenePoint;
  readonly semiMajorMm: number;
  readonly semiMinorMm: number;
  readonly turnRad: number;
}

/** Part of a circle from `fromRad` to `toRad`, from the world's x toward its y; `toRad` may be the smaller one. */
export interface ArcItem extends Painted {
  readonly kind: 'arc';
  readonly centre: ScenePoint;
  readonly radiusMm: number;
  readonly fromRad: number;
  readonly toRad: number;
}

/** Where a text lies from its point as the sheet is held: to its right (`start`), about it, or to its left. */
export type TextAlign = 'start' | 'middle' | 'end';
/** Where a text lies from its point as the sheet is held: above it, about it, or below it. */
export type TextRise = 'above' | 'middle' | 'below';

/**
 * One line of text, always level and never mirrored. `align` and `rise` hold for the view the scene was composed
 * for; a view turned by half a turn swaps them, so that a text keeps to the same side of what it names.
 */
export interface TextItem extends Touchable {
  readonly kind: 'text';
  readonly at: ScenePoint;
  readonly text: string;
  readonly sizePt: number;
  readonly bold: boolean;
  readonly align: TextAlign;
  readonly rise: TextRise;
  readonly role: SceneRole;
  /** True clears the sheet behind the text, so that lines do not run through it. */
  readonly masked: boolean;
}

/** An arrow with its head at `to`; the head is sized by the sheet. */
export interface ArrowItem extends Touchable {
  readonly kind: 'arrow';
  readonly from: ScenePoint;
  readonly to: ScenePoint;
  readonly headPt: number;
  readonly stroke: Stroke;
}

/**
 * A dimension: two measured points, the dimension line `from`-`to` that may stand off from them, the value and its
 * uncertainty as written, for example `2914.5 mm` and `U 1.8 mm`. The text stands at `textAt`, masked; with an
 * uncertainty the value stands over that point and the uncertainty under it, and `rise` has no say.
 */
export interface DimensionItem extends Touchable {
  readonly kind: 'dimension';
  readonly measured: readonly [ScenePoint, ScenePoint];
  readonly from: ScenePoint;
  readonly to: ScenePoint;
  readonly textAt: ScenePoint;
  readonly align: TextAlign;
  readonly rise: TextRise;
  readonly valueText: string;
  readonly uncertaintyText?: string;
  readonly sizePt: number;
  readonly role: SceneRole;
}

/**
 * Signs of points, sized by the sheet: `hub` a ring with a cross, `mark` a floor mark, `linePoint` a tick on a
 * line, `barEnd` a square, `centre` a quartered circle, `cross` a bare cross, `dot` a filled and `ring` an open
 * circle. `touch` draws nothing: it is only the place where a finger means the item's `pick`.
 */
export type SymbolShape =
  | 'hub'
  | 'mark'
  | 'linePoint'
  | 'barEnd'
  | 'centre'
  | 'cross'
  | 'dot'
  | 'ring'
  | 'touch';

/** The sign of one point. */
export interface SymbolItem extends Touchable {
  readonly kind: 'symbol';
  readonly at: ScenePoint;
  readonly shape: SymbolShape;
  readonly sizePt: number;
  readonly role: SceneRole;
}

/** Everything a scene can hold. */
export type SceneItem =
  | PolylineItem
  | CurveItem
  | CircleItem
  | EllipseItem
  | ArcItem
  | TextItem
  | ArrowItem
  | DimensionItem
  | SymbolItem;

/** The part of the world the sheet shows, mm. */
export interface SceneBounds {
  readonly minXMm: number;
  readonly minYMm: number;
  readonly maxXMm: number;
  readonly maxYMm: number;
}

/** The sheet a scene was composed for. On a screen one point is one CSS pixel, on paper 1/72 inch. */
export interface Sheet {
  readonly widthPt: number;
  readonly heightPt: number;
}

/**
 * How the world lies on the sheet. `asIStand`: the viewer stands at the fixture and faces the car, the car is at the
 * top. `carUp`: the car's nose points up. `level`: x to the right and y up, for elevations and bars.
 */
export type SceneView = 'asIStand' | 'carUp' | 'level';

/** Where the viewer of `asIStand` stands, as seen from the car. */
export type ViewerPlace = 'ahead' | 'behind' | 'carLeft' | 'carRight';

/** A whole drawing. `title` and `description` are for readers for the blind and for the certificate's tags. */
export interface Scene {
  readonly title: string;
  readonly description: string;
  readonly view: SceneView;
  readonly viewerAt: ViewerPlace;
  readonly sheet: Sheet;
  readonly bounds: SceneBounds;
  readonly items: readonly SceneItem[];
}
