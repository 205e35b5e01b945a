/**
 * The turn, shift and (where wanted) scale that carry points in plan best onto others, in closed form; never a
 * reflection. The two-dimensional case of Umeyama, IEEE PAMI 13 (1991) 376-380.
 */
import { err, invariant, ok, type Result } from '../result.ts';
import type { Vec2 } from './vector.ts';

/** to = scale R(turn) from + shift. */
export interface PlanMotion {
  readonly turnRad: number;
  readonly scale: number;
  readonly shift: Vec2;
  /** Mean of the squared distances left. */
  readonly meanSquare: number;
}

/** Fits a motion in plan to two or more points that do not all coincide; `scale` stays 1 unless asked for. */
export function planFit(
  from: readonly Vec2[],
  to: readonly Vec2[],
  withScale = false,
): Result<PlanMotion, { readonly code: 'geometry/tooFewPoints' | 'geometry/coincident' }> {
  invariant(from.length === to.length, 'as many points from as to');
  const n = from.length;
  if (n < 2) return err({ code: 'geometry/tooFewPoints' });
  const [cf, ct] = [mean(from), mean(to)];
  let cosine = 0;
  let sine = 0;
  let squares = 0;
  from.forEach((p, i) => {
    const q = to[i] ?? p;
    const [x, y, u, v] = [p[0] - cf[0], p[1] - cf[1], q[0] - ct[0], q[1] - ct[1]];
    cosine += x * u + y * v;
    sine += x * v - y * u;
    squares += x * x + y * y;
  });
  if (!(squares > 0)) return err({ code: 'geometry/coincident' });
  const turnRad = Math.atan2(sine, cosine);
  const scale = withScale ? Math.hypot(sine, cosine) / squares : 1;
  const turned = turnAndScale(turnRad, scale, cf);
  const motion = { turnRad, scale, shift: [ct[0] - turned[0], ct[1] - turned[1]] as const };
  const total = from.reduce((sum, p, i) => {
    const q = to[i] ?? p;
    const m = moveInPlan(motion, p);
    return sum + (q[0] - m[0]) * (q[0] - m[0]) + (q[1] - m[1]) * (q[1] - m[1]);
  }, 0);
  return ok({ ...motion, meanSquare: total / n });
}

/** p carried by the motion. */
export function moveInPlan(motion: Omit<PlanMotion, 'meanSquare'>, p: Vec2): Vec2 {
  const [x, y] = turnAndScale(motion.turnRad, motion.scale, p);
  return [x + motion.shift[0], y + motion.shift[1]];
}

function turnAndScale(turnRad: number, scale: number, [x, y]: Vec2): Vec2 {
  const [c, s] = [scale * Math.cos(turnRad), scale * Math.sin(turnRad)];
  return [c * x - s * y, s * x + c * y];
}

function mean(points: readonly Vec2[]): Vec2 {
  return [
    points.reduce((s, p) => s + p[0], 0) / points.length,
    points.reduce((s, p) => s + p[1], 0) / points.length,
  ];
}
