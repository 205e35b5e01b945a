/** A job as the window holds it: its events in order, the state they fold to, and the personal texts they refer to. */
import type { Output } from '../../core/contract/index.ts';
import type { Job } from '../../core/job/job.ts';
import { type JobEvent, reduceEvent } from '../../core/job/reduce.ts';

type Stored = Output<'job.record'>['events'][number];

export interface HeldJob {
  readonly events: readonly JobEvent[];
  readonly job: Job;
  /** Texts by personal id, where they have not been erased. */
  readonly personal: Readonly<Record<string, string>>;
}

/** Reads the stored text of an event. The service checked it against its hash and its schema when it was appended. */
export function jobEventOf(stored: Stored): JobEvent {
  return JSON.parse(stored.text) as JobEvent;
}

/**
 * Adds events to a held job: those already held are skipped, so that an answer and a notice may both bring them.
 * Undefined when there is a gap between what is held and what came, or no opening: the job must be read again.
 */
export function withEvents(
  held: HeldJob | undefined,
  stored: readonly Stored[],
  personal: Readonly<Record<string, string>>,
): HeldJob | undefined {
  let job = held?.job;
  const events = [...(held?.events ?? [])];
  const incoming = stored.map(jobEventOf).sort((a, b) => a.seq - b.seq);
  for (const event of incoming) {
    const seen = job?.last.seq ?? 0;
    if (event.seq <= seen) continue;
    if (event.seq !== seen + 1) return undefined;
    job = reduceEvent(job, event);
    events.push(event);
  }
  if (job === undefined) return undefined;
  return { events, job, personal: { ...held?.personal, ...personal } };
}
