/**
 * A made-up bay: a floor with a real slope, a car on it that is not quite square, a fixture that stands where it is
 * told to. Everything is true here; `readings.ts` reads it with instruments that err. Bay frame: x about ahead of the
 * car, y about to its left, z up by gravity, mm.
 */
import { type Axes, cross, dot, middle, minus, placed, plus, turnedAxes, unit, type V3 } from './vectors.ts';

/** Slopes of the floor: 0.34 % rising ahead and 0.21 % rising to the car's left, 0.40 % in all. */
export const SLOPE_AHEAD = 0.0034;
export const SLOPE_LEFT = 0.0021;

/** Height of the floor: a plane with waves of less than a millimetre. */
export function floorZ(x: number, y: number): number {
  const waves = 0.6 * Math.sin(x / 930) + 0.5 * Math.cos(y / 610 + x / 1700);
  return SLOPE_AHEAD * x + SLOPE_LEFT * y + waves;
}

export type Wheel = 'FL' | 'FR' | 'RL' | 'RR';
export const WHEELS: readonly Wheel[] = ['FL', 'FR', 'RL', 'RR'];

/** Hub centres in plan: wheelbase 2712 and 2709 mm, tracks 1562 and 1554 mm. */
const HUB_PLAN: Readonly<Record<Wheel, readonly [number, number]>> = {
  FL: [2712, 779],
  FR: [2710, -783],
  RL: [0, 777],
  RR: [1, -777],
};
/** Height of a hub over the floor under its tyre. */
const HUB_HEIGHT = 316;

/** True lengths of the side arms; the shop believes 250 for both. */
export const TRUE_ARM = { left: 250.2, right: 249.9 } as const;

export function hub(wheel: Wheel): V3 {
  const [x, y] = HUB_PLAN[wheel];
  return [x, y, floorZ(x, y) + HUB_HEIGHT];
}

/** Where the plumb line past the side arm meets the floor when nothing errs. */
export function armFoot(wheel: Wheel): V3 {
  const [left, right] = wheel.startsWith('F') ? [hub('FL'), hub('FR')] : [hub('RL'), hub('RR')];
  const outward = wheel.endsWith('L') ? minus(left, right) : minus(right, left);
  const flat = unit([outward[0], outward[1], 0]);
  const [x, y] = plus(hub(wheel), flat, wheel.endsWith('L') ? TRUE_ARM.left : TRUE_ARM.right);
  return [x, y, floorZ(x, y)];
}

/** Least-squares plane z = c + a x + b y through four points, by its normal equations. */
function planeNormalAndFoot(points: readonly V3[], below: V3): { readonly up: V3; readonly foot: V3 } {
  const n = points.length;
  const mean = points.reduce<V3>((sum, p) => plus(sum, p, 1 / n), [0, 0, 0]);
  let [xx, xy, yy, xz, yz] = [0, 0, 0, 0, 0];
  for (const p of points) {
    const [x, y, z] = minus(p, mean);
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * z;
    yz += y * z;
  }
  const det = xx * yy - xy * xy;
  const [a, b] = [(xz * yy - yz * xy) / det, (yz * xx - xz * xy) / det];
  const up = unit([-a, -b, 1]);
  return { up, foot: plus(below, up, -dot(up, minus(below, mean))) };
}

/** The vehicle frame (ISO 8855 axes on the plane of the floor at the wheels, origin under the rear-axle midpoint). */
export const vehicle: { readonly origin: V3; readonly axes: Axes } = (() => {
  const rear = middle(hub('RL'), hub('RR'));
  const front = middle(hub('FL'), hub('FR'));
  const { up, foot } = planeNormalAndFoot(WHEELS.map(armFoot), rear);
  const along = minus(front, rear);
  const ahead = unit(plus(along, up, -dot(up, along)));
  return { origin: foot, axes: [ahead, cross(up, ahead), up] };
})();

/** A point of the vehicle frame in the bay. */
export const fromVehicle = (p: V3): V3 => placed(vehicle.origin, vehicle.axes, p);
/** A point of the bay in the vehicle frame. */
export function toVehicle(p: V3): V3 {
  const d = minus(p, vehicle.origin);
  return [dot(d, vehicle.axes[0]), dot(d, vehicle.axes[1]), dot(d, vehicle.axes[2])];
}

/** The front-most body point: 884 mm ahead of the front axle, a little beside the middle, 520 mm up. */
export const FACE_HEIGHT = 520;
export const face: V3 = (() => {
  const axle = toVehicle(middle(hub('FL'), hub('FR')));
  return fromVehicle([axle[0] + 884, 6, FACE_HEIGHT]);
})();

/** How far a stand of the fixture is out, as the placement would report it: mm, and degrees about the car's axes. */
export type Deviation = {
  readonly ahead: number;
  readonly left: number;
  readonly up: number;
  readonly yaw: number;
  readonly pitch: number;
  readonly roll: number;
};

/** Dimensions of the fixture: true ones; the shop believes 2000, 60, 350. */
export const FIXTURE = { halfBar: 1000.1, faceOut: 60.3, faceUp: 349.8 } as const;

/** The required place of the target's centre in the vehicle frame: 1500 mm ahead of the face, on the line, 1350 up. */
export const required: V3 = [toVehicle(face)[0] + 1500, 0, 1350];

/** A fixture in the bay: the target's centre, its axes, the bar's centre. */
export type Stand = { readonly target: V3; readonly axes: Axes; readonly bar: V3 };

const DEG = Math.PI / 180;

/** The fixture where a deviation puts it: it faces the car, turned by yaw, pitch, roll about the car's axes. */
export function standAt(deviation: Deviation): Stand {
  const [X, Y, Z] = vehicle.axes;
  const facing: Axes = [plus([0, 0, 0], X, -1), plus([0, 0, 0], Y, -1), Z];
  const yawed = turnedAxes(facing, Z, deviation.yaw * DEG);
  const pitched = turnedAxes(yawed, Y, deviation.pitch * DEG);
  const axes = turnedAxes(pitched, X, deviation.roll * DEG);
  const target = fromVehicle(plus(required, [deviation.ahead, deviation.left, deviation.up]));
  const bar = placed(target, axes, [-FIXTURE.faceOut, 0, -FIXTURE.faceUp]);
  return { target, axes, bar };
}

/** A bar end; the car's left is along the fixture's minus y. */
export function barEnd(stand: Stand, side: 'left' | 'right'): V3 {
  return placed(stand.bar, stand.axes, [0, side === 'left' ? -FIXTURE.halfBar : FIXTURE.halfBar, 0]);
}

/** The target's centre slid along the bar, positive to the car's left. */
export function slid(stand: Stand, towardCarLeft: number): V3 {
  return placed(stand.target, stand.axes, [0, -towardCarLeft, 0]);
}

/** How far the top leans toward the car and the car's-left end hangs low, against gravity, degrees. */
export function tilts(stand: Stand): { readonly towardCar: number; readonly carLeftLow: number } {
  return {
    towardCar: Math.asin(-stand.axes[0][2]) / DEG,
    carLeftLow: Math.asin(stand.axes[1][2]) / DEG,
  };
}

/**
 * How much lower the floor lies under the target than on the straight line between the floor under the bar ends, mm. The
 * height is read down to the floor under the target while placement takes that floor as straight.
 */
export function floorDip(stand: Stand): number {
  const [left, right] = [barEnd(stand, 'left'), barEnd(stand, 'right')];
  const straight = (floorZ(left[0], left[1]) + floorZ(right[0], right[1])) / 2;
  return straight - floorZ(stand.target[0], stand.target[1]);
}
