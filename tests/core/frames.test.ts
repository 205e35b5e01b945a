import { describe, expect, test } from 'vitest';
import {
  COORDINATES,
  isAngleCoordinate,
  type PointInVehicle,
  pointInBay,
  pointInFixture,
  pointInVehicle,
  poseCoordinate,
  poseInBay,
  poseInVehicle,
} from '../../core/frames.ts';

describe('points and poses', () => {
  test('keep their numbers under the names of their frame', () => {
    expect(pointInBay(1, 2, 3)).toEqual({ xMm: 1, yMm: 2, zMm: 3 });
    expect(pointInVehicle(1, 2, 3)).toEqual({ aheadMm: 1, leftMm: 2, upMm: 3 });
    expect(pointInFixture(1, 2, 3)).toEqual({ outMm: 1, acrossMm: 2, upMm: 3 });
    const bay = { xMm: 1, yMm: 2, zMm: 3, yawRad: 0.1, pitchRad: 0.2, rollRad: 0.3 };
    expect(poseInBay(bay)).toEqual(bay);
  });

  test('a point of one frame is no point of another', () => {
    const takesVehicle = (point: PointInVehicle): number => point.aheadMm;
    // @ts-expect-error a bay point is not a vehicle point
    const wrong: PointInVehicle = pointInBay(1, 2, 3);
    expect(takesVehicle(wrong)).toBeUndefined();
    // @ts-expect-error bare numbers are no point either
    expect(takesVehicle({ aheadMm: 4, leftMm: 0, upMm: 0 })).toBe(4);
  });

  test('refuse numbers that are not finite', () => {
    expect(() => pointInBay(Number.NaN, 0, 0)).toThrow(/finite/);
    expect(() => pointInVehicle(0, Number.NEGATIVE_INFINITY, 0)).toThrow(/finite/);
  });

  test('a pose gives each coordinate by name, in printing order', () => {
    const pose = poseInVehicle({ aheadMm: 1, leftMm: 2, upMm: 3, yawRad: 4, pitchRad: 5, rollRad: 6 });
    expect(COORDINATES.map((coordinate) => poseCoordinate(pose, coordinate))).toEqual([1, 2, 3, 4, 5, 6]);
    expect(COORDINATES.filter(isAngleCoordinate)).toEqual(['yaw', 'pitch', 'roll']);
  });
});
