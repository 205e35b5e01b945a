/** What the journal takes and gives. */
import type { JsonObject } from '../../../core/canonical.ts';
import type { EventAt, EventEnvelope } from '../../../core/job/event.ts';
import type { ChainLink } from '../../../core/job/eventChain.ts';
import type { JournalError, JournalFinding } from '../../../core/job/journalError.ts';
import type { PersonalText } from '../../../core/job/personal.ts';
import type { Result } from '../../../core/result.ts';
import type { Durability } from './connection.ts';

/** Everything of the outside that an event carries. `random` gives bytes of a cryptographic source. */
export type JournalContext = {
  readonly at: EventAt;
  readonly person: string;
  readonly device: string;
  readonly app: string;
  readonly random: (bytes: number) => Uint8Array;
};

/** One fact to append. Personal texts stand in `payload` as `{ personal: text }`. */
export type JournalEntry = { readonly type: string; readonly v: number; readonly payload: JsonObject };

/** One command: all of its entries are recorded, or none. */
export type AppendRequest = {
  readonly job: string;
  /** Made when the field opened; sending it again gives the first answer again. */
  readonly commandId: string;
  /** The last `seq` the sender had seen, 0 for a job that must not exist yet. Not asked of entries that commute. */
  readonly expectedSeq?: number;
  readonly entries: readonly JournalEntry[];
  /** Fields whose drafts these entries make obsolete. */
  readonly clearsDrafts?: readonly string[];
  /** Personal texts of this job to delete for good; the entries must say so (type `erased`). */
  readonly erases?: readonly string[];
  readonly ctx: JournalContext;
};

/** An event as stored: the text that was hashed, its hash, and what it says. */
export type StoredEvent = { readonly text: string; readonly hash: string; readonly event: EventEnvelope };

/** The answer to a command: its events, and its personal texts as far as they are not erased. */
export type AppendAnswer = {
  readonly events: readonly StoredEvent[];
  readonly personal: readonly PersonalText[];
  /** True when this command had been recorded before. */
  readonly repeated: boolean;
};

/** A job as it stands in the record: all events in order, the last link, the personal texts not erased. */
export type JobRead = {
  readonly events: readonly StoredEvent[];
  readonly head: ChainLink;
  readonly personal: readonly PersonalText[];
};

/** A job's stored texts with what is wrong with them, for looking at a record that does not verify. */
export type JobAsFound = { readonly texts: readonly string[]; readonly findings: readonly JournalFinding[] };

/** A field that was being typed; not part of the record. */
export type Draft = { readonly field: string; readonly text: string; readonly savedAtUtcMs: number };

/** What a whole verification found. An empty `findings` and `damage` means: every byte is as it was recorded. */
export type Verification = {
  readonly jobs: number;
  readonly events: number;
  readonly head: ChainLink;
  readonly findings: readonly JournalFinding[];
  /** What the database says about its own pages. */
  readonly damage: readonly string[];
};

/** What a row is found by. */
export type Listing = {
  readonly waitsFor: string;
  readonly search: readonly string[];
  readonly certificates: readonly {
    readonly number: string;
    readonly edition: number;
    readonly issued: boolean;
  }[];
};

/** How the job list is made from a job's events. `edition` rises whenever a function gives another answer. */
export type Projection<Row extends JsonObject> = {
  readonly edition: number;
  /** The job's row, or undefined for a stream that is no job. */
  readonly rowOf: (events: readonly EventEnvelope[]) => Row | undefined;
  readonly listingOf: (row: Row) => Listing;
};

/** Which rows are wanted. */
export type JobFilter = {
  /** Looked for anywhere in a row's texts, capitals, blanks and hyphens aside; empty for all. */
  readonly search: string;
  /** States, one of which a row must wait in; none for all. */
  readonly waitsFor?: readonly string[];
  readonly offset: number;
  readonly limit: number;
};

/** Some of the rows that fit, and how many fit. */
export type RowPage<Row extends JsonObject> = { readonly rows: readonly Row[]; readonly total: number };

/** How many jobs wait in a state. */
export type WaitingCount = { readonly waitsFor: string; readonly jobs: number };

/** What the composition root puts in. */
export type JournalOptions<Row extends JsonObject> = {
  /** Says what is wrong with a payload (personal texts already replaced), or undefined. */
  readonly checkPayload: (type: string, v: number, payload: JsonObject) => string | undefined;
  /** Whether entries of this type may be appended whatever came before (readings). */
  readonly commutes: (type: string) => boolean;
  readonly projection: Projection<Row>;
  /** How long to wait for another program's lock, milliseconds. */
  readonly busyMs?: number;
  readonly durability?: Durability;
};

/** What both handles can do. Every read is one consistent moment of the store. */
export type JournalReads<Row extends JsonObject> = {
  readonly storeId: string;
  /** Events, checked against their hashes on every call; `journal/altered` when they are not the recorded ones. */
  readonly readJob: (job: string) => Result<JobRead, JournalError>;
  /** The same without refusing: for a record that does not verify. */
  readonly readJobAsFound: (job: string) => Result<JobAsFound, JournalError>;
  /** Rows of all jobs, last changed first. */
  readonly listJobs: () => Result<readonly Row[], JournalError>;
  /** Rows that fit, last changed first. */
  readonly findJobs: (filter: JobFilter) => Result<RowPage<Row>, JournalError>;
  readonly jobRow: (job: string) => Result<Row | undefined, JournalError>;
  readonly waiting: () => Result<readonly WaitingCount[], JournalError>;
  /** Jobs with a certificate that was sealed and not issued. */
  readonly unissuedJobs: () => Result<readonly string[], JournalError>;
  /** Rows of the jobs whose certificate has this number, in any edition. */
  readonly rowsOfNumber: (number: string) => Result<readonly Row[], JournalError>;
  /** The greatest counter among certificate numbers that begin with `start`; 0 when there is none. */
  readonly lastCounter: (start: string) => Result<number, JournalError>;
  /** How many events of a type there are. */
  readonly countOfType: (type: string) => Result<number, JournalError>;
  /** Names of all streams, jobs and others. */
  readonly streams: () => Result<readonly string[], JournalError>;
  readonly drafts: (job: string) => Result<readonly Draft[], JournalError>;
  /** A personal text, or undefined when it was erased or never was. */
  readonly personal: (id: string) => Result<PersonalText | undefined, JournalError>;
  /** The first answer to a command, or undefined when it was never recorded. */
  readonly answerTo: (commandId: string) => Result<AppendAnswer | undefined, JournalError>;
  /** The last link of the store's chain. */
  readonly head: () => Result<ChainLink, JournalError>;
  /** Checks everything; `anchors` are store heads known from elsewhere. */
  readonly verify: (anchors?: readonly ChainLink[]) => Result<Verification, JournalError>;
  readonly close: () => void;
};

/** The handle that reads. It cannot stand in for a `Journal`. */
export type JournalReader<Row extends JsonObject> = JournalReads<Row> & { readonly kind: 'reader' };

/** The handle that writes; one at a time in a process. */
export type Journal<Row extends JsonObject> = JournalReads<Row> & {
  readonly kind: 'writer';
  readonly append: (request: AppendRequest) => Result<AppendAnswer, JournalError>;
  readonly saveDraft: (
    job: string,
    field: string,
    text: string,
    utcMs: number,
  ) => Result<undefined, JournalError>;
  readonly dropDraft: (job: string, field: string) => Result<undefined, JournalError>;
  /** Throws the job list away and makes it again from the events. */
  readonly rebuildProjections: () => Result<number, JournalError>;
};
