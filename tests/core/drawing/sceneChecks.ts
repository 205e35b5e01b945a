/** What every drawing is held to: everything on the sheet, no label over another. */
import { dimensionTexts } from '../../../core/drawing/dimensionShapes.ts';
import type { Scene, SceneItem, SceneView, TextItem } from '../../../core/drawing/scene.ts';
import { type SheetTransform, sheetTransform } from '../../../core/drawing/sceneView.ts';
import { itemShapes } from '../../../core/drawing/shapes.ts';
import type { SheetShape } from '../../../core/drawing/sheetShape.ts';
import { boxesOverlap, type SheetBox, textBox } from '../../../core/drawing/textBox.ts';
import { textWidthPt } from '../../../core/drawing/textSize.ts';

/** All lines of text of a scene, those of dimensions included. */
export function sceneTexts(scene: Scene, transform: SheetTransform): readonly TextItem[] {
  return scene.items.flatMap((item): readonly TextItem[] => {
    if (item.kind === 'text') return [item];
    return item.kind === 'dimension' ? dimensionTexts(item, transform.halfTurned) : [];
  });
}

/** Pairs of texts that share room, as readable lines. */
export function textClashes(scene: Scene, view?: SceneView): readonly string[] {
  const transform = sheetTransform(scene, view);
  const placed = sceneTexts(scene, transform).map((text) => ({
    text: text.text,
    box: textBox(text, transform),
  }));
  return placed.flatMap((a, index) =>
    placed
      .slice(index + 1)
      .filter((b) => boxesOverlap(a.box, b.box))
      .map((b) => `"${a.text}" over "${b.text}"`),
  );
}

function shapeBox(shape: SheetShape): SheetBox {
  if (shape.kind === 'text') {
    const width = textWidthPt(shape.text, shape.sizePt, shape.bold);
    const from =
      shape.align === 'start' ? shape.xPt : shape.align === 'end' ? shape.xPt - width : shape.xPt - width / 2;
    return {
      minXPt: from,
      maxXPt: from + width,
      minYPt: shape.yPt - 0.78 * shape.sizePt,
      maxYPt: shape.yPt + 0.24 * shape.sizePt,
    };
  }
  const points = shape.commands.flatMap((command) => (command.command === 'close' ? [] : [command.to]));
  return {
    minXPt: Math.min(...points.map((point) => point.xPt)),
    maxXPt: Math.max(...points.map((point) => point.xPt)),
    minYPt: Math.min(...points.map((point) => point.yPt)),
    maxYPt: Math.max(...points.map((point) => point.yPt)),
  };
}

/** Items that leave the sheet or have no finite place, as readable lines. */
export function offSheet(scene: Scene, view?: SceneView): readonly string[] {
  const transform = sheetTransform(scene, view);
  const { widthPt, heightPt } = scene.sheet;
  const isOff = (box: SheetBox): boolean =>
    !(
      box.minXPt >= -0.01 &&
      box.minYPt >= -0.01 &&
      box.maxXPt <= widthPt + 0.01 &&
      box.maxYPt <= heightPt + 0.01
    );
  return scene.items.flatMap((item: SceneItem) =>
    itemShapes(item, transform)
      .map((shape) => ({ shape, box: shapeBox(shape) }))
      .filter(({ box }) => isOff(box))
      .map(
        ({ shape, box }) => `${item.kind} ${shape.kind === 'text' ? shape.text : ''} ${JSON.stringify(box)}`,
      ),
  );
}
