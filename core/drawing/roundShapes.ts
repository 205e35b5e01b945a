/**
 * Circles, ellipses and arcs as cubic pieces of at most a quarter turn. A quarter drawn this way is off by at most
 * 2.7e-4 of the radius (Goldapp, "Approximation of circular arcs by cubic polynomials", 1991, from memory).
 */
import type { ArcItem, CircleItem, EllipseItem, ScenePoint } from './scene.ts';
import type { SheetTransform } from './sceneView.ts';
import type { PathCommand } from './sheetShape.ts';

/** An ellipse's own frame: centre, half axes and the turn of the first. */
interface RoundFrame {
  readonly centre: ScenePoint;
  readonly aMm: number;
  readonly bMm: number;
  readonly turnRad: number;
}

function place(frame: RoundFrame, along: number, across: number): ScenePoint {
  const cos = Math.cos(frame.turnRad);
  const sin = Math.sin(frame.turnRad);
  const x = along * frame.aMm;
  const y = across * frame.bMm;
  return { xMm: frame.centre.xMm + x * cos - y * sin, yMm: frame.centre.yMm + x * sin + y * cos };
}

/** Pieces from one parameter angle to another, starting with a move. */
function roundPath(
  frame: RoundFrame,
  fromRad: number,
  toRad: number,
  transform: SheetTransform,
): readonly PathCommand[] {
  const count = Math.max(1, Math.ceil(Math.abs(toRad - fromRad) / (Math.PI / 2) - 1e-9));
  const step = (toRad - fromRad) / count;
  const reach = (4 / 3) * Math.tan(step / 4);
  const at = (along: number, across: number) => transform.toSheet(place(frame, along, across));
  const commands: PathCommand[] = [{ command: 'move', to: at(Math.cos(fromRad), Math.sin(fromRad)) }];
  for (let index = 0; index < count; index += 1) {
    const a = fromRad + step * index;
    const b = a + step;
    commands.push({
      command: 'cubic',
      control1: at(Math.cos(a) - reach * Math.sin(a), Math.sin(a) + reach * Math.cos(a)),
      control2: at(Math.cos(b) + reach * Math.sin(b), Math.sin(b) - reach * Math.cos(b)),
      to: at(Math.cos(b), Math.sin(b)),
    });
  }
  return commands;
}

const FULL_TURN = 2 * Math.PI;

/** The path of a circle. */
export function circlePath(item: CircleItem, transform: SheetTransform): readonly PathCommand[] {
  const frame = { centre: item.centre, aMm: item.radiusMm, bMm: item.radiusMm, turnRad: 0 };
  return [...roundPath(frame, 0, FULL_TURN, transform), { command: 'close' }];
}

/** The path of an ellipse. */
export function ellipsePath(item: EllipseItem, transform: SheetTransform): readonly PathCommand[] {
  const frame = {
    centre: item.centre,
    aMm: item.semiMajorMm,
    bMm: item.semiMinorMm,
    turnRad: item.turnRad,
  };
  return [...roundPath(frame, 0, FULL_TURN, transform), { command: 'close' }];
}

/** The open path of an arc. */
export function arcPath(item: ArcItem, transform: SheetTransform): readonly PathCommand[] {
  const frame = { centre: item.centre, aMm: item.radiusMm, bMm: item.radiusMm, turnRad: 0 };
  return roundPath(frame, item.fromRad, item.toRad, transform);
}
