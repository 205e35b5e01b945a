/** Every item of a scene broken down into what is put on the sheet. */
import { assertNever } from '../result.ts';
import { arrowShapes } from './arrowShapes.ts';
import { dimensionShapes } from './dimensionShapes.ts';
import { arcPath, circlePath, ellipsePath } from './roundShapes.ts';
import type { CurveItem, Scene, SceneItem } from './scene.ts';
import type { SheetTransform } from './sceneView.ts';
import { type PathCommand, paintedPath, type SheetShape, straightPath } from './sheetShape.ts';
import { symbolShapes } from './symbolShapes.ts';
import { textShapes } from './textShapes.ts';

/** Width of an arrow's head as a share of its length. */
const ARROW_SLENDER = 0.72;

function curvePath(item: CurveItem, transform: SheetTransform): readonly PathCommand[] {
  const pieces = item.pieces.map(
    (piece): PathCommand => ({
      command: 'cubic',
      control1: transform.toSheet(piece.control1),
      control2: transform.toSheet(piece.control2),
      to: transform.toSheet(piece.end),
    }),
  );
  const start: PathCommand = { command: 'move', to: transform.toSheet(item.start) };
  return item.closed ? [start, ...pieces, { command: 'close' }] : [start, ...pieces];
}

/** The shapes of one item, in the order they are drawn. */
export function itemShapes(item: SceneItem, transform: SheetTransform): readonly SheetShape[] {
  switch (item.kind) {
    case 'polyline':
      return paintedPath(straightPath(item.points.map(transform.toSheet), item.closed), item);
    case 'curve':
      return paintedPath(curvePath(item, transform), item);
    case 'circle':
      return paintedPath(circlePath(item, transform), item);
    case 'ellipse':
      return paintedPath(ellipsePath(item, transform), item);
    case 'arc':
      return paintedPath(arcPath(item, transform), item);
    case 'text':
      return textShapes(item, transform);
    case 'arrow':
      return arrowShapes(
        transform.toSheet(item.from),
        transform.toSheet(item.to),
        item.headPt,
        ARROW_SLENDER,
        item.stroke,
      );
    case 'dimension':
      return dimensionShapes(item, transform);
    case 'symbol':
      return symbolShapes(item, transform.toSheet(item.at));
    default:
      return assertNever(item);
  }
}

/** All shapes of a scene, the first at the bottom. */
export function sceneShapes(scene: Scene, transform: SheetTransform): readonly SheetShape[] {
  return scene.items.flatMap((item) => itemShapes(item, transform));
}
