/**
 * What can be touched in a drawing: real buttons laid into the SVG, at least 48 px across, reachable by keyboard and
 * named for readers for the blind. Where two overlap a pointer means the nearer one, whichever lies on top.
 */
import type { MouseEvent } from 'react';
import type { SheetPoint } from '../../core/drawing/sceneView.ts';
import { nearestTouch, type SceneTouch } from '../../core/drawing/touch.ts';

/** The touch places of a scene and what a touch means. */
export interface TouchButtonsProps {
  readonly touches: readonly SceneTouch[];
  readonly selected: string | undefined;
  readonly onPick: (pick: string) => void;
}

/** Where on the sheet a pointer is; undefined for a click made by keyboard, which has no place. */
function sheetPoint(event: MouseEvent<HTMLButtonElement>): SheetPoint | undefined {
  const matrix = event.currentTarget.closest('svg')?.getScreenCTM();
  if (event.detail === 0 || matrix === null || matrix === undefined) return undefined;
  const place = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  return { xPt: place.x, yPt: place.y };
}

/** One button per touch place. */
export function TouchButtons({ touches, selected, onPick }: TouchButtonsProps) {
  const press = (event: MouseEvent<HTMLButtonElement>, own: SceneTouch): void => {
    const place = sheetPoint(event);
    const meant = place === undefined ? own : (nearestTouch(touches, place) ?? own);
    onPick(meant.pick);
  };
  return touches.map((touch) => (
    <foreignObject
      key={touch.pick}
      x={touch.xPt - touch.radiusPt}
      y={touch.yPt - touch.radiusPt}
      width={2 * touch.radiusPt}
      height={2 * touch.radiusPt}
    >
      <button
        type="button"
        className="scene-touch"
        aria-label={touch.label}
        aria-pressed={touch.pick === selected}
        data-pick={touch.pick}
        onClick={(event) => press(event, touch)}
      />
    </foreignObject>
  ));
}
