import { describe, expect, test } from 'vitest';
import { circlesMeet } from '../../../core/geometry/circles.ts';
import { lineFit } from '../../../core/geometry/lineFit.ts';
import { distanceToPlane, planeFit } from '../../../core/geometry/plane.ts';
import { moveInPlan, planFit } from '../../../core/geometry/planFit.ts';
import { heading, planLineThrough, pointAt, positionOn } from '../../../core/geometry/planLine.ts';
import { move, rigidFit } from '../../../core/geometry/rigidFit.ts';
import { rotate, rotateBack, rotationMatrix, yawPitchRoll } from '../../../core/geometry/rotation.ts';
import { cross, inner, length, subtract, type Vec3 } from '../../../core/geometry/vector.ts';
import { determinant3 } from '../../../core/linalg/matrix.ts';

const deg = Math.PI / 180;

describe('rotation by yaw, pitch, roll (ISO 8855: X ahead, Y left, Z up)', () => {
  const ahead: Vec3 = [1, 0, 0];
  const left: Vec3 = [0, 1, 0];
  const up: Vec3 = [0, 0, 1];
  const level = { yawRad: 0, pitchRad: 0, rollRad: 0 };

  test('positive yaw turns the nose to the left', () => {
    const nose = rotate(rotationMatrix({ ...level, yawRad: 30 * deg }), ahead);
    expect(nose[0]).toBeCloseTo(Math.cos(30 * deg), 12);
    expect(nose[1]).toBeCloseTo(0.5, 12);
    expect(nose[2]).toBeCloseTo(0, 12);
  });

  test('positive pitch puts the nose down', () => {
    const nose = rotate(rotationMatrix({ ...level, pitchRad: 10 * deg }), ahead);
    expect(nose[2]).toBeCloseTo(-Math.sin(10 * deg), 12);
    expect(nose[1]).toBe(0);
  });

  test('positive roll lifts the left side and takes the top to the right', () => {
    const r = rotationMatrix({ ...level, rollRad: 10 * deg });
    expect(rotate(r, left)[2]).toBeCloseTo(Math.sin(10 * deg), 12);
    expect(rotate(r, up)[1]).toBeCloseTo(-Math.sin(10 * deg), 12);
  });

  test('the order is yaw, then pitch, then roll: at a quarter turn of yaw, pitch dips toward the bay left', () => {
    const nose = rotate(rotationMatrix({ yawRad: 90 * deg, pitchRad: 20 * deg, rollRad: 0 }), ahead);
    expect(nose[0]).toBeCloseTo(0, 12);
    expect(nose[1]).toBeCloseTo(Math.cos(20 * deg), 12);
    expect(nose[2]).toBeCloseTo(-Math.sin(20 * deg), 12);
  });

  test('angles come back from the matrix, back and forth, and the matrix is proper', () => {
    for (const yawRad of [-3, -1, 0, 0.4, 2.9]) {
      for (const pitchRad of [-1.2, 0, 0.3]) {
        for (const rollRad of [-2.5, 0, 0.8]) {
          const r = rotationMatrix({ yawRad, pitchRad, rollRad });
          expect(determinant3(r)).toBeCloseTo(1, 12);
          const again = yawPitchRoll(r);
          expect(again.yawRad).toBeCloseTo(yawRad, 12);
          expect(again.pitchRad).toBeCloseTo(pitchRad, 12);
          expect(again.rollRad).toBeCloseTo(rollRad, 12);
          const v: Vec3 = [3, -2, 7];
          const home = rotateBack(r, rotate(r, v));
          for (const i of [0, 1, 2] as const) expect(home[i]).toBeCloseTo(v[i], 12);
        }
      }
    }
  });

  test('at a quarter turn of pitch roll is taken as zero and the matrix is still met', () => {
    const r = rotationMatrix({ yawRad: 0.3, pitchRad: Math.PI / 2, rollRad: 0.2 });
    const angles = yawPitchRoll(r);
    expect(angles.rollRad).toBe(0);
    const again = rotationMatrix(angles);
    r.data.forEach((value, i) => {
      expect(again.data[i]).toBeCloseTo(value, 9);
    });
  });
});

describe('line in plan', () => {
  test('along and offset, left positive; there and back', () => {
    const line = planLineThrough([100, 100], [400, 500]);
    if (!line.ok) throw new Error(line.error.code);
    const position = positionOn(line.value, [100 - 0.8 * 50 + 0.6 * 20, 100 + 0.6 * 50 + 0.8 * 20]);
    expect(position.along).toBeCloseTo(20, 10);
    expect(position.offset).toBeCloseTo(50, 10);
    const point = pointAt(line.value, { along: 20, offset: 50 });
    expect(point[0]).toBeCloseTo(72, 10);
    expect(heading(line.value)).toBeCloseTo(Math.atan2(4, 3), 12);
  });

  test('one point is no line', () => {
    expect(planLineThrough([1, 2], [1, 2]).ok).toBe(false);
  });
});

