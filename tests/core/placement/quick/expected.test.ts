/** What quick placement expects of each reading, against a bay written without the solver's code. */
import { describe, expect, test } from 'vitest';
import { rotationMatrix } from '../../../../core/geometry/rotation.ts';
import type { TargetPose } from '../../../../core/placement/model.ts';
import { changed } from '../../../../core/placement/quick/belief.ts';
import {
  expectedValue,
  linearReading,
  QUICK_READINGS,
  readingOf,
  slopeOf,
} from '../../../../core/placement/quick/expected.ts';
import type { Pose6 } from '../../../../core/rehearsal/trueBay.ts';
import { carOnly, fixtureReadings, GOAL, groundOf, LEVEL_AHEAD } from './bay.ts';

const asTarget = (pose: Pose6): TargetPose => ({
  at: [pose.ahead, pose.left, pose.up],
  rotation: rotationMatrix({ yawRad: pose.yaw, pitchRad: pose.pitch, rollRad: pose.roll }),
});

const signed = (value: number, direction: string | undefined): number =>
  direction === 'awayFromCar' || direction === 'carRightLow' ? -value : value;

const OFF: Pose6 = {
  ...GOAL,
  ahead: 5130,
  left: -85,
  up: 1290,
  yaw: GOAL.yaw + 0.05,
  pitch: 0.01,
  roll: -0.02,
};

describe('expected readings', () => {
  const ground = groundOf(carOnly(LEVEL_AHEAD));

  test.each([
    ['where it must stand', GOAL],
    ['off by decimetres and degrees', OFF],
  ])('are those of the bay itself, %s', (_name, pose) => {
    const truly = fixtureReadings(pose, LEVEL_AHEAD);
    expect(truly).toHaveLength(QUICK_READINGS.length);
    for (const { id, value, direction } of truly) {
      const known = QUICK_READINGS.find((each) => each === id);
      if (known === undefined) throw new Error(id);
      const expected = expectedValue(ground, asTarget(pose), known);
      const asked = readingOf(known, expected, ground.input.setUps, ground.yawRad);
      expect(signed(asked.value, asked.direction), id).toBeCloseTo(signed(value, direction), 5);
    }
  });

  test('slopes carry a small change of the pose into the reading', () => {
    const by = [0.4, -0.3, 0.2, 2e-4, -1e-4, 3e-4];
    const pose = asTarget(OFF);
    for (const id of QUICK_READINGS) {
      const slope = slopeOf(ground, pose, id);
      const linear = slope.reduce((sum, value, i) => sum + value * (by[i] ?? 0), 0);
      const change = expectedValue(ground, changed(pose, by), id) - expectedValue(ground, pose, id);
      expect(Math.abs(change - linear), id).toBeLessThan(1e-3);
    }
  });

  test('same-side tapes tell how far ahead, diagonals the side, the height only up', () => {
    const pose = asTarget(GOAL);
    const [ahead = 0, left = 0] = slopeOf(ground, pose, 'bar.sameL');
    expect(ahead).toBeGreaterThan(0.95);
    expect(Math.abs(left)).toBeLessThan(0.1);
    const [, sideways = 0] = slopeOf(ground, pose, 'bar.diagLR');
    expect(sideways).toBeLessThan(-0.8);
    const [, , up = 0] = slopeOf(ground, pose, 'target.height');
    expect(up).toBeCloseTo(1, 3);
  });

  test('a bar distance counts tape, drop and mark of careful work: about 1.2 mm together', () => {
    // 0.4 set, 0.4 repeat, 0.29 step, class II own 0.17..0.3, 0.8 bob, 0.4 mark (core/placement/defaults.ts)
    const u = Math.sqrt(linearReading(ground, asTarget(GOAL), 'bar.sameL').variance);
    expect(u).toBeGreaterThan(1.05);
    expect(u).toBeLessThan(1.35);
  });
});
