/**
 * What the readings of one sensor's stand will prove, before they are taken: the job's procedure, equipment and rule laid out
 * for planning. The car is the one found as soon as it is known, until then one of the middle size: a plan changes by tenths
 * of a millimetre between cars, a verdict on the instruments hardly ever. Only a bar fixture can be planned.
 */
import type { VehicleFound } from '../placement/found.ts';
import type { PlacementInput } from '../placement/placementInput.ts';
import { planDefaults } from '../planning/defaults.ts';
import {
  type Alternative,
  type Design,
  type Enough,
  enough,
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
  /**
   * Only where a coordinate is worst off and not proven: the least demanding recipe and way of working that would prove it;
   * absent where none does.
   */
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

const RANK = { cannot: 0, moreWould: 1, proves: 2 } as const;

/** The station where a coordinate is worst off: by outcome, then by the room it leaves. */
export function worstOf(proofs: readonly Proof[], coordinate: Proof['coordinate']): Proof | undefined {
  return proofs
    .filter((each) => each.coordinate === coordinate)
    .sort((a, b) => RANK[a.outcome] - RANK[b.outcome] || a.room - b.room)[0];
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
  const all = whatItProves(design.value, plan) ?? [];
  const proofs = all.map((proof): PlannedProof => {
    const asks = proof.outcome !== 'proves' && worstOf(all, proof.coordinate) === proof;
    const found = asks ? whatWouldProve(setUp, proof) : undefined;
    return found === undefined ? { proof } : { proof, wouldProve: found };
  });
  return ok({ design: design.value, proofs, carKnown: vehicle !== undefined });
}

/**
 * How often each reading is to be taken so that every limit is proven; undefined where no number of them proves one. Counted
 * on its own, when it is asked for.
 */
export function enoughOf(plan: JobPlan): Enough | undefined {
  if (plan.proofs.some(({ proof }) => proof.outcome === 'cannot')) return undefined;
  return enough(plan.design);
}
