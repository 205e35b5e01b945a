/** Vectors in space and in the plane, as bare numbers: units and frame are those of whoever calls. */

/** x, y, z. */
export type Vec3 = readonly [number, number, number];
/** x, y. */
export type Vec2 = readonly [number, number];

/** a - b. */
export function subtract(a: Vec3, b: Vec3): Vec3 {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

/** a + b. */
export function add(a: Vec3, b: Vec3): Vec3 {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
}

/** a times the number k. */
export function scaled(a: Vec3, k: number): Vec3 {
  return [a[0] * k, a[1] * k, a[2] * k];
}

/** Inner product. */
export function inner(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** Vector product, right-handed: ahead cross left is up. */
export function cross(a: Vec3, b: Vec3): Vec3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** Length. */
export function length(a: Vec3): number {
  return Math.hypot(a[0], a[1], a[2]);
}

/** The mean of some points; of none it is a bug and throws by the division's NaN never being asked for. */
export function centroid(points: readonly Vec3[]): Vec3 {
  const sum = points.reduce<Vec3>(add, [0, 0, 0]);
  return scaled(sum, 1 / points.length);
}
