/**
 * What the readings of one sensor's stand will prove, before they are taken: the job's procedure, equipment and rule laid out
 * for planning. The car is the one found as soon as it is known, until then one of the middle size: a plan changes by tenths
 * of a millimetre between cars, a verdict on the instruments hardly ever. Only a bar fixture can be planned.
 */
import type { PlacementInput, VehicleFound } from '../placement/types.ts';
import { planDefaults } from '../planning/defaults.ts';
import {
  type Alternative,
  type Design,
  type Fewest,
  fewest,
  type PlanCar,
  type PlanningError,
  type PlanSetUp,
  type Proof,
  planDesign,
  planOnce,
  recipeById,
  whatItProves,
  whatWouldProve,
} from '../planning/index.ts';
import { err, ok, type Result } from '../result.ts';

/** What a plan says of one tolerance, and of one that stays open what would prove it. */
export interface PlannedProof {
  readonly proof: Proof;
  /** Only of what is not proven: the least demanding recipe and way of working that would; absent where none does. */
  readonly wouldProve?: Alternative;
}

/** The plan of a stand. */
export interface JobPlan {
  readonly design: Design;
  /** One for each coordinate with a tolerance, of every station of the stand. */
  readonly proofs: readonly PlannedProof[];
  /** True when the car's own dimensions were used. */
  readonly carKnown: boolean;
}

/** Why there is no plan. */
export type JobPlanError = PlanningError | { readonly code: 'planning/otherBody' };

function carOf(vehicle: VehicleFound | undefined): PlanCar {
  if (vehicle === undefined) return planDefaults.car;
  const hub = vehicle.points['hub.FL'];
  return {
    wheelbaseMm: vehicle.wheelbase.value,
    trackFrontMm: vehicle.trackFront.value,
    trackRearMm: vehicle.trackRear.value,
    hubHeightMm: hub === undefined || hub.upMm <= 0 ? planDefaults.car.hubHeightMm : hub.upMm,
    bodyFaceAheadMm:
      vehicle.bodyFaceAheadMm ??
      vehicle.wheelbase.value + planDefaults.car.bodyFaceAheadMm - planDefaults.car.wheelbaseMm,
  };
}

/** The set-up of a plan for what the solver takes of a stand: the first instrument of each kind is the one picked. */
export function planSetUpOf(input: PlacementInput, vehicle: VehicleFound | undefined): PlanSetUp {
  const instruments = Object.fromEntries(
    [...input.equipment.instruments].reverse().map(({ kind, id }) => [kind, id]),
  );
  return {
    car: carOf(vehicle),
    equipment: input.equipment,
    stations: input.stations,
    decisionRule: input.decisionRule,
    instruments,
    ...(input.bodyFaceHeight === undefined ? {} : { bodyFaceHeight: input.bodyFaceHeight }),
  };
}

/** The plan of a stand with each reading of the default recipe taken once. Fails where planning knows no such body. */
export function jobPlan(
  input: PlacementInput,
  vehicle: VehicleFound | undefined,
): Result<JobPlan, JobPlanError> {
  if (input.body !== undefined && input.body !== 'bar') return err({ code: 'planning/otherBody' });
  const setUp = planSetUpOf(input, vehicle);
  const design = planDesign(setUp, recipeById('default'));
  if (!design.ok) return design;
  const plan = planOnce(design.value.laid.slots);
  const proofs = (whatItProves(design.value, plan) ?? []).map((proof): PlannedProof => {
    const found = proof.outcome === 'proves' ? undefined : whatWouldProve(setUp, proof);
    return found === undefined ? { proof } : { proof, wouldProve: found };
  });
  return ok({ design: design.value, proofs, carKnown: vehicle !== undefined });
}

/** The fewest readings that prove every tolerance of a plan; a search of its own, made when it is asked for. */
export function fewestOf(plan: JobPlan): Fewest {
  return fewest(plan.design);
}
