/**
 * A bay as it truly is, and the readings a faultless person would take in it. Written from the definitions alone (axes,
 * gravity, tape, plumb line), without a line of the solver's code, so that the two can disagree.
 *
 * World: Z up by gravity. The car stands on a plane floor; its hubs are given in its own frame (ahead, left, height over
 * the floor plane). The target's pose is given in the car's frame; the fixture may stand on a floor of its own.
 */
import type { PlacementEquipment } from '../placement/equipment.ts';
import type { TiltDirection } from '../placement/placementReading.ts';

export type P3 = readonly [number, number, number];
export type Pose6 = {
  readonly ahead: number;
  readonly left: number;
  readonly up: number;
  readonly yaw: number;
  readonly pitch: number;
  readonly roll: number;
};

/** Everything that is true. Lengths mm, angles rad, slopes as pure numbers in world x and y. */
export interface TrueLayout {
  readonly carAt: readonly [number, number];
  readonly carHeading: number;
  readonly floorSlope: readonly [number, number];
  readonly hubs: Readonly<Record<'FL' | 'FR' | 'RL' | 'RR', P3>>;
  readonly armLeft: number;
  readonly armRight: number;
  readonly beyondAhead: number;
  readonly beyondBehind: number;
  /** The front-most body point in the car's frame. */
  readonly face: P3;
  readonly toeLeft: number;
  readonly toeRight: number;
  readonly target: Pose6;
  /** The fixture's floor: height at world zero and slopes; absent goes on as the car's floor. */
  readonly fixtureFloor?: readonly [number, number, number];
  readonly slides?: Readonly<Record<string, { readonly towardCarLeft: number; readonly sag: number }>>;
}

