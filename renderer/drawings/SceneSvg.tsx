/**
 * A scene as SVG. Paths and texts are copied from `core/drawing`; colours come from the tokens by class, so both
 * themes share one drawing.
 */
import { useId, useMemo } from 'react';
import type { Scene, SceneItem, SceneView } from '../../core/drawing/scene.ts';
import { type SheetTransform, sheetTransform } from '../../core/drawing/sceneView.ts';
import { itemShapes } from '../../core/drawing/shapes.ts';
import type { SheetShape } from '../../core/drawing/sheetShape.ts';
import { sceneTouches } from '../../core/drawing/touch.ts';
import { ShapeSvg } from './ShapeSvg.tsx';
import { TouchButtons } from './TouchButtons.tsx';

/** What `SceneSvg` needs: the scene, the view when it is not the composed one, and what a touch means. */
export interface SceneSvgProps {
  readonly scene: Scene;
  readonly view?: SceneView;
  /** The pick that is open for entry. */
  readonly selected?: string;
  /** Without it nothing is touchable and the drawing is a picture. */
  readonly onPick?: (pick: string) => void;
}

/** An item's shapes with keys: items have no names, their order is what they are known by. */
interface DrawnItem {
  readonly key: string;
  readonly pulse: boolean;
  readonly shapes: readonly { readonly key: string; readonly shape: SheetShape }[];
}

function drawnItem(item: SceneItem, index: number, transform: SheetTransform): DrawnItem {
  return {
    key: `${item.kind}${index}`,
    pulse: item.pulse === true,
    shapes: itemShapes(item, transform).map((shape, at) => ({ key: `${shape.kind}${at}`, shape })),
  };
}

/** The drawing. It fills its parent and keeps the sheet's proportions. */
export function SceneSvg({ scene, view, selected, onPick }: SceneSvgProps) {
  const id = useId();
  const transform = useMemo(() => sheetTransform(scene, view ?? scene.view), [scene, view]);
  const items = useMemo(
    () => scene.items.map((item, index) => drawnItem(item, index, transform)),
    [scene, transform],
  );
  const touches = useMemo(() => sceneTouches(scene, transform), [scene, transform]);
  const { widthPt, heightPt } = scene.sheet;
  return (
    <svg
      className="scene"
      viewBox={`0 0 ${widthPt} ${heightPt}`}
      role={onPick === undefined ? 'img' : 'group'}
      aria-labelledby={`${id}-title`}
      aria-describedby={`${id}-description`}
    >
      <title id={`${id}-title`}>{scene.title}</title>
      <desc id={`${id}-description`}>{scene.description}</desc>
      {items.map((item) => (
        <g key={item.key} className={item.pulse ? 'scene-pulse' : undefined}>
          {item.shapes.map(({ key, shape }) => (
            <ShapeSvg key={key} shape={shape} />
          ))}
        </g>
      ))}
      {onPick === undefined ? null : <TouchButtons touches={touches} selected={selected} onPick={onPick} />}
    </svg>
  );
}
