import { describe, expect, test } from 'vitest';
import { rotationMatrix, yawPitchRoll } from '../../../core/geometry/rotation.ts';
import type { Vec3 } from '../../../core/geometry/vector.ts';
import { entry, multiply, transpose } from '../../../core/linalg/matrix.ts';
import {
  type AtWheels,
  pointFromVehicle,
  pointToVehicle,
  rotationToVehicle,
  type VehicleFrame,
  vehicleFrame,
} from '../../../core/vehicle/frame.ts';

const HUBS: AtWheels<Vec3> = {
  FL: [2700, 780, 320],
  FR: [2700, -780, 320],
  RL: [0, 770, 320],
  RR: [0, -770, 320],
};
const LEVEL: AtWheels<Vec3> = {
  FL: [2700, 1060, 0],
  FR: [2700, -1060, 0],
  RL: [0, 1050, 0],
  RR: [0, -1050, 0],
};

const frameOf = (hubs: AtWheels<Vec3>, floor: AtWheels<Vec3>): VehicleFrame => {
  const frame = vehicleFrame(hubs, floor);
  if (!frame.ok) throw new Error(frame.error.code);
  return frame.value;
};

const each = <T, U>(four: AtWheels<T>, change: (value: T) => U): AtWheels<U> => ({
  FL: change(four.FL),
  FR: change(four.FR),
  RL: change(four.RL),
  RR: change(four.RR),
});

describe('the vehicle frame', () => {
  test('on a level floor its origin is the floor under the rear-axle midpoint and its axes are those of the car', () => {
    const frame = frameOf(HUBS, LEVEL);
    expect(pointToVehicle(frame, [2700, 0, 320])).toEqual([2700, 0, 320]);
    expect(frame.origin).toEqual([0, 0, 0]);
  });

  test('on a 0.5 % slope a drop of 1 m lands 5 mm beside the foot of the normal', () => {
    // The floor rises ahead, so its normal leans rearward and a plumb line lands 5 mm behind where the normal would.
    const floor = each(LEVEL, ([x, y]): Vec3 => [x, y, 0.005 * x]);
    const hubs = each(HUBS, ([x, y, z]): Vec3 => [x, y, 0.005 * x + z]);
    const frame = frameOf(hubs, floor);
    const top: Vec3 = [1500, 0, 0.005 * 1500 + 1000];
    const dropped: Vec3 = [1500, 0, 0.005 * 1500];
    const gap = pointToVehicle(frame, top)[0] - pointToVehicle(frame, dropped)[0];
    expect(gap).toBeCloseTo(1000 * Math.sin(Math.atan(0.005)), 9);
    expect(gap).toBeCloseTo(5, 3);
  });

  test('a hub of a car on that slope lies over its contact patch along the normal, not along gravity', () => {
    const slope = Math.atan(0.005);
    const lean = (x: number, y: number, up: number): Vec3 => [
      x * Math.cos(slope) - up * Math.sin(slope),
      y,
      x * Math.sin(slope) + up * Math.cos(slope),
    ];
    const frame = frameOf(
      each(HUBS, ([x, y, z]) => lean(x, y, z)),
      each(LEVEL, ([x, y]) => lean(x, y, 0)),
    );
    const [ahead, left, up] = pointToVehicle(frame, lean(2700, 780, 320));
    expect(ahead).toBeCloseTo(2700, 9);
    expect(left).toBeCloseTo(780, 9);
    expect(up).toBeCloseTo(320, 9);
  });

  test('X runs through the axle midpoints even when the front axle stands to one side', () => {
    const hubs = { ...HUBS, FL: [2700, 790, 320], FR: [2700, -770, 320] } as const;
    const frame = frameOf(hubs, LEVEL);
    const [, left] = pointToVehicle(frame, [2700, 10, 320]);
    expect(left).toBeCloseTo(0, 9);
    // The car's axis then points to the left of the old one.
    expect(entry(frame.axes, 0, 1)).toBeCloseTo(Math.sin(Math.atan(10 / 2700)), 9);
  });

  test('a point goes there and back, in any bay', () => {
    const turn = rotationMatrix({ yawRad: 2.1, pitchRad: 0.01, rollRad: -0.02 });
    const moved = ([x, y, z]: Vec3): Vec3 => [
      entry(turn, 0, 0) * x + entry(turn, 0, 1) * y + entry(turn, 0, 2) * z + 5000,
      entry(turn, 1, 0) * x + entry(turn, 1, 1) * y + entry(turn, 1, 2) * z - 800,
      entry(turn, 2, 0) * x + entry(turn, 2, 1) * y + entry(turn, 2, 2) * z + 77,
    ];
    const frame = frameOf(each(HUBS, moved), each(LEVEL, moved));
    const place: Vec3 = [5123, -45, 1350];
    pointToVehicle(frame, moved(place)).forEach((value, i) => {
      expect(value).toBeCloseTo(place[i] ?? Number.NaN, 8);
    });
    pointFromVehicle(frame, place).forEach((value, i) => {
      expect(value).toBeCloseTo(moved(place)[i] ?? Number.NaN, 8);
    });
  });

  test('the axes are square to each other and right-handed', () => {
    const floor = each(LEVEL, ([x, y]): Vec3 => [x, y, 0.01 * x - 0.02 * y]);
    const { axes } = frameOf(HUBS, floor);
    const unit = multiply(axes, transpose(axes));
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) expect(entry(unit, i, j)).toBeCloseTo(i === j ? 1 : 0, 12);
    }
  });

  test("the rotation of a plumb body on a car that stands left side up by 1 degree is roll - in the car's frame", () => {
    const tilt = Math.tan(Math.PI / 180);
    const floor = each(LEVEL, ([x, y]): Vec3 => [x, y, tilt * y]);
    const frame = frameOf(
      each(HUBS, ([x, y, z]): Vec3 => [x, y, tilt * y + z]),
      floor,
    );
    const plumb = rotationMatrix({ yawRad: 0, pitchRad: 0, rollRad: 0 });
    expect(yawPitchRoll(rotationToVehicle(frame, plumb)).rollRad).toBeCloseTo(-Math.PI / 180, 9);
  });

  test('floor points in one line, or axles in one place, make no frame', () => {
    const inLine = { FL: [3, 3, 0], FR: [2, 2, 0], RL: [1, 1, 0], RR: [0, 0, 0] } as const;
    expect(vehicleFrame(HUBS, inLine)).toEqual({ ok: false, error: { code: 'vehicle/noContactPlane' } });
    const oneAxle = { ...HUBS, FL: HUBS.RL, FR: HUBS.RR };
    expect(vehicleFrame(oneAxle, LEVEL)).toEqual({ ok: false, error: { code: 'vehicle/axlesCoincide' } });
  });
});
