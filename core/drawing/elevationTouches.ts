/** The readings of the side view, with where they are touched: on the floor, at the target, at its upper edge. */
import { slotKey } from '../placement/recipe.ts';
import type { ElevationLayout } from './elevationLayout.ts';
import { type ElevationModel, type ElevationRequest, overFloor, overPlane } from './elevationModel.ts';
import { scenePoint, sign } from './pieces.ts';
import { readingWords, TOUCH_PT } from './planReadings.ts';
import type { SceneItem, ScenePoint } from './scene.ts';

/** Touch places and, on the next reading, its ring; none on paper. */
export function touchItems(
  request: ElevationRequest,
  model: ElevationModel,
  layout: ElevationLayout,
): readonly SceneItem[] {
  if (request.medium !== 'screen') return [];
  const side = TOUCH_PT / layout.transform.ptPerMm / 2;
  const { points, fixture } = model.plan;
  const target = overPlane(model, model.targetAheadMm, model.foundUpMm ?? model.requiredUpMm ?? 0);
  const slot = request.answer?.nextReading;
  const nextKey = request.next ?? (slot === undefined ? undefined : slotKey(slot));
  return request.recipe.flatMap((reading): readonly SceneItem[] => {
    const [name] = reading.points;
    const apart = reading.id.endsWith('L') || reading.id.endsWith('Left') ? -side : side;
    let at: ScenePoint;
    if (reading.kind === 'floorHeight' && name !== undefined) {
      at = overFloor(model, points[name].xMm + apart, 0);
    } else if (reading.kind === 'height') {
      at = scenePoint(target.xMm, target.yMm / 2);
    } else if (reading.kind === 'tilt') {
      const isLean = reading.directions?.includes('towardCar') === true;
      at = scenePoint(target.xMm, target.yMm + (isLean ? 0.5 : 0) * fixture.boardWidthMm);
    } else {
      return [];
    }
    const pick = { pick: slotKey(reading), pickLabel: readingWords(reading) };
    const isNext = slotKey(reading) === nextKey;
    return [
      ...(isNext ? [{ ...sign(at, 'ring', 26, 'accent'), pulse: true }] : []),
      sign(at, 'touch', TOUCH_PT, 'accent', pick),
    ];
  });
}