describe('two circles', () => {
  test('meet left and right of the way between their centres', () => {
    const meet = circlesMeet([0, 0], 500, [600, 0], 500);
    expect(meet?.left).toEqual([300, 400]);
    expect(meet?.right).toEqual([300, -400]);
    expect(meet?.gap).toBe(0);
  });

  test('that just miss give the point between with the gap; coincident centres give none', () => {
    const meet = circlesMeet([0, 0], 300, [1000, 0], 690);
    expect(meet?.halfChord).toBe(0);
    expect(meet?.gap).toBeCloseTo(10, 10);
    expect(meet?.left[0]).toBeGreaterThan(300);
    expect(meet?.left[0]).toBeLessThan(310.5);
    expect(circlesMeet([5, 5], 1, [5, 5], 2)).toBeUndefined();
  });
});

describe('best fits', () => {
  const cloud: readonly Vec3[] = [
    [0, 0, 0],
    [1000, 10, 20],
    [-200, 700, 90],
    [340, -560, 880],
    [75, 80, -430],
  ];

  test('a rigid motion is found again', () => {
    const rotation = rotationMatrix({ yawRad: 2.1, pitchRad: -0.4, rollRad: 1.3 });
    const to = cloud.map((p) => move({ rotation, shift: [120, -3400, 56] }, p));
    const fit = rigidFit(cloud, to);
    if (!fit.ok) throw new Error(fit.error.code);
    rotation.data.forEach((value, i) => {
      expect(fit.value.rotation.data[i]).toBeCloseTo(value, 10);
    });
    expect(fit.value.shift[1]).toBeCloseTo(-3400, 7);
    expect(fit.value.residualSquares).toBeCloseTo(0, 8);
  });

  test('a half turn is found too', () => {
    const rotation = rotationMatrix({ yawRad: Math.PI, pitchRad: 0, rollRad: 0 });
    const fit = rigidFit(
      cloud,
      cloud.map((p) => rotate(rotation, p)),
    );
    if (!fit.ok) throw new Error(fit.error.code);
    expect(fit.value.residualSquares).toBeCloseTo(0, 8);
  });

  test('points on a line leave the turn about it open and are refused', () => {
    const line: readonly Vec3[] = [0, 1, 2, 5].map((t) => [t, 2 * t, 3 * t]);
    expect(rigidFit(line, line)).toEqual({ ok: false, error: { code: 'geometry/collinear' } });
    expect(rigidFit(line.slice(2), line.slice(2))).toEqual({
      ok: false,
      error: { code: 'geometry/tooFewPoints' },
    });
  });

  test('a motion in plan is found again from two points', () => {
    const motion = { turnRad: -2.2, scale: 1, shift: [40, -90] as const };
    const from = [
      [0, 0],
      [2500, 30],
    ] as const;
    const fit = planFit(
      from,
      from.map((p) => moveInPlan(motion, p)),
    );
    if (!fit.ok) throw new Error(fit.error.code);
    expect(fit.value.turnRad).toBeCloseTo(-2.2, 12);
    expect(fit.value.shift[0]).toBeCloseTo(40, 8);
    expect(
      planFit(
        [
          [1, 1],
          [1, 1],
        ],
        from,
      ).ok,
    ).toBe(false);
  });

  test('a sloping floor: heights off the plane are what was added to it', () => {
    const normal: Vec3 = [-0.01, 0.005, 1];
    const grid: readonly Vec3[] = [0, 1, 2, 3].flatMap((i) =>
      [0, 1, 2].map((j): Vec3 => [1000 * i, 1000 * j, (0.01 * 1000 * i - 0.005 * 1000 * j) * 1]),
    );
    const fit = planeFit(grid);
    if (!fit.ok) throw new Error(fit.error.code);
    expect(Math.abs(inner(fit.value.normal, normal)) / length(normal)).toBeCloseTo(1, 12);
    expect(fit.value.normal[2]).toBeGreaterThan(0);
    expect(distanceToPlane(fit.value, [500, 500, 2.5 + 8])).toBeCloseTo(8 / length(normal), 9);
  });

  test('a fitted line points from the first point to the last', () => {
    const points: readonly Vec3[] = [
      [3000, 0, 1],
      [2000, 1, 0],
      [0, 0, 0],
    ];
    const fit = lineFit(points);
    if (!fit.ok) throw new Error(fit.error.code);
    expect(fit.value.direction[0]).toBeLessThan(-0.99);
    expect(lineFit([[0, 0, 0]]).ok).toBe(false);
    expect(
      lineFit([
        [1, 1, 1],
        [1, 1, 1],
      ]).ok,
    ).toBe(false);
  });

  test('two points make an exact line', () => {
    const fit = lineFit([
      [0, 0, 0],
      [0, 0, 5],
    ]);
    expect(fit.ok && fit.value.direction).toEqual([0, 0, 1]);
  });

  test('cross product is right-handed: ahead cross left is up', () => {
    expect(cross([1, 0, 0], [0, 1, 0])).toEqual([0, 0, 1]);
    expect(subtract([3, 2, 1], [1, 1, 1])).toEqual([2, 1, 0]);
  });
});
