/**
 * The plan of the stand in sight. Counting takes a tenth of a second and the search for what repeats would do about as long again, so
 * both are done once for what they depend on, and only when the window has nothing else to do.
 */
import { useEffect, useMemo, useState } from 'react';
import type { Job, JobSensor } from '../../core/job/job.ts';
import { enoughOf, type JobPlan, type JobPlanError, jobPlan } from '../../core/job/jobPlan.ts';
import { placementInput } from '../../core/job/solve.ts';
import type { VehicleFound } from '../../core/placement/found.ts';
import type { PlacementInput } from '../../core/placement/placementInput.ts';
import type { Enough } from '../../core/planning/index.ts';
import { ok, type Result } from '../../core/result.ts';

export interface PlanAhead {
  readonly plan: JobPlan;
  /** Comes a little later; null where no number of readings proves everything. */
  readonly enough?: Enough | null;
}

type Planned = Result<PlanAhead, JobPlanError>;

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

/** Plans of the last stands looked at, the newest last. */
const known = new Map<string, Planned>();
const MOST_KNOWN = 12;
/** So long nothing was recorded or drawn anew, ms: between the keys of a number there is less. */
const REST_MS = 300;

function keep(key: string, planned: Planned): void {
  known.delete(key);
  known.set(key, planned);
  const [oldest] = known.keys();
  if (known.size > MOST_KNOWN && oldest !== undefined) known.delete(oldest);
}

/** The next part of a plan that is still to be counted; undefined when it is whole. */
export function nextPart(
  input: PlacementInput,
  vehicle: VehicleFound | undefined,
  so: Planned | undefined,
): Planned | undefined {
  if (so === undefined) {
    const plan = jobPlan(input, vehicle);
    return plan.ok ? ok({ plan: plan.value }) : plan;
  }
  if (!so.ok || so.value.enough !== undefined) return undefined;
  return ok({ ...so.value, enough: enoughOf(so.value.plan) ?? null });
}

/** The plan of the stand in sight: undefined until it is counted, or where the sensor has no stand yet. */
export function usePlanAhead(
  job: Job,
  sensor: JobSensor,
  vehicle: VehicleFound | undefined,
): Planned | undefined {
  const input = useMemo(() => placementInput(job, sensor), [job, sensor]);
  const key = input.ok ? planKey(input.value, vehicle) : undefined;
  const so = key === undefined ? undefined : known.get(key);
  const [, redraw] = useState(0);
  useEffect(() => {
    if (key === undefined || !input.ok || (so !== undefined && (!so.ok || so.value.enough !== undefined)))
      return undefined;
    const timer = globalThis.setTimeout(() => {
      const next = nextPart(input.value, vehicle, so);
      if (next !== undefined) keep(key, next);
      redraw((count) => count + 1);
    }, REST_MS);
    return () => globalThis.clearTimeout(timer);
  }, [key, input, vehicle, so]);
  return so;
}
