/** The sensor whose placement is looked at: the one chosen, else the first that is calibrated here. */
import { create } from 'zustand';
import type { JobSensor } from '../../core/job/job.ts';
import type { HeldJob } from './heldJob.ts';

interface Sight {
  readonly chosen: Readonly<Record<string, string>>;
}

const useSight = create<Sight>(() => ({ chosen: {} }));

/** The sensors of a job that are calibrated here. */
export function sensorsHere(held: HeldJob): readonly JobSensor[] {
  return held.job.sensors.filter((sensor) => sensor.disposition === 'staticHere');
}

export function lookAtSensor(job: string, sensor: string): void {
  useSight.setState(({ chosen }) => ({ chosen: { ...chosen, [job]: sensor } }));
}

export function useSensorInSight(held: HeldJob): JobSensor | undefined {
  const chosen = useSight((state) => state.chosen[held.job.id]);
  const here = sensorsHere(held);
  return here.find((sensor) => sensor.sensor === chosen) ?? here[0];
}
