/** What the adjustment says about the car: its points in the vehicle frame, its lines, its slopes. */
import { derive } from '../adjust/derive.ts';
import type { Estimates, Solution } from '../adjust/solution.ts';
import { fitFloorPlane, heightsAbovePlane } from '../bay/floorPlane.ts';
import { type PointInVehicle, pointInVehicle } from '../frames.ts';
import { length, subtract } from '../geometry/vector.ts';
import { entry } from '../linalg/matrix.ts';
import { invariant } from '../result.ts';
import { linesDiffer } from '../vehicle/datum.ts';
import { pointToVehicle } from '../vehicle/frame.ts';
import type { FoundQuantity, ThrustLineFound, VehicleFound, VehiclePoint } from './found.ts';
import { aheadDatumMm, bayPoint, frameOf, lineHeadingRad, vehiclePoint } from './model.ts';
import { hubId, markId, pointId } from './names.ts';
import type { Wheel } from './placementReading.ts';
import { WHEELS } from './placementReading.ts';
import type { SlotValues } from './readings.ts';

const EXTENDED = ['ahead.L', 'ahead.R', 'behind.L', 'behind.R'] as const;

function found(solution: Solution, quantity: (estimates: Estimates) => number): FoundQuantity {
  const { value, u, dof } = derive(solution, quantity);
  return { value, u, dof };
}

const hubDistance =
  (a: Wheel, b: Wheel) =>
  (estimates: Estimates): number =>
    length(subtract(bayPoint(estimates, hubId(a)), bayPoint(estimates, hubId(b))));

function pointsOf(solution: Solution, withFace: boolean): VehicleFound['points'] {
  const { estimates } = solution;
  const frame = frameOf(estimates);
  const points: Partial<Record<VehiclePoint, PointInVehicle>> = {};
  const place = (name: VehiclePoint): void => {
    points[name] = pointInVehicle(...vehiclePoint(estimates, frame, pointId(name)));
  };
  for (const wheel of WHEELS) {
    place(`hub.${wheel}`);
    place(`mark.${wheel}`);
  }
  for (const name of EXTENDED) place(name);
  if (withFace) {
    const [x, y, z] = bayPoint(estimates, pointId('bodyFace'));
    const face = pointToVehicle(frame, [x, y, z + estimates.shared('bodyFace.height')]);
    points.bodyFace = pointInVehicle(...face);
  }
  return points;
}

function thrustLineOf(solution: Solution): ThrustLineFound {
  const { value, u, dof, U } = derive(solution, (estimates) => lineHeadingRad(estimates, 'thrustLine'));
  return { angle: { value, u, dof }, expandedRad: U, differs: linesDiffer(value, U) };
}

/** True when both rear toes are there. */
export const knowsThrustLine = (values: SlotValues): boolean => values.has('toe.RL') && values.has('toe.RR');

/** True when the body face is measured. */
export const knowsBodyFace = (values: SlotValues): boolean => values.has('face');

/** Everything about the car. */
export function vehicleFound(solution: Solution, values: SlotValues): VehicleFound {
  const { estimates } = solution;
  const frame = frameOf(estimates);
  const marks = WHEELS.map((wheel) => bayPoint(estimates, markId(wheel)));
  const plane = fitFloorPlane(marks);
  invariant(plane.ok, 'a solved car has a contact plane');
  const [FL = 0, FR = 0, RL = 0, RR = 0] = heightsAbovePlane(plane.value, marks);
  const withFace = knowsBodyFace(values);
  return {
    points: pointsOf(solution, withFace),
    wheelbase: found(solution, (e) => aheadDatumMm(e, frameOf(e), 'frontAxle')),
    trackFront: found(solution, hubDistance('FL', 'FR')),
    trackRear: found(solution, hubDistance('RL', 'RR')),
    slopeAheadRad: Math.asin(entry(frame.axes, 0, 2)),
    slopeLeftRad: Math.asin(entry(frame.axes, 1, 2)),
    warpMm: { FL, FR, RL, RR },
    frontAxleAheadMm: aheadDatumMm(estimates, frame, 'frontAxle'),
    ...(withFace ? { bodyFaceAheadMm: aheadDatumMm(estimates, frame, 'bodyFace') } : {}),
    ...(knowsThrustLine(values) ? { thrustLine: thrustLineOf(solution) } : {}),
  };
}
