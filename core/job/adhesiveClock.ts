/**
 * The adhesive's clock: a bonded windscreen is part of the car's structure, and the adhesive's maker says how long the car
 * stands before it may be moved. From the time of bonding and those minutes comes the moment from which it may; an answer that says
 * the car was rolled, or that the time is over, given before it, is a fact that forbids the work.
 */
import { localMsOf, momentMs, momentText } from '../entry/index.ts';
import type { Job, RecordedField } from './job.ts';

const MINUTE_MS = 60_000;

/** When the glass was bonded and from when the car may be moved, milliseconds of the local clock. */
export interface AdhesiveClock {
  readonly bondedLocalMs: number;
  readonly movableLocalMs: number;
}

/** The clock of a job, or undefined where glass was not replaced, or the time or the minutes are not recorded. */
export function adhesiveClock(job: Pick<Job, 'fields'>): AdhesiveClock | undefined {
  const bonded = job.fields['prechecks.bondedAt']?.value;
  const minutes = job.fields['prechecks.adhesiveMinutes']?.value;
  if (job.fields['prechecks.glass']?.value === 'notReplaced') return undefined;
  if (typeof bonded !== 'string' || typeof minutes !== 'number') return undefined;
  const bondedLocalMs = momentMs(bonded);
  if (bondedLocalMs === undefined) return undefined;
  return { bondedLocalMs, movableLocalMs: bondedLocalMs + minutes * MINUTE_MS };
}

/** Whether the adhesive forbids that the car is moved at this moment of the local clock. */
export function mayNotMove(clock: AdhesiveClock | undefined, nowLocalMs: number): boolean {
  return clock !== undefined && nowLocalMs >= clock.bondedLocalMs && nowLocalMs < clock.movableLocalMs;
}

/** `2026-03-05 14:30`: from when it may be moved; a part of a minute counts as a whole one. */
export function movableText(clock: AdhesiveClock): string {
  return momentText(Math.ceil(clock.movableLocalMs / MINUTE_MS) * MINUTE_MS);
}

/** Fields whose answer says that the car was moved, or may be. */
const SAYS_MOVED: readonly (readonly [string, unknown])[] = [
  ['prechecks.settled', true],
  ['prechecks.adhesive', 'timeOver'],
];

/** Answers given while the adhesive's clock still ran, by their field: each forbids the work. */
export function movedTooEarly(job: Pick<Job, 'fields'>): readonly RecordedField[] {
  const clock = adhesiveClock(job);
  return SAYS_MOVED.flatMap(([field, value]) => {
    const recorded = job.fields[field];
    if (recorded === undefined || recorded.value !== value) return [];
    const { utcMs, offsetMin } = recorded.stamp;
    return mayNotMove(clock, localMsOf(utcMs, offsetMin)) ? [recorded] : [];
  });
}
