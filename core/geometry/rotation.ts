/**
 * Rotations by yaw, then pitch, then roll (ISO 8855:2011: intrinsic Z, Y', X''): R = Rz(yaw) Ry(pitch) Rx(roll).
 * Yaw turns left seen from above, pitch is positive nose down, roll positive left side up. Radians.
 */

import { at } from '../linalg/at.ts';
import { type Matrix, matrixFromRows } from '../linalg/matrix.ts';
import { invariant } from '../result.ts';
import type { Vec3 } from './vector.ts';

/** The three angles of an attitude, in the order they are turned. */
export interface YawPitchRoll {
  readonly yawRad: number;
  readonly pitchRad: number;
  readonly rollRad: number;
}

/** Rotation matrix: its columns are the body's x, y and z axes in the outer frame. */
export function rotationMatrix({ yawRad, pitchRad, rollRad }: YawPitchRoll): Matrix {
  const [cy, sy] = [Math.cos(yawRad), Math.sin(yawRad)];
  const [cp, sp] = [Math.cos(pitchRad), Math.sin(pitchRad)];
  const [cr, sr] = [Math.cos(rollRad), Math.sin(rollRad)];
  return matrixFromRows([
    [cy * cp, cy * sp * sr - sy * cr, cy * sp * cr + sy * sr],
    [sy * cp, sy * sp * sr + cy * cr, sy * sp * cr - cy * sr],
    [-sp, cp * sr, cp * cr],
  ]);
}

/** An x axis with less than this of it level is so near a quarter turn of pitch that yaw and roll are hardly two. */
const NEARLY_UPRIGHT = 1e-2;

/**
 * Yaw, pitch and roll of a rotation matrix; pitch within a quarter turn. At a quarter turn of pitch yaw and roll turn
 * about the same axis and roll is taken as zero.
 */
export function yawPitchRoll(r: Matrix): YawPitchRoll {
  invariant(r.rows === 3 && r.columns === 3, 'a rotation matrix is 3 by 3');
  const e = (i: number, j: number) => at(r.data, 3 * i + j);
  const levelPart = Math.hypot(e(0, 0), e(1, 0));
  const pitchRad = Math.atan2(-e(2, 0), levelPart);
  if (levelPart < 1e-12) return { yawRad: Math.atan2(-e(0, 1), e(1, 1)), pitchRad, rollRad: 0 };
  const yawRad = Math.atan2(e(1, 0), e(0, 0));
  if (levelPart > NEARLY_UPRIGHT) return { yawRad, pitchRad, rollRad: Math.atan2(e(2, 1), e(2, 2)) };
  // Near a quarter turn yaw comes from small numbers; roll taken from what is left after it makes up for its error.
  const [cy, sy] = [Math.cos(yawRad), Math.sin(yawRad)];
  const rollRad = Math.atan2(sy * e(0, 2) - cy * e(1, 2), cy * e(1, 1) - sy * e(0, 1));
  return { yawRad, pitchRad, rollRad };
}

/** R v. */
export function rotate(r: Matrix, v: Vec3): Vec3 {
  const row = (i: number) =>
    at(r.data, 3 * i) * v[0] + at(r.data, 3 * i + 1) * v[1] + at(r.data, 3 * i + 2) * v[2];
  return [row(0), row(1), row(2)];
}

/** R' v: from the outer frame into the body's. */
export function rotateBack(r: Matrix, v: Vec3): Vec3 {
  const column = (j: number) => at(r.data, j) * v[0] + at(r.data, 3 + j) * v[1] + at(r.data, 6 + j) * v[2];
  return [column(0), column(1), column(2)];
}

/** Rotation matrix of a unit quaternion [x, y, z, w]. */
export function matrixFromQuaternion(q: readonly [number, number, number, number]): Matrix {
  const [x, y, z, w] = q;
  return matrixFromRows([
    [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
    [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
    [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
  ]);
}
