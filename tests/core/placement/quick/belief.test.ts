/** The linear algebra of a belief on hand-worked cases. */
import { describe, expect, test } from 'vitest';
import { rotationMatrix, yawPitchRoll } from '../../../../core/geometry/rotation.ts';
import {
  changed,
  grown,
  plus,
  read,
  readAll,
  uncorrelated,
  varianceAlong,
} from '../../../../core/placement/quick/belief.ts';

const AHEAD = [1, 0, 0, 0, 0, 0];

describe('a belief', () => {
  test('takes a reading as a weighted mean: 3 mm and 4 mm give 2.4 mm, and 9 parts of 25 of what was new', () => {
    const before = uncorrelated([3, 1, 1, 0.1, 0.1, 0.1]);
    const { covariance, gain } = read(before, { slope: AHEAD, variance: 16 });
    expect(Math.sqrt(varianceAlong(covariance, AHEAD))).toBeCloseTo(2.4, 12);
    expect(gain[0]).toBeCloseTo(9 / 25, 12);
    expect(gain.slice(1)).toEqual([0, 0, 0, 0, 0]);
  });

  test('a sum of two coordinates that is read ties them together', () => {
    const { covariance } = read(uncorrelated([2, 2, 1, 1, 1, 1]), { slope: [1, 1, 0, 0, 0, 0], variance: 0 });
    expect(covariance[0]?.[0]).toBeCloseTo(2, 12);
    expect(covariance[0]?.[1]).toBeCloseTo(-2, 12);
    expect(varianceAlong(covariance, [1, 1, 0, 0, 0, 0])).toBeCloseTo(0, 12);
  });

  test('the order of readings does not matter', () => {
    const readings = [
      { slope: [1, 0.5, 0, 20, 0, 0], variance: 1.2 },
      { slope: [0.3, -1, 0.1, 5, 0, 1], variance: 0.7 },
    ];
    const start = uncorrelated([20, 30, 5, 0.1, 0.02, 0.02]);
    const forth = readAll(start, readings);
    const back = readAll(start, [...readings].reverse());
    forth.forEach((row, i) => {
      row.forEach((value, j) => {
        expect(value).toBeCloseTo(back[i]?.[j] ?? Number.NaN, 9);
      });
    });
  });

  test('grows along a move and nowhere else; covariances add', () => {
    const more = grown(uncorrelated([1, 1, 1, 1, 1, 1]), [0, 2, 0, 0, 0, 0], 9);
    expect(more[1]?.[1]).toBe(37);
    expect(more[0]?.[0]).toBe(1);
    expect(plus(more, more)[1]?.[1]).toBe(74);
  });

  test('a change shifts in the car and turns about its axes, after the pose that was', () => {
    const pose = {
      at: [5000, 0, 1350] as const,
      rotation: rotationMatrix({ yawRad: Math.PI, pitchRad: 0, rollRad: 0 }),
    };
    const there = changed(pose, [-3, 4, 5, 0.01, 0.002, 0]);
    expect(there.at).toEqual([4997, 4, 1355]);
    const turned = yawPitchRoll(there.rotation);
    expect(Math.abs(turned.yawRad)).toBeCloseTo(Math.PI - 0.01, 6);
    // Of a face that looks back at the car a nose-down turn of the car's axes is nose up.
    expect(turned.pitchRad).toBeCloseTo(-0.002, 9);
  });
});
