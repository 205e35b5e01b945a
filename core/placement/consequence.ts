/**
 * What a deviation may mean at the sensor: the turn of its aim if the sensor believed the misplaced target, and how far
 * that is at 50 m. An upper bound by plain geometry, no promise of what the sensor does with it: a sideways or height
 * error is seen under an angle from the sensor, a turned face turns the aim by as much, and a distance error shifts a
 * target that stands beside or below the sensor's line.
 */
import type { Coordinate } from '../frames.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { wrapRad } from '../units.ts';
import type { BodyKind } from './bodies/readings.ts';
import type { AimError, AimSource, Consequence } from './finding.ts';

/** Where down the road the consequence is told, m. */
const ROAD_METRES = 50;

function aimOf(coordinate: Coordinate, deviation: number, fromSensor: Vec3): number {
  const level = Math.hypot(fromSensor[0], fromSensor[1]);
  switch (coordinate) {
    case 'left':
      return Math.atan(Math.abs(deviation) / Math.abs(fromSensor[0]));
    case 'up':
      return Math.atan(Math.abs(deviation) / level);
    case 'ahead': {
      const beside = Math.hypot(fromSensor[1], fromSensor[2]);
      return Math.abs(
        Math.atan2(beside, Math.abs(fromSensor[0] + deviation)) - Math.atan2(beside, Math.abs(fromSensor[0])),
      );
    }
    case 'yaw':
    case 'pitch':
    case 'roll':
      return Math.abs(deviation);
  }
}

/** Nearest target to a sensor that still gives an aim, mm. */
const NEAREST_MM = 100;

/** The consequence of a deviation of a target required at `target`, seen from `sensor`, both in the vehicle frame. */
export function consequenceOf(
  coordinate: Coordinate,
  deviation: number,
  target: Vec3,
  sensor: { readonly aheadMm: number; readonly leftMm: number; readonly upMm: number } | undefined,
): Consequence | undefined {
  if (sensor === undefined) return undefined;
  const fromSensor: Vec3 = [target[0] - sensor.aheadMm, target[1] - sensor.leftMm, target[2] - sensor.upMm];
  if (Math.abs(fromSensor[0]) < NEAREST_MM) return undefined;
  const aimRad = aimOf(coordinate, deviation, fromSensor);
  return { aimRad, metresAt50: ROAD_METRES * Math.tan(aimRad) };
}

const azimuth = ([x, y]: Vec3): number => Math.atan2(y, x);
const elevation = ([x, y, z]: Vec3): number => Math.atan2(z, Math.hypot(x, y));

/**
 * The whole of a target's deviations as one aim error: a camera's largest of where and how turned, sideways and in height
 * each, because how it weighs the two is its maker's secret. Undefined without a sensor or with one at the target.
 *
 * @example 10 mm to the car's left of a target 3.2 m before a camera: 0.179 degrees, 0.156 m at 50 m, nothing in height.
 */
export function aimErrorOf(
  source: AimSource,
  deviation: Readonly<Record<Coordinate, number>>,
  target: Vec3,
  sensor: { readonly aheadMm: number; readonly leftMm: number; readonly upMm: number } | undefined,
): AimError | undefined {
  if (sensor === undefined) return undefined;
  const required: Vec3 = [target[0] - sensor.aheadMm, target[1] - sensor.leftMm, target[2] - sensor.upMm];
  if (Math.hypot(...required) < NEAREST_MM) return undefined;
  const found: Vec3 = [
    required[0] + deviation.ahead,
    required[1] + deviation.left,
    required[2] + deviation.up,
  ];
  const seen = {
    sideways: wrapRad(azimuth(found) - azimuth(required)),
    up: elevation(found) - elevation(required),
  };
  // ISO 8855: pitch tips the line ahead down, roll the line to the car's left up; the sensor looks along its own line.
  const heading = azimuth(required);
  const turned = {
    sideways: deviation.yaw,
    up: -deviation.pitch * Math.cos(heading) + deviation.roll * Math.sin(heading),
  };
  const [sidewaysRad, upRad] = weigh(source, seen, turned);
  return {
    sidewaysRad,
    upRad,
    sidewaysMetresAt50: ROAD_METRES * Math.tan(sidewaysRad),
    upMetresAt50: ROAD_METRES * Math.tan(upRad),
  };
}

interface Aim {
  readonly sideways: number;
  readonly up: number;
}

const larger = (a: number, b: number): number => (Math.abs(a) >= Math.abs(b) ? a : b);

function weigh(source: AimSource, seen: Aim, turned: Aim): readonly [number, number] {
  switch (source) {
    case 'camera':
      return [larger(seen.sideways, turned.sideways), larger(seen.up, turned.up)];
    case 'radarReflector':
      return [seen.sideways, seen.up];
    case 'radarPlate':
      return [turned.sideways, turned.up];
  }
}

/** How a sensor takes its aim: a radar before a plate from the plate's turn, any other radar from the target's place. */
export function aimSourceOf(sensor: 'camera' | 'radar', body: BodyKind | undefined): AimSource {
  if (sensor === 'camera') return 'camera';
  return body === 'plate' ? 'radarPlate' : 'radarReflector';
}

/** The size of an aim error whatever its direction, metres at 50 m: what two stations are compared by. */
export function aimSizeAt50(aim: AimError): number {
  return Math.hypot(aim.sidewaysMetresAt50, aim.upMetresAt50);
}
