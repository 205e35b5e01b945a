/** A look against the proof set's own solution, and against the linear belief it is chosen by. */
import { describe, expect, test } from 'vitest';
import { yawPitchRoll } from '../../../../core/geometry/rotation.ts';
import { readAll, uncorrelated } from '../../../../core/placement/quick/belief.ts';
import { linearReading } from '../../../../core/placement/quick/expected.ts';
import { afterLook } from '../../../../core/placement/quick/look.ts';
import { putUpByEye } from '../../../../core/placement/quick/quickPlacement.ts';
import type { QuickKnowledge } from '../../../../core/placement/quick/types.ts';
import type { Pose6 } from '../../../../core/rehearsal/trueBay.ts';
import { answerOf } from '../answers.ts';
import { carOnly, fixtureReadings, GOAL, groundOf, LEVEL_AHEAD } from './bay.ts';

const OFF: Pose6 = {
  ...GOAL,
  ahead: 4890,
  left: 70,
  up: 1362,
  yaw: GOAL.yaw - 0.04,
  pitch: 0.006,
  roll: 0.004,
};
const ground = groundOf(carOnly(LEVEL_AHEAD));
const readings = fixtureReadings(OFF, LEVEL_AHEAD);

function lookAt(ids: readonly string[], before: QuickKnowledge = putUpByEye(ground)): QuickKnowledge {
  const seen = afterLook(
    ground,
    before,
    readings.filter(({ id }) => ids.includes(id)),
  );
  if (!seen.ok) throw new Error(JSON.stringify(seen.error));
  return seen.value;
}

const ALL = readings.map(({ id }) => id);

describe('a look', () => {
  test('of all seven readings and next to nothing believed finds the pose that is there', () => {
    const wide = { ...putUpByEye(ground), covariance: uncorrelated([2000, 2000, 2000, 0.5, 0.5, 0.5]) };
    const { pose } = lookAt(ALL, wide);
    expect(pose.at[0]).toBeCloseTo(OFF.ahead, 2);
    expect(pose.at[1]).toBeCloseTo(OFF.left, 2);
    expect(pose.at[2]).toBeCloseTo(OFF.up, 2);
    const { yawRad, pitchRad, rollRad } = yawPitchRoll(pose.rotation);
    expect(Math.sin(yawRad - OFF.yaw)).toBeCloseTo(0, 6);
    expect(pitchRad).toBeCloseTo(OFF.pitch, 6);
    expect(rollRad).toBeCloseTo(OFF.roll, 6);
  });

  test('is less sure than the car allows: its u lies below that of the proof set, which counts the car', () => {
    const { covariance } = lookAt(ALL);
    const proof = answerOf({
      ...carOnly(LEVEL_AHEAD),
      readings: [...carOnly(LEVEL_AHEAD).readings, ...readings],
    });
    const full = proof.stations[0]?.covariance ?? [];
    for (const i of [0, 1, 3]) {
      expect(covariance[i]?.[i] ?? Number.NaN).toBeGreaterThan(0);
      expect(covariance[i]?.[i] ?? Number.NaN).toBeLessThan(full[i]?.[i] ?? 0);
    }
  });

  test('leaves the covariance that the linear belief foretells, where drops are not shared', () => {
    const before = { pose: lookAt(ALL).pose, covariance: uncorrelated([20, 20, 10, 0.01, 0.01, 0.01]) };
    const pair = ['bar.sameL', 'bar.sameR'] as const;
    const foretold = readAll(
      before.covariance,
      pair.map((id) => linearReading(ground, before.pose, id)),
    );
    const { covariance } = lookAt(pair, before);
    for (const i of [0, 1, 2, 3, 4, 5]) {
      const ratio = (covariance[i]?.[i] ?? Number.NaN) / (foretold[i]?.[i] ?? Number.NaN);
      expect(Math.abs(ratio - 1), `coordinate ${i}`).toBeLessThan(0.03);
    }
  });

  test('of the two same-side tapes tells ahead and turn and leaves the side as open as it was', () => {
    const before = putUpByEye(ground);
    const { covariance } = lookAt(['bar.sameL', 'bar.sameR'], before);
    expect(Math.sqrt(covariance[0]?.[0] ?? Number.NaN)).toBeLessThan(20);
    expect(Math.sqrt(covariance[3]?.[3] ?? Number.NaN)).toBeLessThan(0.02);
    expect(Math.sqrt(covariance[1]?.[1] ?? Number.NaN)).toBeGreaterThan(150);
  });

  test('refuses a tilt without its way', () => {
    const bare = readings
      .filter(({ id }) => id === 'fixture.pitch')
      .map(({ direction: _way, ...rest }) => rest);
    expect(afterLook(ground, putUpByEye(ground), bare)).toMatchObject({
      ok: false,
      error: { code: 'placement/directionMissing', readingIds: ['fixture.pitch'] },
    });
  });
});
