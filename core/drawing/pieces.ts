/** Short forms for the items that every drawing is made of. */
import type {
  PolylineItem,
  ScenePoint,
  SceneRole,
  Stroke,
  SymbolItem,
  SymbolShape,
  Touchable,
} from './scene.ts';

/** A point of the world from its two coordinates, mm. */
export const scenePoint = (xMm: number, yMm: number): ScenePoint => ({ xMm, yMm });

/** A point part of the way from one to another: 0 is the first, 1 the second. */
export function between(a: ScenePoint, b: ScenePoint, share: number): ScenePoint {
  return { xMm: a.xMm + (b.xMm - a.xMm) * share, yMm: a.yMm + (b.yMm - a.yMm) * share };
}

/** A point moved along a direction given by its angle from the world's x, mm. */
export function movedAlong(a: ScenePoint, byMm: number, wayRad: number): ScenePoint {
  return { xMm: a.xMm + byMm * Math.cos(wayRad), yMm: a.yMm + byMm * Math.sin(wayRad) };
}

/** One straight line, or several joined. */
export function line(points: readonly ScenePoint[], stroke: Stroke, touch: Touchable = {}): PolylineItem {
  return { kind: 'polyline', points, closed: false, stroke, ...touch };
}

/** The sign of a point. */
export function sign(
  at: ScenePoint,
  shape: SymbolShape,
  sizePt: number,
  role: SceneRole,
  touch: Touchable = {},
): SymbolItem {
  return { kind: 'symbol', at, shape, sizePt, role, ...touch };
}
