/**
 * Labels that keep out of each other's way: each brings its wishes in order of liking, takes the first free one and
 * then is itself in the way of the next. Nothing is random, so the same drawing always comes out the same.
 */
import type { ScenePoint, SceneRole, TextAlign, TextItem, TextRise } from './scene.ts';
import type { SheetPoint, SheetTransform } from './sceneView.ts';
import { boxesOverlap, type SheetBox, textBox } from './textBox.ts';

/** One place a label would take. */
export interface LabelSpot {
  readonly at: ScenePoint;
  readonly align: TextAlign;
  readonly rise: TextRise;
}

/** A label with its spots, best first. One that is not needed is left out when no spot is free. */
export interface LabelWish {
  readonly text: string;
  readonly sizePt: number;
  readonly bold: boolean;
  readonly role: SceneRole;
  readonly masked: boolean;
  readonly spots: readonly LabelSpot[];
  readonly needed: boolean;
}

/** A straight line on the sheet that labels keep off. */
export type SheetSegment = readonly [SheetPoint, SheetPoint];

/** What is in the way. */
export interface Obstacles {
  readonly boxes: readonly SheetBox[];
  readonly segments: readonly SheetSegment[];
  /** The area labels must stay inside. */
  readonly within: SheetBox;
}

/** Air between two labels, points. */
const LABEL_GAP_PT = 1.5;

/** True when a segment has a point inside a box (Liang-Barsky clipping). */
export function segmentCrossesBox([a, b]: SheetSegment, box: SheetBox): boolean {
  const dx = b.xPt - a.xPt;
  const dy = b.yPt - a.yPt;
  let enter = 0;
  let leave = 1;
  const edges: readonly (readonly [number, number])[] = [
    [-dx, a.xPt - box.minXPt],
    [dx, box.maxXPt - a.xPt],
    [-dy, a.yPt - box.minYPt],
    [dy, box.maxYPt - a.yPt],
  ];
  for (const [toward, room] of edges) {
    if (toward === 0) {
      if (room < 0) return false;
      continue;
    }
    const at = room / toward;
    if (toward < 0) enter = Math.max(enter, at);
    else leave = Math.min(leave, at);
  }
  return enter <= leave;
}

function inside(box: SheetBox, area: SheetBox): boolean {
  return (
    box.minXPt >= area.minXPt &&
    box.maxXPt <= area.maxXPt &&
    box.minYPt >= area.minYPt &&
    box.maxYPt <= area.maxYPt
  );
}

function itemAt(wish: LabelWish, spot: LabelSpot): TextItem {
  const { text, sizePt, bold, role, masked } = wish;
  return { kind: 'text', text, sizePt, bold, role, masked, ...spot };
}

/** Places the wishes in their order. A needed label without a free spot takes its first. */
export function placeLabels(
  wishes: readonly LabelWish[],
  obstacles: Obstacles,
  transform: SheetTransform,
): readonly TextItem[] {
  const taken: SheetBox[] = [...obstacles.boxes];
  const placed: TextItem[] = [];
  for (const wish of wishes) {
    const free = wish.spots.find((spot) => {
      const box = textBox(itemAt(wish, spot), transform);
      return (
        inside(box, obstacles.within) &&
        !taken.some((other) => boxesOverlap(box, other, LABEL_GAP_PT)) &&
        !obstacles.segments.some((segment) => segmentCrossesBox(segment, box))
      );
    });
    const spot = free ?? (wish.needed ? wish.spots[0] : undefined);
    if (spot === undefined) continue;
    const item = itemAt(wish, spot);
    placed.push(item);
    taken.push(textBox(item, transform));
  }
  return placed;
}

/** Spots about a point: beside, over, under and at the corners, at each of the distances in points. */
export function spotsAround(
  at: ScenePoint,
  distancesPt: readonly number[],
  transform: SheetTransform,
): readonly LabelSpot[] {
  const centre = transform.toSheet(at);
  const moved = (x: number, y: number): ScenePoint =>
    transform.toWorld({ xPt: centre.xPt + x, yPt: centre.yPt + y });
  return distancesPt.flatMap((d): readonly LabelSpot[] => [
    { at: moved(0, -d), align: 'middle', rise: 'above' },
    { at: moved(0, d), align: 'middle', rise: 'below' },
    { at: moved(d, 0), align: 'start', rise: 'middle' },
    { at: moved(-d, 0), align: 'end', rise: 'middle' },
    { at: moved(d, -d), align: 'start', rise: 'above' },
    { at: moved(-d, -d), align: 'end', rise: 'above' },
    { at: moved(d, d), align: 'start', rise: 'below' },
    { at: moved(-d, d), align: 'end', rise: 'below' },
  ]);
}
