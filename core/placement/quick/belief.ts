/** Linear algebra of a believed pose: small changes, and what one more reading leaves of a covariance (Kalman). */
import { rotationMatrix } from '../../geometry/rotation.ts';
import { add } from '../../geometry/vector.ts';
import { multiply } from '../../linalg/matrix.ts';
import type { PoseCovariance } from '../found.ts';
import type { TargetPose } from '../model.ts';

/** Six numbers in the order ahead, left, up (mm), yaw, pitch, roll (radians). */
export type Six = readonly number[];

const SIX = [0, 1, 2, 3, 4, 5] as const;
const item = (six: Six, i: number): number => six[i] ?? 0;

/** The pose after a small change: shifted, and turned about the car's axes. */
export function changed({ at, rotation }: TargetPose, by: Six): TargetPose {
  const [ahead = 0, left = 0, up = 0, yawRad = 0, pitchRad = 0, rollRad = 0] = by;
  return {
    at: add(at, [ahead, left, up]),
    rotation: multiply(rotationMatrix({ yawRad, pitchRad, rollRad }), rotation),
  };
}

/** A covariance without correlations, from six standard deviations. */
export const uncorrelated = (u: Six): PoseCovariance =>
  SIX.map((i) => SIX.map((j) => (i === j ? item(u, i) * item(u, i) : 0)));

/** C a. */
function times(covariance: PoseCovariance, a: Six): Six {
  return covariance.map((row) => row.reduce((sum, value, j) => sum + value * item(a, j), 0));
}

/** a' C a: the variance of a linear function of the pose. */
export function varianceAlong(covariance: PoseCovariance, a: Six): number {
  return times(covariance, a).reduce((sum, value, i) => sum + value * item(a, i), 0);
}

/** C + variance a a': one more error along a direction. */
export function grown(covariance: PoseCovariance, a: Six, variance: number): PoseCovariance {
  return covariance.map((row, i) => row.map((value, j) => value + variance * item(a, i) * item(a, j)));
}

/** C + D. */
export function plus(first: PoseCovariance, second: PoseCovariance): PoseCovariance {
  return first.map((row, i) => row.map((value, j) => value + (second[i]?.[j] ?? 0)));
}

/** A reading as a linear function of the pose with the variance of its error. */
export interface LinearReading {
  readonly slope: Six;
  readonly variance: number;
}

/** What a reading leaves of a covariance, and the change of the pose for each unit it reads beyond what was expected. */
export function read(
  covariance: PoseCovariance,
  { slope, variance }: LinearReading,
): { readonly covariance: PoseCovariance; readonly gain: Six } {
  const spread = times(covariance, slope);
  const total = varianceAlong(covariance, slope) + variance;
  const left = covariance.map((row, i) =>
    row.map((value, j) => value - (item(spread, i) * item(spread, j)) / total),
  );
  return { covariance: left, gain: spread.map((value) => value / total) };
}

/** What several readings leave. */
export function readAll(covariance: PoseCovariance, readings: readonly LinearReading[]): PoseCovariance {
  return readings.reduce((left, reading) => read(left, reading).covariance, covariance);
}
