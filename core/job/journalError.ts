/**
 * What can go wrong with the journal, as the rest of the program sees it. The outside world (disk, file system, database
 * file) is sorted into these codes where it is met; nothing else of it gets through.
 */
import type { ChainFinding } from './eventChain.ts';

/** One thing found wrong in the stored record, and where. */
export type JournalFinding =
  | { readonly chain: 'job'; readonly job: string; readonly finding: ChainFinding }
  | { readonly chain: 'store'; readonly finding: ChainFinding }
  | {
      readonly chain: 'personal';
      readonly job: string;
      readonly personalId: string;
      readonly what: 'changed' | 'missing';
    };

/**
 * - `busy`: another program kept the store locked longer than we waited
 * - `full`: the disk has no room; nothing was recorded
 * - `io`: the disk refused to read or write for another reason; nothing was recorded
 * - `readOnly`: the file or its folder cannot be written
 * - `missing`: there is no store where one must be
 * - `corrupt`: the file is damaged or is no store of ours; it was not touched
 * - `newer`: the file was written by a later edition of this program; it was not touched
 * - `copyFailed`: the copy that must precede a change of format could not be made or did not verify
 * - `altered`: stored bytes are not the ones that were recorded; nothing is chained onto them
 * - `noJob`: no event of this job is here
 * - `behind`: the job has moved on since the sender looked; the missing events are `missing.from` to `missing.to`
 * - `commandReused`: the same command id was used for something else
 * - `badEntry`: an entry does not fit its type
 */
export type JournalError =
  | { readonly code: 'journal/busy'; readonly details: { readonly waitedMs: number } }
  | { readonly code: 'journal/full'; readonly details: { readonly path: string; readonly freeBytes: number } }
  | { readonly code: 'journal/io'; readonly details: { readonly path: string; readonly problem: string } }
  | { readonly code: 'journal/readOnly'; readonly details: { readonly path: string } }
  | { readonly code: 'journal/missing'; readonly details: { readonly path: string } }
  | {
      readonly code: 'journal/corrupt';
      readonly details: { readonly path: string; readonly problem: string };
    }
  | {
      readonly code: 'journal/newer';
      readonly details: { readonly path: string; readonly found: number; readonly known: number };
    }
  | {
      readonly code: 'journal/copyFailed';
      readonly details: { readonly path: string; readonly problem: string };
    }
  | { readonly code: 'journal/altered'; readonly details: { readonly findings: readonly JournalFinding[] } }
  | { readonly code: 'journal/noJob'; readonly details: { readonly job: string } }
  | {
      readonly code: 'journal/behind';
      readonly details: {
        readonly job: string;
        readonly expectedSeq: number;
        readonly actualSeq: number;
        /** Undefined when the sender claims to have seen events that are not here. */
        readonly missing?: { readonly from: number; readonly to: number };
      };
    }
  | {
      readonly code: 'journal/commandReused';
      readonly details: { readonly commandId: string; readonly job: string };
    }
  | {
      readonly code: 'journal/badEntry';
      readonly details: { readonly type: string; readonly problem: string };
    };

/** All codes, so that a test can ask for a message for each. */
export const journalErrorCodes = [
  'journal/busy',
  'journal/full',
  'journal/io',
  'journal/readOnly',
  'journal/missing',
  'journal/corrupt',
  'journal/newer',
  'journal/copyFailed',
  'journal/altered',
  'journal/noJob',
  'journal/behind',
  'journal/commandReused',
  'journal/badEntry',
] as const satisfies readonly JournalError['code'][];

type Listed = (typeof journalErrorCodes)[number];
type Unlisted = Exclude<JournalError['code'], Listed>;

/** Does not compile when a code is missing from the list above. */
export const everyJournalCodeIsListed: Unlisted extends never ? true : never = true;
