/** Where a drawing can be touched. A finger means the nearest touch place within reach, whatever lies on top. */
import type { Scene, SceneItem, ScenePoint } from './scene.ts';
import type { SheetPoint, SheetTransform } from './sceneView.ts';

/** One touch place on the sheet. */
export interface SceneTouch extends SheetPoint {
  readonly pick: string;
  readonly label: string;
  readonly radiusPt: number;
}

/** Radius of a touch place that does not bring its own, points: 48 CSS pixels across. */
const TOUCH_RADIUS_PT = 24;

function placeOf(item: SceneItem): ScenePoint | undefined {
  switch (item.kind) {
    case 'polyline': {
      const first = item.points[0];
      const last = item.points[item.points.length - 1];
      if (first === undefined || last === undefined) return undefined;
      return { xMm: (first.xMm + last.xMm) / 2, yMm: (first.yMm + last.yMm) / 2 };
    }
    case 'curve':
      return item.start;
    case 'circle':
    case 'ellipse':
    case 'arc':
      return item.centre;
    case 'text':
    case 'symbol':
      return item.at;
    case 'arrow':
      return item.to;
    case 'dimension':
      return item.textAt;
  }
}

/** All touch places of a scene in drawing order. */
export function sceneTouches(scene: Scene, transform: SheetTransform): readonly SceneTouch[] {
  return scene.items.flatMap((item): readonly SceneTouch[] => {
    const at = placeOf(item);
    if (item.pick === undefined || at === undefined) return [];
    const radiusPt = item.kind === 'symbol' && item.shape === 'touch' ? item.sizePt / 2 : TOUCH_RADIUS_PT;
    return [{ ...transform.toSheet(at), pick: item.pick, label: item.pickLabel ?? item.pick, radiusPt }];
  });
}

/** The touch a finger at `place` means; undefined out of reach of all. */
export function nearestTouch(touches: readonly SceneTouch[], place: SheetPoint): SceneTouch | undefined {
  let nearest: SceneTouch | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const touch of touches) {
    const distance = Math.hypot(touch.xPt - place.xPt, touch.yPt - place.yPt);
    if (distance <= touch.radiusPt && distance < least) {
      least = distance;
      nearest = touch;
    }
  }
  return nearest;
}
