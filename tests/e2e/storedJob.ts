// The store as it lies in the data folder, opened beside the running application: what is recorded, not what is shown.

import { eventsOfEnvelopes } from '../../core/job/readEvents.ts';
import type { JobEvent } from '../../core/job/reduce.ts';
import { openReader } from '../../electron/service/journal/index.ts';

/** No list is asked for here, so no row is made. */
const options = {
  projection: {
    edition: 0,
    rowOf: () => undefined,
    listingOf: () => ({ waitsFor: '', search: [], certificates: [] }),
  },
};

export interface StoredJob {
  readonly events: readonly JobEvent[];
  readonly personal: Readonly<Record<string, string>>;
  readonly drafts: Readonly<Record<string, string>>;
  /** Everything that is wrong with either chain or a page of the file. */
  readonly problems: readonly string[];
}

/** Reads one job and verifies the whole store. */
export function storedJob(dataFolder: string, job: string): StoredJob {
  const opened = openReader(dataFolder, options);
  if (!opened.ok) throw new Error(`the store cannot be opened: ${opened.error.code}`);
  const reader = opened.value;
  try {
    const read = reader.readJob(job);
    const drafts = reader.drafts(job);
    const verified = reader.verify();
    if (!read.ok || !drafts.ok || !verified.ok) throw new Error('the store cannot be read');
    const events = eventsOfEnvelopes(read.value.events.map(({ event }) => event));
    if (!events.ok) throw new Error(events.error.code);
    return {
      events: events.value,
      personal: Object.fromEntries(read.value.personal.map(({ id, text }) => [id, text])),
      drafts: Object.fromEntries(drafts.value.map(({ field, text }) => [field, text])),
      problems: [...verified.value.findings.map((each) => JSON.stringify(each)), ...verified.value.damage],
    };
  } finally {
    reader.close();
  }
}
