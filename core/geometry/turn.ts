/**
 * A rotation as one turn about one axis: the vector along the axis whose length is the angle (radians, right-handed).
 * Unlike yaw, pitch and roll it has no attitude at which it fails; it is unique for turns below half a turn.
 * Rodrigues' formula and its inverse; the Jacobian as in Sola, Deray, Atchuthan, A micro Lie theory, arXiv 1812.01537.
 */
import { at, item } from '../linalg/at.ts';
import { type Matrix, matrixFromRows } from '../linalg/matrix.ts';
import { matrixFromQuaternion } from './rotation.ts';
import { length, type Vec3 } from './vector.ts';

/** Rotation matrix of a turn vector. */
export function rotationOfTurn(turn: Vec3): Matrix {
  const angle = length(turn);
  // sin(angle / 2) / angle, which a small angle has in the limit one half.
  const share = angle < 1e-6 ? 0.5 - (angle * angle) / 48 : Math.sin(angle / 2) / angle;
  const w = Math.cos(angle / 2);
  return matrixFromQuaternion([share * turn[0], share * turn[1], share * turn[2], w]);
}

/** Turn vector of a rotation matrix, of length up to pi. At half a turn either of the two opposite vectors is given. */
export function turnOfRotation(r: Matrix): Vec3 {
  const [x, y, z, w] = quaternionOf(r);
  const sine = Math.hypot(x, y, z);
  if (sine === 0) return [0, 0, 0];
  const sign = w < 0 ? -1 : 1;
  const factor = (2 * sign * Math.atan2(sine, Math.abs(w))) / sine;
  return [factor * x, factor * y, factor * z];
}

/** Unit quaternion [x, y, z, w], from the largest of its four squares, which keeps all digits (Shepperd 1978). */
function quaternionOf(r: Matrix): readonly [number, number, number, number] {
  const e = (i: number, j: number) => at(r.data, 3 * i + j);
  const trace = e(0, 0) + e(1, 1) + e(2, 2);
  const squares = [1 + 2 * e(0, 0) - trace, 1 + 2 * e(1, 1) - trace, 1 + 2 * e(2, 2) - trace, 1 + trace];
  let largest = 0;
  for (let k = 1; k < 4; k++) if (item(squares, k) > item(squares, largest)) largest = k;
  const root = Math.sqrt(item(squares, largest));
  const [a, b, c] = [e(2, 1) - e(1, 2), e(0, 2) - e(2, 0), e(1, 0) - e(0, 1)];
  const [p, q, s] = [e(0, 1) + e(1, 0), e(0, 2) + e(2, 0), e(1, 2) + e(2, 1)];
  const others = [
    [root, p / root, q / root, a / root],
    [p / root, root, s / root, b / root],
    [q / root, s / root, root, c / root],
    [a / root, b / root, c / root, root],
  ][largest] ?? [0, 0, 0, 2];
  const [x = 0, y = 0, z = 0, w = 2] = others;
  return [x / 2, y / 2, z / 2, w / 2];
}

/**
 * How a turn vector changes when a further small turn (about outer axes) is applied after it: the inverse of the left
 * Jacobian of the rotation group. Near no turn it is the unit matrix.
 */
export function turnChange(turn: Vec3): Matrix {
  const angle = length(turn);
  const square = angle * angle;
  // 1 / a^2 - (1 + cos a) / (2 a sin a), in the limit 1/12.
  const k =
    angle < 1e-2 ? 1 / 12 + square / 720 : 1 / square - (1 + Math.cos(angle)) / (2 * angle * Math.sin(angle));
  const [x, y, z] = turn;
  return matrixFromRows([
    [1 - k * (y * y + z * z), z / 2 + k * x * y, -y / 2 + k * x * z],
    [-z / 2 + k * x * y, 1 - k * (x * x + z * z), x / 2 + k * y * z],
    [y / 2 + k * x * z, -x / 2 + k * y * z, 1 - k * (x * x + y * y)],
  ]);
}
