/**
 * The plan of the stand in sight. Counting takes a tenth of a second and the search for what repeats would do about as long
 * again, so both are reckoned beside the window, once for what they depend on.
 */
import { useMemo } from 'react';
import type { Job, JobSensor } from '../../core/job/job.ts';
import type { JobPlanError } from '../../core/job/jobPlan.ts';
import { placementInput } from '../../core/job/solve.ts';
import type { VehicleFound } from '../../core/placement/found.ts';
import type { PlacementInput } from '../../core/placement/placementInput.ts';
import type { Enough } from '../../core/planning/index.ts';
import { ok, type Result } from '../../core/result.ts';
import type { CountedPlan, EnoughQuestion, PlanQuestion } from '../ahead/reckon.ts';
import { useReckoned } from '../ahead/useReckoned.ts';

export interface PlanAhead {
  readonly plan: CountedPlan;
  /** Comes a little later; null where no number of readings proves everything. */
  readonly enough?: Enough | null;
}

/** Dimensions that differ by less than this make the same plan, mm. */
const SAME_CAR_MM = 50;

/** Everything a plan depends on, as one text. */
export function planKey(input: PlacementInput, vehicle: VehicleFound | undefined): string {
  const { readings: _read, setUps: _at, ...rest } = input;
  const car = [vehicle?.wheelbase, vehicle?.trackFront, vehicle?.trackRear].map((each) =>
    each === undefined ? 0 : Math.round(each.value / SAME_CAR_MM),
  );
  return JSON.stringify([rest, car]);
}

function questionsOf(
  input: PlacementInput,
  vehicle: VehicleFound | undefined,
): { readonly plan: PlanQuestion; readonly enough: EnoughQuestion } {
  // The readings are not planned with, and would be copied for nothing.
  const matter = { key: planKey(input, vehicle), input: { ...input, readings: [] }, vehicle };
  return { plan: { ...matter, ask: 'plan' }, enough: { ...matter, ask: 'enough' } };
}

/** The plan of the stand in sight: undefined until it is counted, null where it cannot be, or the sensor has no stand yet. */
export function usePlanAhead(
  job: Job,
  sensor: JobSensor,
  vehicle: VehicleFound | undefined,
): Result<PlanAhead, JobPlanError> | null | undefined {
  const questions = useMemo(() => {
    const input = placementInput(job, sensor);
    return input.ok ? questionsOf(input.value, vehicle) : undefined;
  }, [job, sensor, vehicle]);
  const plan = useReckoned(questions?.plan);
  const enough = useReckoned(plan?.ok === true ? questions?.enough : undefined);
  return useMemo(() => {
    if (plan === undefined || plan === null || !plan.ok) return plan;
    return ok({ plan: plan.value, ...(enough === undefined ? {} : { enough }) });
  }, [plan, enough]);
}
