/** The whole record checked at once: the database's own pages, both chains, every personal text. */
import type Database from 'better-sqlite3';
import { type ChainLink, verifyJobChain, verifyStoreChain } from '../../../core/job/eventChain.ts';
import type { JournalFinding } from '../../../core/job/journalError.ts';
import { damageOf } from './damage.ts';
import { headOf, personalFindings, personalText, type Reads, tailAnchors } from './read.ts';
import type { Verification } from './types.ts';

/** Checks everything inside the caller's transaction. `anchors` are store heads known from elsewhere. */
export function verifyAll(
  db: Database.Database,
  reads: Reads,
  storeId: string,
  anchors: readonly ChainLink[],
): Verification {
  const head = headOf(reads);
  const own = head.seq === 0 ? [] : [head];
  const store = verifyStoreChain(storeId, reads.texts.all(), [...anchors, ...own]);
  const jobs = reads.streams.all();
  return {
    jobs: jobs.length,
    events: store.events.length,
    head: store.head,
    findings: [
      ...store.findings.map((finding) => ({ chain: 'store', finding }) as const),
      ...jobs.flatMap((job) => verifyOneJob(reads, job)),
    ],
    damage: damageOf(db, 'integrity_check'),
  };
}

function verifyOneJob(reads: Reads, job: string): readonly JournalFinding[] {
  const rows = reads.byJob.all(job);
  const tail = rows.at(-1);
  const { events, findings } = verifyJobChain(
    job,
    rows.map((row) => row.text),
    tail === undefined ? [] : tailAnchors(reads, tail),
  );
  return [
    ...findings.map((finding) => ({ chain: 'job', job, finding }) as const),
    ...personalFindings(job, events, reads.personalOfJob.all(job).map(personalText)),
  ];
}
