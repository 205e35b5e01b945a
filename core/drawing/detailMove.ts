/** Arrows of the move that comes next, in the detail: from where centre and ends stand to where the move takes them. */
import type { Move } from '../placement/instruction.ts';
import type { DetailModel, Shift } from './detailModel.ts';
import type { DetailPlaces } from './detailPlaces.ts';
import { movedAlong, scenePoint } from './pieces.ts';
import type { ArrowItem, ScenePoint } from './scene.ts';

/** An arrow under this length on the sheet says nothing, points. */
const LEAST_ARROW_PT = 6;
/** Length of an arrow's head, points. */
const HEAD_PT = 13;

/** Moves that are seen in plan; no arrow for a slide, which moves no fixture, nor for heights and leans. */
const PLAN_MOVES: ReadonlySet<Move['kind']> = new Set(['turn', 'roll', 'shift']);

/** What a move does to the centre and to the car's-left and the other end, mm. */
export function moveShifts(
  move: Move,
  detail: DetailModel,
): { readonly centre: Shift; readonly ends: readonly [Shift, Shift] } {
  const centre = scenePoint(move.predictedEffect.ahead, move.predictedEffect.left);
  const swing = Math.tan(move.predictedEffect.yaw) * detail.halfBarMm;
  const end = (side: 1 | -1): Shift => movedAlong(centre, side * swing, detail.barRad + Math.PI / 2);
  return { centre, ends: [end(1), end(-1)] };
}

/**
 * The arrows of one move. A turn that lengthens them pushes the ends of the bar, so they start there; the middle one
 * shows what the target's centre does. Arrows too short to see are left out.
 */
export function moveArrows(
  move: Move,
  detail: DetailModel,
  places: DetailPlaces,
  ptPerMm: number,
  signScale: number,
): readonly ArrowItem[] {
  const { centre, endCarLeft, endCarRight } = detail;
  if (!PLAN_MOVES.has(move.kind)) return [];
  if (centre === undefined || endCarLeft === undefined || endCarRight === undefined) return [];
  const effect = moveShifts(move, detail);
  const plus = (a: Shift, b: Shift): Shift => scenePoint(a.xMm + b.xMm, a.yMm + b.yMm);
  const pairs: readonly (readonly [ScenePoint, ScenePoint])[] = [
    [places.atCentre(centre), places.atCentre(plus(centre, effect.centre))],
    [places.atEnd(1, endCarLeft), places.atEnd(1, plus(endCarLeft, effect.ends[0]))],
    [places.atEnd(-1, endCarRight), places.atEnd(-1, plus(endCarRight, effect.ends[1]))],
  ];
  return pairs
    .filter(([from, to]) => Math.hypot(to.xMm - from.xMm, to.yMm - from.yMm) * ptPerMm >= LEAST_ARROW_PT)
    .map(([from, to]) => ({
      kind: 'arrow',
      from,
      to,
      headPt: HEAD_PT * signScale,
      stroke: { role: 'ink', pen: 'thick' },
    }));
}
