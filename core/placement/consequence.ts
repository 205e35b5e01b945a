/**
 * What a deviation may mean at the sensor: the turn of its aim if the sensor believed the misplaced target, and how far
 * that is at 50 m. An upper bound by plain geometry, no promise of what the sensor does with it: a sideways or height
 * error is seen under an angle from the sensor, a turned face turns the aim by as much, and a distance error shifts a
 * target that stands beside or below the sensor's line.
 */
import type { Coordinate } from '../frames.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { Consequence } from './types.ts';

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
