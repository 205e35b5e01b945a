/** From true deviations in millimetres to places in the detail circle. */
import type { DetailModel, Shift } from './detailModel.ts';
import { movedAlong, scenePoint } from './pieces.ts';
import type { DetailFrame } from './planLayout.ts';
import type { ScenePoint } from './scene.ts';

/** Places in the circle. */
export interface DetailPlaces {
  /** A deviation at the target's centre; the required centre is the circle's. */
  readonly atCentre: (shift: Shift) => ScenePoint;
  /** A deviation at an end of the bar: 1 is the car's-left end, -1 the other. */
  readonly atEnd: (end: 1 | -1, shift: Shift) => ScenePoint;
}

/** No deviation. */
export const NO_SHIFT: Shift = scenePoint(0, 0);

/** Maps deviations into the circle. */
export function detailPlaces(detail: DetailModel, frame: DetailFrame): DetailPlaces {
  const shifted = (from: ScenePoint, shift: Shift): ScenePoint =>
    scenePoint(from.xMm + detail.factor * shift.xMm, from.yMm + detail.factor * shift.yMm);
  return {
    atCentre: (shift) => shifted(frame.centre, shift),
    atEnd: (end, shift) => shifted(movedAlong(frame.centre, end * detail.reachMm, detail.barRad), shift),
  };
}

/** The bar's two drawn ends: as required, and as it stands when that is known. The car's-left end first. */
export function detailEnds(
  detail: DetailModel,
  places: DetailPlaces,
): {
  readonly required: readonly [ScenePoint, ScenePoint];
  readonly found?: readonly [ScenePoint, ScenePoint];
} {
  const required = [places.atEnd(1, NO_SHIFT), places.atEnd(-1, NO_SHIFT)] as const;
  const { endCarLeft, endCarRight } = detail;
  return endCarLeft === undefined || endCarRight === undefined
    ? { required }
    : { required, found: [places.atEnd(1, endCarLeft), places.atEnd(-1, endCarRight)] };
}

/** The play of a permitted turn at both ends, about a parallel to the required bar; empty without a limit. */
export function detailPlay(
  detail: DetailModel,
  places: DetailPlaces,
): readonly (readonly [ScenePoint, ScenePoint])[] {
  const play = detail.endPlayMm;
  if (play === undefined) return [];
  const normal = detail.barRad + Math.PI / 2;
  return ([1, -1] as const).map((end) => {
    const middle = places.atEnd(end, detail.centre ?? NO_SHIFT);
    return [
      movedAlong(middle, -play * detail.factor, normal),
      movedAlong(middle, play * detail.factor, normal),
    ];
  });
}
