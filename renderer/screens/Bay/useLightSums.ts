/**
 * Records what five light readings come to as soon as the last of them is recorded, and again when one is corrected: mean,
 * darkest place, uniformity. A sum typed by hand stays until then.
 */
import { useEffect, useRef } from 'react';
import type { Illuminance } from '../../../core/bay/light.ts';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import type { Job } from '../../../core/job/job.ts';
import { formatFixed } from '../../../core/units.ts';
import { fieldFact } from '../../state/fieldText.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import type { EntryToSend } from '../../state/recorder.ts';
import { useActions } from '../../state/windowContext.tsx';

/** The facts that bring the record's sums to those of its readings; none where they are the same. */
export function lightSumFacts(
  job: Pick<Job, 'fields'>,
  summary: Illuminance | undefined,
): readonly EntryToSend[] {
  if (summary === undefined) return [];
  const sums = [
    { field: 'bay.lightMean', text: formatFixed(summary.mean, 0) },
    { field: 'bay.lightLowest', text: formatFixed(summary.lowest, 0) },
    { field: 'bay.lightUniformity', text: formatFixed(summary.uniformity, 2) },
  ];
  return sums
    .filter(({ field, text }) => job.fields[field]?.value !== Number(text))
    .map(({ field, text }) => fieldFact(field, wholeJob, Number(text), text));
}

export function useLightSums(held: HeldJob, summary: Illuminance | undefined): void {
  const actions = useActions();
  const { job } = held;
  const signed = job.certificates.length > 0;
  const key = summary === undefined ? '' : `${summary.mean} ${summary.lowest}`;
  // Each set of sums is sent once: an entry that is refused must not be sent for ever, and one typed by hand stays.
  const sent = useRef<string | undefined>(undefined);
  useEffect(() => {
    if (signed || key === '' || sent.current === key) return;
    sent.current = key;
    const facts = lightSumFacts(job, summary);
    if (facts.length > 0) void actions.record(job.id, facts);
  }, [key, signed, job, summary, actions]);
}
