/**
 * The control that is due after a pause or a change, as a reading to take: the reading it repeats, under a purpose of its
 * own. What was read for an earlier pause is behind it. Looked at anew every half minute, for a pause grows by itself.
 */
import { useEffect, useMemo, useState } from 'react';
import { type ControlDue, controlDue } from '../../core/job/controlDue.ts';
import type { Job, JobSensor } from '../../core/job/job.ts';
import { type ReadingSpec, specOf } from '../../core/placement/recipe.ts';
import { type Slot, slotsOf } from './readings.ts';

/** How often the clock is looked at, ms. */
const LOOK_EVERY_MS = 30_000;

/** Once every station is captured nothing more rests on car and fixture standing still. */
export function stillMatters(job: Job, sensor: JobSensor): boolean {
  if (job.certificates.length > 0) return false;
  const captured = (station: string): boolean =>
    job.captures.some(
      (each) => each.sensor === sensor.sensor && each.station === station && each.result === 'passed',
    );
  return sensor.procedure?.stations.some((each) => !captured(each.id)) === true;
}

/** The control that is due now for the sensor in sight. */
export function useControlDue(job: Job, sensor: JobSensor | undefined): ControlDue | undefined {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = globalThis.setInterval(() => setNow(Date.now()), LOOK_EVERY_MS);
    return () => globalThis.clearInterval(timer);
  }, []);
  return useMemo(() => {
    if (sensor === undefined || !stillMatters(job, sensor)) return undefined;
    // The job's last entry may be younger than the last look at the clock.
    return controlDue(job, sensor, Math.max(now, job.last.utcMs));
  }, [job, sensor, now]);
}

/** The slot of a due control; undefined where the recipe has no such reading. */
export function controlSlot(
  job: Job,
  sensor: JobSensor,
  recipe: readonly ReadingSpec[],
  due: ControlDue | undefined,
): Slot | undefined {
  if (due === undefined) return undefined;
  const proof = specOf(recipe, { ...due.slot, purpose: 'proof' });
  if (proof === undefined) return undefined;
  const [slot] = slotsOf(job, sensor.sensor, [{ ...proof, purpose: 'control' }], proof.stage);
  if (slot === undefined) return undefined;
  return due.state === 'disagrees' ? slot : { ...slot, standing: [], state: 'missing' };
}
