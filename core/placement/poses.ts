/** Poses and covariances as plain data of an answer. */
import { type PoseInVehicle, poseInVehicle } from '../frames.ts';
import { yawPitchRoll } from '../geometry/rotation.ts';
import { at } from '../linalg/at.ts';
import type { PoseCovariance } from './found.ts';
import type { TargetPose } from './model.ts';

/** A pose as plain numbers of the vehicle frame. */
export function asPose({ at: place, rotation }: TargetPose): PoseInVehicle {
  return poseInVehicle({
    aheadMm: place[0],
    leftMm: place[1],
    upMm: place[2],
    ...yawPitchRoll(rotation),
  });
}

/** Six rows and columns of a flat square covariance of `size`, from row and column `from` on. */
export function covarianceBlock(flat: Float64Array, size: number, from: number): PoseCovariance {
  const six = [0, 1, 2, 3, 4, 5];
  return six.map((i) => six.map((j) => at(flat, (from + i) * size + from + j)));
}
