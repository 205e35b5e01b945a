/**
 * The vehicle frame of ISO 8855:2011 from four hub centres and the four floor points beside them. Z is the normal of
 * the plane through the floor points (they stand for the tyre contact patches: a staff cannot stand under a tyre),
 * X runs from the rear-axle midpoint to the front-axle midpoint along that plane, and the origin is the foot of the
 * normal from the rear-axle midpoint. Gravity is another direction: on a 0.5 % slope a point 1 m above the floor lies
 * 5 mm beside its drop.
 */
import { fitFloorPlane, planeNormal } from '../bay/floorPlane.ts';
import type { AtWheels } from '../bay/wheels.ts';
import { rotate, rotateBack } from '../geometry/rotation.ts';
import { add, cross, inner, length, scaled, subtract, type Vec3 } from '../geometry/vector.ts';
import { type Matrix, matrixFromRows, multiply } from '../linalg/matrix.ts';
import { err, ok, type Result } from '../result.ts';

export type { AtWheels } from '../bay/wheels.ts';

/** Origin and axes in the outer (bay) frame; `axes` rows are ahead, left and up, so it carries bay into vehicle. */
export interface VehicleFrame {
  readonly origin: Vec3;
  readonly axes: Matrix;
}

/** What keeps points from making a vehicle frame. */
export type FrameError =
  | { readonly code: 'vehicle/noContactPlane' }
  | { readonly code: 'vehicle/axlesCoincide' };

/** Shortest wheelbase that still gives a direction, mm: below it the points are wrong, not the car. */
const SHORTEST_WHEELBASE_MM = 100;

/** The frame from hub centres and floor points, all in one outer frame with Z up, mm. */
export function vehicleFrame(hubs: AtWheels<Vec3>, floor: AtWheels<Vec3>): Result<VehicleFrame, FrameError> {
  const plane = fitFloorPlane([floor.FL, floor.FR, floor.RL, floor.RR]);
  if (!plane.ok) return err({ code: 'vehicle/noContactPlane' });
  const up = planeNormal(plane.value);
  const rear = midpoint(hubs.RL, hubs.RR);
  const front = midpoint(hubs.FL, hubs.FR);
  const onPlane: Vec3 = [0, 0, plane.value.z0Mm];
  const origin = subtract(rear, scaled(up, inner(up, subtract(rear, onPlane))));
  const axis = subtract(front, rear);
  const along = subtract(axis, scaled(up, inner(up, axis)));
  const lengthMm = length(along);
  if (!(lengthMm > SHORTEST_WHEELBASE_MM)) return err({ code: 'vehicle/axlesCoincide' });
  const ahead = scaled(along, 1 / lengthMm);
  return ok({ origin, axes: matrixFromRows([ahead, cross(up, ahead), up]) });
}

/** Half way between two points. */
export const midpoint = (a: Vec3, b: Vec3): Vec3 => scaled(add(a, b), 0.5);

/** A point of the outer frame in the vehicle frame: ahead, left, up in mm. */
export const pointToVehicle = (frame: VehicleFrame, point: Vec3): Vec3 =>
  rotate(frame.axes, subtract(point, frame.origin));

/** A point of the vehicle frame in the outer frame, mm. */
export const pointFromVehicle = (frame: VehicleFrame, point: Vec3): Vec3 =>
  add(frame.origin, rotateBack(frame.axes, point));

/** A body's rotation in the outer frame as its rotation in the vehicle frame. */
export const rotationToVehicle = (frame: VehicleFrame, rotation: Matrix): Matrix =>
  multiply(frame.axes, rotation);
