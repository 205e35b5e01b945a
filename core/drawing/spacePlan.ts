/**
 * The bay from above with everything the work needs: walls, what stands in it, the car and the way it rolls, every station's
 * fixture, the clear zone. What lacks room is drawn thick and dashed in its own colour, so that it shows without colour too.
 */
import type { Polygon } from '../bay/space/polygon.ts';
import type { SpaceKind } from '../bay/space/room.ts';
import { say } from '../words/index.ts';
import { scenePoint } from './pieces.ts';
import type { Scene, SceneItem, Sheet, Stroke } from './scene.ts';

/** One outline with its name, bay frame, mm. */
export interface PlacedOutline {
  readonly name: string;
  readonly outline: Polygon;
}

/** A part of the work where the car is parked. */
export interface PlacedPart extends PlacedOutline {
  readonly kind: SpaceKind;
  /** True when it lacks room, or stands in the car. */
  readonly lacksRoom: boolean;
}

/** What is drawn. `parts` is empty while it is not known where the car is parked. */
export interface SpacePlanRequest {
  readonly sheet: Sheet;
  readonly textPt: number;
  readonly walls: Polygon;
  readonly obstacles: readonly PlacedOutline[];
  readonly parts: readonly PlacedPart[];
}

const STROKES: Readonly<Record<SpaceKind, Stroke>> = {
  car: { role: 'ink', pen: 'normal' },
  footprint: { role: 'accent', pen: 'normal' },
  rolling: { role: 'pencil', pen: 'thin', dash: 'longDash' },
  clearZone: { role: 'pencil', pen: 'normal', dash: 'dotted' },
};

const LACKING: Stroke = { role: 'outside', pen: 'thick', dash: 'dashed' };

const points = (outline: Polygon) => outline.map(([x, y]) => scenePoint(x, y));

function middleOf(outline: Polygon): readonly [number, number] {
  const mean = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;
  return [mean(outline.map(([x]) => x)), mean(outline.map(([, y]) => y))];
}

function label(
  at: readonly [number, number],
  text: string,
  sizePt: number,
  rise: 'middle' | 'above' | 'below' = 'middle',
): SceneItem {
  return {
    kind: 'text',
    at: scenePoint(at[0], at[1]),
    text,
    sizePt,
    bold: false,
    align: 'middle',
    rise,
    role: 'ink',
    masked: true,
  };
}

/** Where a part's name stands: zones about the car have theirs at their upper side, so that names do not lie on each other. */
function partLabel({ kind, outline, name }: PlacedPart, sizePt: number): SceneItem {
  const [x, y] = middleOf(outline);
  if (kind === 'car' || kind === 'footprint') return label([x, y], name, sizePt);
  const ys = outline.map(([, each]) => each);
  return kind === 'clearZone'
    ? label([x, Math.max(...ys)], name, sizePt)
    : label([x, Math.min(...ys)], name, sizePt);
}

/** The plan of a bay. */
export function spacePlanScene(request: SpacePlanRequest): Scene {
  const { walls, obstacles, parts, textPt } = request;
  const all = [walls, ...obstacles.map((each) => each.outline), ...parts.map((each) => each.outline)].flat();
  const [xs, ys] = [all.map(([x]) => x), all.map(([, y]) => y)];
  const air = 0.04 * Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  const lacking = parts.some((part) => part.lacksRoom);
  const order: readonly SpaceKind[] = ['rolling', 'clearZone', 'car', 'footprint'];
  const sorted = [...parts].sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
  return {
    title: say('drawing.space.title'),
    description: say(
      parts.length === 0 ? 'drawing.space.empty' : lacking ? 'drawing.space.lacks' : 'drawing.space.fits',
    ),
    view: 'level',
    viewerAt: 'ahead',
    sheet: request.sheet,
    bounds: {
      minXMm: Math.min(...xs) - air,
      maxXMm: Math.max(...xs) + air,
      minYMm: Math.min(...ys) - air,
      maxYMm: Math.max(...ys) + air,
    },
    items: [
      { kind: 'polyline', closed: true, points: points(walls), stroke: { role: 'ink', pen: 'thick' } },
      ...obstacles.map(
        ({ outline }): SceneItem => ({
          kind: 'polyline',
          closed: true,
          points: points(outline),
          fill: { role: 'pencil', tone: 'pale' },
          stroke: { role: 'pencil', pen: 'normal' },
        }),
      ),
      ...sorted.map(
        ({ kind, outline, lacksRoom }): SceneItem => ({
          kind: 'polyline',
          closed: true,
          points: points(outline),
          stroke: lacksRoom ? LACKING : STROKES[kind],
          ...(kind === 'footprint' ? { fill: { role: 'accent', tone: 'pale' } as const } : {}),
        }),
      ),
      ...obstacles.map(({ name, outline }) => label(middleOf(outline), name, textPt)),
      ...sorted.map((part) => partLabel(part, textPt)),
    ],
  };
}
