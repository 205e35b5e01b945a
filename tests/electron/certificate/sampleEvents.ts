/** A short whole chain of stored event texts, with one personal text committed to. */
import { type EventEnvelope, eventHash, GENESIS, writeEvent } from '../../../core/job/event.ts';
import { personalCommitment } from '../../../core/job/personal.ts';
import { invariant } from '../../../core/result.ts';

export const samplePersonal = { id: 'p1', salt: 'ab'.repeat(32), text: 'Mara Lindqvist' };

export function sampleEvents(count = 4): readonly string[] {
  const texts: string[] = [];
  for (let seq = 1; seq <= count; seq++) {
    const before = texts.at(-1);
    const event: EventEnvelope = {
      store: '01890a5d-ac96-774b-bcce-b302099a8057',
      job: '01890a5d-ac96-774b-bcce-b302099a8058',
      seq,
      storeSeq: seq,
      type: seq === 1 ? 'opened' : 'noted',
      v: 1,
      at: { utcMs: 1_772_719_200_000 + seq * 1000, offsetMin: 0, zone: 'UTC', monoMs: seq * 1000 },
      person: 'ida',
      device: 'bay2',
      app: '0.1.0',
      commandId: `c${seq}`,
      payload:
        seq === 1
          ? {
              owner: {
                personalId: samplePersonal.id,
                commitment: personalCommitment(samplePersonal.salt, samplePersonal.text),
              },
            }
          : { note: seq },
      prevInJob: before === undefined ? GENESIS : eventHash(before),
      prevInStore: before === undefined ? GENESIS : eventHash(before),
    };
    const text = writeEvent(event);
    invariant(text.ok, 'a sample event is an event');
    texts.push(text.value);
  }
  return texts;
}
