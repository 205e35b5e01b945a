/** The fixture as it stands: bar and target in the vehicle frame, with the target's six by six covariance. */
import { deriveAll } from '../adjust/derive.ts';
import type { Solution } from '../adjust/solution.ts';
import { pointInVehicle } from '../frames.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { pointToVehicle } from '../vehicle/frame.ts';
import type { FixtureFound } from './found.ts';
import { frameOf, targetAtCentre, turnBetween, vehiclePoint } from './model.ts';
import { FIXTURE_ID, pointId } from './names.ts';
import type { CarSide } from './placementReading.ts';
import { asPose, covarianceBlock } from './poses.ts';

/** Pose and covariance of a solved fixture. */
export function fixtureFound(solution: Solution): FixtureFound {
  const { estimates } = solution;
  const frame = frameOf(estimates);
  const target = targetAtCentre(estimates, frame);
  const { xMm, yMm, zMm } = estimates.body(FIXTURE_ID);
  const origin: Vec3 = [xMm, yMm, zMm];
  const end = (side: CarSide) => pointInVehicle(...vehiclePoint(estimates, frame, pointId(`barEnd.${side}`)));
  const { covariance } = deriveAll(solution, (e) => {
    const there = targetAtCentre(e, frameOf(e));
    const turn = turnBetween(target.rotation, there.rotation);
    return [...there.at, turn.yawRad, turn.pitchRad, turn.rollRad];
  });
  return {
    bar: asPose({ at: pointToVehicle(frame, origin), rotation: target.rotation }),
    target: asPose(target),
    covariance: covarianceBlock(covariance, 6, 0),
    barEnds: { carLeft: end('carLeft'), carRight: end('carRight') },
  };
}
