/** The few vector operations the made-up layout needs, written apart from the core so that both can be wrong alone. */

export type V3 = readonly [number, number, number];

export const plus = (a: V3, b: V3, k = 1): V3 => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
export const minus = (a: V3, b: V3): V3 => plus(a, b, -1);
export const dot = (a: V3, b: V3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: V3, b: V3): V3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const size = (a: V3): number => Math.sqrt(dot(a, a));
export const unit = (a: V3): V3 => plus([0, 0, 0], a, 1 / size(a));
export const middle = (a: V3, b: V3): V3 => plus([0, 0, 0], plus(a, b), 0.5);

/** Three axes of a body in the outer frame: `axes[0]` is where its x points. */
export type Axes = readonly [V3, V3, V3];

/** `p` turned by `angle` about the unit axis `k`, right hand (Rodrigues). */
export function turned(p: V3, k: V3, angle: number): V3 {
  const c = Math.cos(angle);
  const along = dot(k, p) * (1 - c);
  return plus(plus(plus([0, 0, 0], p, c), cross(k, p), Math.sin(angle)), k, along);
}

/** All three axes turned about `k`. */
export const turnedAxes = (axes: Axes, k: V3, angle: number): Axes => [
  turned(axes[0], k, angle),
  turned(axes[1], k, angle),
  turned(axes[2], k, angle),
];

/** A point of a body in the outer frame. */
export function placed(origin: V3, axes: Axes, local: V3): V3 {
  return plus(plus(plus(origin, axes[0], local[0]), axes[1], local[1]), axes[2], local[2]);
}

/** Signed distance in plan of `p` from the line a -> b, positive on its left. */
export function leftOfLine(p: V3, a: V3, b: V3): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  return (dx * (p[1] - a[1]) - dy * (p[0] - a[0])) / Math.hypot(dx, dy);
}
