/** Set-ups that the planning tests share: the car and the equipment of placement's own true layout. */

import type { Coordinate } from '../../../core/frames.ts';
import type { WorkClass } from '../../../core/placement/equipment.ts';
import type { PermittedDeviation, StationRequirement } from '../../../core/placement/requirement.ts';
import type { Design } from '../../../core/planning/design.ts';
import { planDesign, predict } from '../../../core/planning/predict.ts';
import { planOnce, recipeById } from '../../../core/planning/recipes.ts';
import type { Plan, PlanSetUp, PredictedCoordinate, RecipeId } from '../../../core/planning/types.ts';
import { CENTRE, EQUIPMENT } from '../placement/trueLayout.ts';

const DEG = Math.PI / 180;

/** The car of `SQUARE` in tests/core/placement/trueLayout.ts. */
export const CAR = {
  wheelbaseMm: 2650,
  trackFrontMm: 1560,
  trackRearMm: 1550,
  hubHeightMm: 318,
  bodyFaceAheadMm: 3500,
};

const either = (limit: number): PermittedDeviation => ({ lower: -limit, upper: limit, stated: true });

/** `CENTRE` with equal tolerances for all lengths, mm, and all turns, degrees. */
export function stationWith(
  lengthMm: number,
  angleDeg: number,
  base: StationRequirement = CENTRE,
): StationRequirement {
  const [mm, rad] = [either(lengthMm), either(angleDeg * DEG)];
  return {
    ...base,
    ahead: { ...base.ahead, permitted: mm },
    left: { ...base.left, permitted: mm },
    up: { ...base.up, permitted: mm },
    yaw: { ...base.yaw, permitted: rad },
    pitch: { ...base.pitch, permitted: rad },
    roll: { ...base.roll, permitted: rad },
  };
}

/** A set-up of careful work at the centre, with what is given changed. */
export function setUpOf(change: Partial<PlanSetUp> = {}, work: WorkClass = 'careful'): PlanSetUp {
  const equipment = { ...(change.equipment ?? EQUIPMENT), work };
  return { car: CAR, stations: [CENTRE], decisionRule: 'guarded', ...change, equipment };
}

/** A design that must be there. */
export function designFor(setUp: PlanSetUp = setUpOf(), recipe: RecipeId = 'default'): Design {
  const design = planDesign(setUp, recipeById(recipe));
  if (!design.ok) throw new Error(`no design: ${JSON.stringify(design.error)}`);
  return design.value;
}

/** Each reading once, with some taken otherwise. */
export function planWith(design: Design, times: Readonly<Record<string, number>> = {}): Plan {
  return new Map([...planOnce(design.laid.slots), ...Object.entries(times)]);
}

/** One predicted coordinate that must be there. */
export function predictedOf(
  design: Design,
  plan: Plan,
  coordinate: Coordinate,
  station = 'centre',
): PredictedCoordinate {
  const predicted = predict(design, plan);
  if (!predicted.ok) throw new Error(`no prediction: ${JSON.stringify(predicted.error)}`);
  const found = predicted.value
    .find((each) => each.station === station)
    ?.coordinates.find((each) => each.coordinate === coordinate);
  if (found === undefined) throw new Error(`no ${coordinate} at ${station}`);
  return found;
}
