/**
 * Lays a constructed plan into the bay frame when the datum is given by single coordinates (one fixed point and one
 * coordinate of another, say) and not by whole points: the turn and shift that meet those coordinates best.
 */
import type { Vec2 } from '../../geometry/vector.ts';
import { at } from '../../linalg/at.ts';
import { matrixFromRows } from '../../linalg/matrix.ts';
import { leastSquares } from '../../linalg/qr.ts';

/** A coordinate the plan has to meet: of a constructed point, or a heading. */
export type AlignTarget =
  | { readonly axis: 0 | 1; readonly from: Vec2; readonly value: number }
  | { readonly headingRad: number; readonly value: number };

/** Turn and shift. */
export interface Laying {
  readonly turnRad: number;
  readonly shift: Vec2;
}

/** Turns tried first; the sum of squares has at most a few minima in a whole turn. */
const DIRECTIONS = 8;
const STEPS = 12;
/** Targets met to this sum of squares, mm2, need no other direction; a change below this, mm, needs no further step. */
const MET = 1e-9;
const SETTLED_MM = 1e-6;

/** The best turn and shift; none needed gives none. A free direction or shift stays where the plan has it. */
export function layInto(targets: readonly AlignTarget[]): Laying {
  if (targets.length === 0) return { turnRad: 0, shift: [0, 0] };
  let best: (Laying & { readonly misfit: number }) | undefined;
  for (let k = 0; k < DIRECTIONS; k++) {
    const found = improve(targets, (2 * Math.PI * k) / DIRECTIONS);
    if (best === undefined || found.misfit < best.misfit - 1e-9 * (1 + best.misfit)) best = found;
    if (best.misfit < MET) break;
  }
  return best ?? { turnRad: 0, shift: [0, 0] };
}

function improve(targets: readonly AlignTarget[], startTurn: number): Laying & { readonly misfit: number } {
  let turnRad = startTurn;
  let shift: Vec2 = [0, 0];
  const reach = targets.reduce(
    (r, t) => ('from' in t ? Math.max(r, Math.hypot(t.from[0], t.from[1])) : r),
    1,
  );
  for (let step = 0; step < STEPS; step++) {
    // A weak pull toward no change holds what the targets leave open.
    const pull = 1e-6;
    const rows = [
      ...targets.map((t) => targetRow(t, turnRad, reach)),
      [pull, 0, 0],
      [0, pull, 0],
      [0, 0, pull],
    ];
    const misses = [...targets.map((t) => miss(t, turnRad, shift, reach)), 0, 0, 0];
    const fit = leastSquares(matrixFromRows(rows), misses);
    if (!fit.ok) break;
    turnRad += at(fit.value.x, 0) / reach;
    shift = [shift[0] + at(fit.value.x, 1), shift[1] + at(fit.value.x, 2)];
    if (fit.value.x.every((change) => Math.abs(change) < SETTLED_MM)) break;
  }
  const misfit = targets.reduce((sum, t) => {
    const m = miss(t, turnRad, shift, reach);
    return sum + m * m;
  }, 0);
  return { turnRad, shift, misfit };
}

/** Partials by turn (times reach, so that all three are lengths), shift x, shift y. */
function targetRow(target: AlignTarget, turnRad: number, reach: number): number[] {
  if ('headingRad' in target) return [1, 0, 0];
  const [x, y] = target.from;
  const [c, s] = [Math.cos(turnRad), Math.sin(turnRad)];
  const by = target.axis === 0 ? -s * x - c * y : c * x - s * y;
  return [by / reach, target.axis === 0 ? 1 : 0, target.axis === 1 ? 1 : 0];
}

function miss(target: AlignTarget, turnRad: number, shift: Vec2, reach: number): number {
  if ('headingRad' in target) {
    const off = target.value - target.headingRad - turnRad;
    return reach * Math.atan2(Math.sin(off), Math.cos(off));
  }
  const [x, y] = target.from;
  const [c, s] = [Math.cos(turnRad), Math.sin(turnRad)];
  return target.value - (target.axis === 0 ? c * x - s * y + shift[0] : s * x + c * y + shift[1]);
}