export const plus = (a: P3, b: P3): P3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const less = (a: P3, b: P3): P3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const by = (a: P3, k: number): P3 => [a[0] * k, a[1] * k, a[2] * k];
export const dotted = (a: P3, b: P3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const crossed = (a: P3, b: P3): P3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const norm = (a: P3): number => Math.sqrt(dotted(a, a));
export const dir = (a: P3): P3 => by(a, 1 / norm(a));

/** Turns v about a unit axis by an angle, right-handed (Rodrigues). */
export function about(axis: P3, angle: number, v: P3): P3 {
  return plus(
    plus(by(v, Math.cos(angle)), by(crossed(axis, v), Math.sin(angle))),
    by(axis, dotted(axis, v) * (1 - Math.cos(angle))),
  );
}

/** Three axes of a body turned by yaw about up, then pitch about its own left, then roll about its own ahead. */
export type Axes = { readonly x: P3; readonly y: P3; readonly z: P3 };
export function turnedAxes(frame: Axes, yaw: number, pitch: number, roll: number): Axes {
  let axes: Axes = frame;
  const spin = (axis: P3, angle: number): void => {
    axes = { x: about(axis, angle, axes.x), y: about(axis, angle, axes.y), z: about(axis, angle, axes.z) };
  };
  spin(axes.z, yaw);
  spin(axes.y, pitch);
  spin(axes.x, roll);
  return axes;
}

export interface World {
  readonly carAxes: Axes;
  readonly carOrigin: P3;
  readonly points: Readonly<Record<string, P3>>;
  readonly fixtureAxes: Axes;
  readonly fixtureOrigin: P3;
  readonly target: P3;
  floorZ(x: number, y: number): number;
  fixtureFloorZ(x: number, y: number): number;
  toCar(p: P3): P3;
}

/** What goes wrong in a real bay: where a made point lies beside where it should (level, mm), and how a reading errs. */
export interface Errors {
  beside(point: string): readonly [number, number];
  read(key: string, value: number, direction?: TiltDirection): number;
}

const FAULTLESS: Errors = { beside: () => [0, 0], read: (_key, value) => value };

/** World coordinates of everything. */
export function worldOf(
  layout: TrueLayout,
  equipment: PlacementEquipment,
  errors: Errors = FAULTLESS,
): World {
  const [sx, sy] = layout.floorSlope;
  const floorZ = (x: number, y: number): number => sx * x + sy * y;
  const up = dir([-sx, -sy, 1]);
  const heading: P3 = [Math.cos(layout.carHeading), Math.sin(layout.carHeading), 0];
  const ahead = dir(less(heading, by(up, dotted(up, heading))));
  const carAxes: Axes = { x: ahead, y: crossed(up, ahead), z: up };
  const [cx, cy] = layout.carAt;
  const carOrigin: P3 = [cx, cy, floorZ(cx, cy)];
  const fromCar = ([a, l, u]: P3): P3 =>
    plus(carOrigin, plus(by(carAxes.x, a), plus(by(carAxes.y, l), by(carAxes.z, u))));
  const toCar = (p: P3): P3 => {
    const d = less(p, carOrigin);
    return [dotted(carAxes.x, d), dotted(carAxes.y, d), dotted(carAxes.z, d)];
  };
  const points: Record<string, P3> = {};
  const hubs = {
    FL: fromCar(layout.hubs.FL),
    FR: fromCar(layout.hubs.FR),
    RL: fromCar(layout.hubs.RL),
    RR: fromCar(layout.hubs.RR),
  };
  const dropped = (name: string, hub: P3, inner: P3, arm: number): P3 => {
    const level = dir([hub[0] - inner[0], hub[1] - inner[1], 0]);
    const [dx, dy] = errors.beside(name);
    const [x, y] = plus(plus(hub, by(level, arm)), [dx, dy, 0]);
    return [x, y, floorZ(x, y)];
  };
  points['mark.FL'] = dropped('mark.FL', hubs.FL, hubs.FR, layout.armLeft);
  points['mark.FR'] = dropped('mark.FR', hubs.FR, hubs.FL, layout.armRight);
  points['mark.RL'] = dropped('mark.RL', hubs.RL, hubs.RR, layout.armLeft);
  points['mark.RR'] = dropped('mark.RR', hubs.RR, hubs.RL, layout.armRight);
  for (const wheel of ['FL', 'FR', 'RL', 'RR'] as const) points[`hub.${wheel}`] = hubs[wheel];
  const beyond = (name: string, near: P3, far: P3, distance: number): P3 => {
    const level = dir([near[0] - far[0], near[1] - far[1], 0]);
    const aside = crossed([0, 0, 1], level);
    const [along, across] = errors.beside(name);
    const [x, y] = plus(plus(near, by(level, distance + along)), by(aside, across));
    return [x, y, floorZ(x, y)];
  };
  points['ahead.L'] = beyond('ahead.L', points['mark.FL'], points['mark.RL'], layout.beyondAhead);
  points['ahead.R'] = beyond('ahead.R', points['mark.FR'], points['mark.RR'], layout.beyondAhead);
  points['behind.L'] = beyond('behind.L', points['mark.RL'], points['mark.FL'], layout.beyondBehind);
  points['behind.R'] = beyond('behind.R', points['mark.RR'], points['mark.FR'], layout.beyondBehind);
  points.face = fromCar(layout.face);
  const t = layout.target;
  const fixtureAxes = turnedAxes(carAxes, t.yaw, t.pitch, t.roll);
  const target = fromCar([t.ahead, t.left, t.up]);
  const { outMm, acrossMm, upMm } = equipment.fixture.face;
  const fixtureOrigin = less(
    target,
    plus(by(fixtureAxes.x, outMm), plus(by(fixtureAxes.y, acrossMm), by(fixtureAxes.z, upMm))),
  );
  const [f0, fx, fy] = layout.fixtureFloor ?? [0, sx, sy];
  const fixtureFloorZ = (x: number, y: number): number => f0 + fx * x + fy * y;
  const half = equipment.fixture.barLength.mm / 2;
  const plusY = plus(fixtureOrigin, by(fixtureAxes.y, half));
  const minusY = plus(fixtureOrigin, by(fixtureAxes.y, -half));
  const leftFirst = dotted(fixtureAxes.y, carAxes.y) > 0;
  const down = (name: string, [x, y]: P3): P3 => {
    const [dx, dy] = errors.beside(name);
    return [x + dx, y + dy, fixtureFloorZ(x + dx, y + dy)];
  };
  points['barEnd.carLeft'] = leftFirst ? plusY : minusY;
  points['barEnd.carRight'] = leftFirst ? minusY : plusY;
  points['barMark.carLeft'] = down('barMark.carLeft', points['barEnd.carLeft']);
  points['barMark.carRight'] = down('barMark.carRight', points['barEnd.carRight']);
  return { carAxes, carOrigin, points, fixtureAxes, fixtureOrigin, target, floorZ, fixtureFloorZ, toCar };
}

export const distance = (a: P3, b: P3): number => norm(less(a, b));

const pointOf = (world: World, name: string): P3 => {
  const point = world.points[name];
  if (point === undefined) throw new Error(`the layout has no point ${name}`);
  return point;
};

export type Numbers = Record<string, { value: number; direction?: TiltDirection }>;

/** The height of the instrument's plane over the world's zero: any will do. */
const PLANE_MM = 1432.1;

/** Every reading of the recipe, by slot key, exactly as the layout has it. */
export function trueReadings(
  layout: TrueLayout,
  equipment: PlacementEquipment,
  near: 'ahead' | 'behind' = 'ahead',
  errors: Errors = FAULTLESS,
): Numbers {
  const world = worldOf(layout, equipment, errors);
  const p = (name: string): P3 => pointOf(world, name);
  const gap = (a: string, b: string) => ({ value: distance(p(a), p(b)) });
  const readings: Numbers = {};
  for (const wheel of ['FL', 'FR', 'RL', 'RR'] as const) {
    readings[`floor.${wheel}`] = { value: PLANE_MM - p(`mark.${wheel}`)[2] };
    readings[`drop.${wheel}`] = { value: p(`hub.${wheel}`)[2] - p(`mark.${wheel}`)[2] };
  }
  readings['floor.fixtureLeft'] = { value: PLANE_MM - p('barMark.carLeft')[2] };
  readings['floor.fixtureRight'] = { value: PLANE_MM - p('barMark.carRight')[2] };
  readings['base.L'] = gap('mark.RL', 'mark.FL');
  readings['base.R'] = gap('mark.RR', 'mark.FR');
  readings['ahead.L'] = gap('mark.FL', 'ahead.L');
  readings['ahead.R'] = gap('mark.FR', 'ahead.R');
  readings['behind.L'] = gap('mark.RL', 'behind.L');
  readings['behind.R'] = gap('mark.RR', 'behind.R');
  readings['width.ahead'] = gap('ahead.L', 'ahead.R');
  readings['width.behind'] = gap('behind.L', 'behind.R');
  readings['diagonal.LR'] = gap('behind.L', 'ahead.R');
  readings['diagonal.RL'] = gap('behind.R', 'ahead.L');
  const [al, ar, face] = [p('ahead.L'), p('ahead.R'), p('face')];
  const line = dir([ar[0] - al[0], ar[1] - al[1], 0]);
  const fromLine: P3 = [face[0] - al[0], face[1] - al[1], 0];
  readings.face = { value: norm(less(fromLine, by(line, dotted(line, fromLine)))) };
  readings['toe.RL'] = {
    value: Math.abs(layout.toeLeft),
    direction: layout.toeLeft < 0 ? 'toeOut' : 'toeIn',
  };
  readings['toe.RR'] = {
    value: Math.abs(layout.toeRight),
    direction: layout.toeRight < 0 ? 'toeOut' : 'toeIn',
  };
  readings['bar.sameL'] = gap(`${near}.L`, 'barMark.carLeft');
  readings['bar.sameR'] = gap(`${near}.R`, 'barMark.carRight');
  readings['bar.diagLR'] = gap(`${near}.L`, 'barMark.carRight');
  readings['bar.diagRL'] = gap(`${near}.R`, 'barMark.carLeft');
  readings['bar.sameL!control'] = readings['bar.sameL'];
  const half = (pointOf(world, 'barMark.carLeft')[2] + pointOf(world, 'barMark.carRight')[2]) / 2;
  const across =
    (equipment.fixture.face.acrossMm / equipment.fixture.barLength.mm) *
    (dotted(world.fixtureAxes.y, world.carAxes.y) > 0 ? 1 : -1);
  const fall = pointOf(world, 'barMark.carLeft')[2] - pointOf(world, 'barMark.carRight')[2];
  readings['target.height'] = { value: world.target[2] - half - across * fall };
  // The top leans out of the face, so toward a car the face looks at, when the face's normal dips.
  const dip = -Math.asin(world.fixtureAxes.x[2]);
  readings['fixture.pitch'] = { value: Math.abs(dip), direction: dip >= 0 ? 'towardCar' : 'awayFromCar' };
  const leftHigher = p('barEnd.carLeft')[2] - p('barEnd.carRight')[2];
  const tilt = Math.asin(Math.abs(leftHigher) / equipment.fixture.barLength.mm);
  readings['fixture.roll'] = { value: tilt, direction: leftHigher > 0 ? 'carRightLow' : 'carLeftLow' };
  for (const [station, { towardCarLeft, sag }] of Object.entries(layout.slides ?? {})) {
    const alongLeft = dir(less(p('barEnd.carLeft'), p('barEnd.carRight')));
    const slid = plus(world.target, by(alongLeft, towardCarLeft));
    const share = across + towardCarLeft / equipment.fixture.barLength.mm;
    readings[`slide@${station}`] = { value: Math.abs(towardCarLeft) };
    readings[`target.height@${station}`] = { value: slid[2] - sag - half - share * fall };
  }
  return withErrors(readings, errors);
}

/** Opposite way of a tilt or toe, for an error that carries it past zero. */
const OPPOSITE: Readonly<Record<TiltDirection, TiltDirection>> = {
  towardCar: 'awayFromCar',
  awayFromCar: 'towardCar',
  carLeftLow: 'carRightLow',
  carRightLow: 'carLeftLow',
  toeIn: 'toeOut',
  toeOut: 'toeIn',
};

function withErrors(numbers: Numbers, errors: Errors): Numbers {
  const read: Numbers = {};
  for (const [key, { value, direction }] of Object.entries(numbers)) {
    const seen = errors.read(key, value, direction);
    if (direction === undefined) read[key] = { value: seen };
    else read[key] = { value: Math.abs(seen), direction: seen < 0 ? OPPOSITE[direction] : direction };
  }
  return read;
}
