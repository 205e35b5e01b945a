/**
 * The surveyed floor along the car's line, from the side: its true form enlarged in height by a stated factor, gravity's level
 * through the lowest place, and where the axles and the fixture stand.
 */
import { formatFixed } from '../units.ts';
import { say } from '../words/index.ts';
import { niceBelow } from './niceScale.ts';
import { line, scenePoint, sign } from './pieces.ts';
import type { Scene, SceneItem, Sheet, TextItem } from './scene.ts';

/** A place along the car's line. */
export interface ProfilePlace {
  /** Ahead of the rear axle, mm. */
  readonly aheadMm: number;
  /** Height of the floor, mm, in any zero. */
  readonly heightMm: number;
}

/** What is drawn. */
export interface FloorProfileRequest {
  readonly sheet: Sheet;
  readonly textPt: number;
  readonly decimalSign: ',' | '.';
  /** In rising order, at least two. */
  readonly floor: readonly ProfilePlace[];
  /** Places with a name under the line: axles, fixture. */
  readonly marks: readonly { readonly aheadMm: number; readonly text: string }[];
}

/** Share of the drawing's length that the enlarged fall may rise. */
const RISE_SHARE = 0.1;
const MOST_FACTOR = 200;

/** Height of the floor between two places of a profile, or undefined beyond them. */
function heightAt(floor: readonly ProfilePlace[], aheadMm: number): number | undefined {
  const next = floor.findIndex((place) => place.aheadMm >= aheadMm);
  const [a, b] = [floor[next - 1] ?? floor[next], floor[next]];
  if (a === undefined || b === undefined || aheadMm < a.aheadMm) return undefined;
  const share = b.aheadMm === a.aheadMm ? 0 : (aheadMm - a.aheadMm) / (b.aheadMm - a.aheadMm);
  return a.heightMm + share * (b.heightMm - a.heightMm);
}

/** The profile as a drawing. */
export function floorProfileScene(request: FloorProfileRequest): Scene {
  const { floor, textPt } = request;
  const heights = floor.map((place) => place.heightMm);
  const lowest = Math.min(...heights);
  const fall = Math.max(...heights) - lowest;
  const [from, to] = [floor[0]?.aheadMm ?? 0, floor[floor.length - 1]?.aheadMm ?? 1];
  const length = Math.max(1, to - from);
  const factor = fall > 0 ? Math.min(MOST_FACTOR, Math.max(1, niceBelow((RISE_SHARE * length) / fall))) : 1;
  const raised = (heightMm: number): number => factor * (heightMm - lowest);
  const note = (at: readonly [number, number], text: string, rise: TextItem['rise']): TextItem => ({
    kind: 'text',
    at: scenePoint(at[0], at[1]),
    text,
    sizePt: textPt,
    bold: false,
    align: 'middle',
    rise,
    role: 'pencil',
    masked: false,
  });
  const marks = request.marks.flatMap(({ aheadMm, text }): readonly SceneItem[] => {
    const height = heightAt(floor, aheadMm);
    if (height === undefined) return [];
    return [
      sign(scenePoint(aheadMm, raised(height)), 'dot', 8, 'ink'),
      note([aheadMm, raised(height) + 0.015 * length], text, 'above'),
    ];
  });
  const caption = say('drawing.profile.caption', {
    fall: formatFixed(fall, 1, request.decimalSign),
    factor: formatFixed(factor, 0),
  });
  return {
    title: say('drawing.profile.title'),
    description: caption,
    view: 'level',
    viewerAt: 'ahead',
    sheet: request.sheet,
    bounds: {
      minXMm: from - 0.04 * length,
      maxXMm: to + 0.04 * length,
      minYMm: -0.07 * length,
      maxYMm: (RISE_SHARE + 0.05) * length,
    },
    items: [
      line([scenePoint(from, 0), scenePoint(to, 0)], { role: 'pencil', pen: 'thin', dash: 'dashDot' }),
      line(
        floor.map((place) => scenePoint(place.aheadMm, raised(place.heightMm))),
        { role: 'ink', pen: 'thick' },
      ),
      ...marks,
      note([(from + to) / 2, -0.02 * length], caption, 'below'),
    ],
  };
}
