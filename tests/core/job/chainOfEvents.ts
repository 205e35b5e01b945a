/** Builds whole chains for the tests of events, chains and journal. */
import type { JsonObject } from '../../../core/canonical.ts';
import { type EventEnvelope, eventHash, GENESIS, writeEvent } from '../../../core/job/event.ts';

export const STORE = '01a21209-052e-7706-9d17-a3a062af9ab9';
export const JOB = '01a21209-0551-74e3-8ca7-210b55be4a36';
export const OTHER_JOB = '01a21209-0551-74e3-8ca7-000000000000';

/** An envelope with every member; change what a test is about. */
export function envelope(change: Partial<EventEnvelope> = {}): EventEnvelope {
  return {
    store: STORE,
    job: JOB,
    seq: 1,
    storeSeq: 1,
    type: 'readingRecorded',
    v: 1,
    at: { utcMs: 1_795_598_910_801, offsetMin: 60, zone: 'Europe/Berlin', monoMs: 1_423_829 },
    person: 'p1',
    device: 'bay-pc',
    app: '0.1.0',
    commandId: '01a21209-0551-7775-b119-365a80b75b6a',
    payload: { value: 1350.5, text: '1350,5' },
    prevInJob: GENESIS,
    prevInStore: GENESIS,
    ...change,
  };
}

/** The stored text of an envelope; one that does not fit is a bug of the test. */
export function textOf(event: EventEnvelope): string {
  const text = writeEvent(event);
  if (!text.ok) throw new Error(text.error.details.problem);
  return text.value;
}

/** Texts of a store in which the named jobs take turns, as `jobs` says; `payloadOf` gives the nth payload (from 1). */
export function storeOfEvents(
  jobs: readonly string[],
  payloadOf: (storeSeq: number) => JsonObject = (storeSeq) => ({ value: storeSeq }),
): readonly { readonly job: string; readonly text: string }[] {
  const lastOfJob = new Map<string, { readonly seq: number; readonly hash: string }>();
  let prevInStore = GENESIS;
  return jobs.map((job, index) => {
    const before = lastOfJob.get(job) ?? { seq: 0, hash: GENESIS };
    const seq = before.seq + 1;
    const storeSeq = index + 1;
    const text = textOf(
      envelope({ job, seq, storeSeq, payload: payloadOf(storeSeq), prevInJob: before.hash, prevInStore }),
    );
    prevInStore = eventHash(text);
    lastOfJob.set(job, { seq, hash: prevInStore });
    return { job, text };
  });
}

/** Texts of one job alone in its store. */
export function chainOfEvents(length: number): readonly string[] {
  return storeOfEvents(Array.from({ length }, () => JOB)).map(({ text }) => text);
}
