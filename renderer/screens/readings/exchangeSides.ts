/** The one-tap cure for two readings typed at each other's side: both facts again, and the partner's old one struck. */
import type { Cure } from '../../../core/entry/index.ts';
import type { Job } from '../../../core/job/job.ts';
import { newId } from '../../state/ids.ts';
import { readingEntryToSend } from '../../state/readingEntry.ts';
import { partnerOf, type Slot } from '../../state/readings.ts';
import type { EntryToSend } from '../../state/recorder.ts';

/** The facts of an exchange, or undefined where the cure is none. */
export function exchangeSides(
  job: Job,
  slot: Slot,
  slots: readonly Slot[],
  cure: Cure,
  text: string,
  instrument: string | null,
): readonly EntryToSend[] | undefined {
  const partner = partnerOf(slot, slots);
  const old = partner?.standing.at(-1);
  if (
    cure.key !== 'cure.exchange' ||
    cure.pairValue === undefined ||
    partner === undefined ||
    old === undefined
  ) {
    return undefined;
  }
  const common = { direction: null, instrument } as const;
  return [
    {
      type: 'readingStruck',
      v: 1,
      payload: { reading: old.reading, reason: 'wrongPoint', words: '' },
    },
    readingEntryToSend(job, slot, { ...common, reading: newId(), value: cure.value, text: old.text }),
    readingEntryToSend(job, partner, { ...common, reading: newId(), value: cure.pairValue, text }),
  ];
}
