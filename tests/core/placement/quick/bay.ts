/** A measured car on a slope with a bar somewhere before it, read without a fault: what the tests of quick placement stand on. */

import type { PlacementInput } from '../../../../core/placement/placementInput.ts';
import type { PlacementReading } from '../../../../core/placement/placementReading.ts';
import { QUICK_READINGS } from '../../../../core/placement/quick/expected.ts';
import { type QuickGround, quickGround } from '../../../../core/placement/quick/ground.ts';
import { fixturePartOf } from '../../../../core/placement/recipeSpec.ts';
import type { Pose6, TrueLayout } from '../../../../core/rehearsal/trueBay.ts';
import { inputOf, SQUARE } from '../trueLayout.ts';

/** The station's own pose. */
export const GOAL = SQUARE.target;

/** The bay of the tests: half a per cent of slope both ways, the floor going on under the fixture. */
export const SLOPING: TrueLayout = { ...SQUARE, floorSlope: [0.004, -0.003], beyondAhead: 1200 };

/** Only what is read of the car and the floor, which is read where the fixture must stand. */
export function carOnly(layout: TrueLayout = SLOPING): PlacementInput {
  const input = inputOf({ ...layout, target: GOAL });
  const readings = input.readings.filter(
    ({ id, purpose }) => fixturePartOf(id) === undefined && purpose === 'proof',
  );
  return { ...input, readings };
}

/** Fixture readings of a pose; the floor under it is as high as where it must stand when `layout` is level there. */
export function fixtureReadings(pose: Pose6, layout: TrueLayout = SLOPING): readonly PlacementReading[] {
  const ids: readonly string[] = QUICK_READINGS;
  return inputOf({ ...layout, target: pose }).readings.filter(
    ({ id, purpose }) => purpose === 'proof' && ids.includes(id),
  );
}

/** The ground of an input that must have one. */
export function groundOf(input: PlacementInput = carOnly()): QuickGround {
  const ground = quickGround(input);
  if (!ground.ok) throw new Error(`no ground: ${JSON.stringify(ground.error)}`);
  return ground.value;
}

/** A level floor under the fixture, so that its height does not depend on where it stands. */
export const LEVEL_AHEAD: TrueLayout = { ...SLOPING, fixtureFloor: [12, 0, 0] };
