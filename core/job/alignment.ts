/**
 * What the four individual toes of an alignment report say together: total toe of each axle and the direction of the rear
 * axle, by `core/vehicle/toe`. It informs and is printed; the placement's own thrust line comes from readings.
 */
import { axleHeadingRad } from '../vehicle/toe.ts';
import type { Job } from './job.ts';

/** Radians; total toe positive toe-in, `thrustRad` positive to the car's left (ISO 8855 yaw). */
export interface AlignmentFacts {
  readonly totalFrontRad: number | undefined;
  readonly totalRearRad: number | undefined;
  readonly thrustRad: number | undefined;
}

function toeOf(job: Pick<Job, 'fields'>, corner: string): number | undefined {
  const value = job.fields[`prechecks.toe${corner}`]?.value;
  return typeof value === 'number' ? value : undefined;
}

/** The totals that the recorded toes give; undefined where one of a pair is missing. */
export function alignmentFacts(job: Pick<Job, 'fields'>): AlignmentFacts {
  const [fl, fr, rl, rr] = ['FL', 'FR', 'RL', 'RR'].map((corner) => toeOf(job, corner));
  const rear = rl === undefined || rr === undefined ? undefined : { leftRad: rl, rightRad: rr };
  return {
    totalFrontRad: fl === undefined || fr === undefined ? undefined : fl + fr,
    totalRearRad: rear === undefined ? undefined : rear.leftRad + rear.rightRad,
    thrustRad: rear === undefined ? undefined : axleHeadingRad(rear, 'positiveLeft'),
  };
}
