/**
 * What reaches paper or screen: paths and lines of text, in points of the sheet, x to the right and y down. The window
 * and the certificate only copy these, so the two drawings cannot differ.
 */
import {
  DASH_PT,
  type Fill,
  type Painted,
  PEN_PT,
  type SceneRole,
  type Stroke,
  type TextAlign,
} from './scene.ts';
import type { SheetPoint } from './sceneView.ts';

/** One stroke of the pen: move, line, cubic (two controls and the end), close. */
export type PathCommand =
  | { readonly command: 'move' | 'line'; readonly to: SheetPoint }
  | {
      readonly command: 'cubic';
      readonly control1: SheetPoint;
      readonly control2: SheetPoint;
      readonly to: SheetPoint;
    }
  | { readonly command: 'close' };

/** The line of a path, points. An empty `dashPt` is solid. */
export interface PathStroke {
  readonly role: SceneRole;
  readonly widthPt: number;
  readonly dashPt: readonly number[];
}

/** A path on the sheet. */
export interface PathShape {
  readonly kind: 'path';
  readonly commands: readonly PathCommand[];
  readonly stroke?: PathStroke;
  readonly fill?: Fill;
}

/** A line of text on the sheet; `yPt` is its baseline. */
export interface TextShape {
  readonly kind: 'text';
  readonly xPt: number;
  readonly yPt: number;
  readonly text: string;
  readonly sizePt: number;
  readonly bold: boolean;
  readonly align: TextAlign;
  readonly role: SceneRole;
}

/** Everything that reaches paper or screen. */
export type SheetShape = PathShape | TextShape;

/** The commands of straight pieces; `closed` ends with a close. */
export function straightPath(points: readonly SheetPoint[], closed: boolean): readonly PathCommand[] {
  const commands = points.map((to, index): PathCommand => ({ command: index === 0 ? 'move' : 'line', to }));
  return closed ? [...commands, { command: 'close' }] : commands;
}

/** A pen, a role and a dash as the line of a path. */
export function pathStroke(stroke: Stroke): PathStroke {
  return { role: stroke.role, widthPt: PEN_PT[stroke.pen], dashPt: DASH_PT[stroke.dash ?? 'solid'] };
}

/** The shape of an item's path with its line and surface; none when the item has neither (a touch area). */
export function paintedPath(commands: readonly PathCommand[], item: Painted): readonly PathShape[] {
  if (item.stroke === undefined && item.fill === undefined) return [];
  return [
    {
      kind: 'path',
      commands,
      ...(item.stroke === undefined ? {} : { stroke: pathStroke(item.stroke) }),
      ...(item.fill === undefined ? {} : { fill: item.fill }),
    },
  ];
}
