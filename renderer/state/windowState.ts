/** Everything the window shows, in one store. Changed only through `actions.ts`. */
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Notice, Output, WaitsFor } from '../../core/contract/index.ts';
import type { LengthUnit } from '../../core/units.ts';
import type { Language } from '../../core/words/index.ts';
import type { HeldJob } from './heldJob.ts';
import type { CallError } from './ports.ts';
import type { Route } from './route.ts';
import type { Cover, ThemeChoice } from './screenChoice.ts';
import type { LiveInstrument } from './streams.ts';
import type { TypedEntry } from './typedEntry.ts';

export type Status = Output<'app.status'>;
export type JobRow = Output<'job.list'>['rows'][number];

/** The job list as it was last asked for. */
export interface JobList {
  readonly search: string;
  /** Only jobs that wait for one of these; all when empty. */
  readonly waitsFor: readonly WaitsFor[];
  readonly rows: readonly JobRow[];
  /** How many fit, shown or not. */
  readonly total: number;
  /** How many of all jobs wait for what. */
  readonly waiting?: Readonly<Record<string, number>> | undefined;
}

export type CertificateRow = Output<'certificate.list'>['rows'][number];

/** A value that a tap sent and the service has not answered yet, shown as chosen meanwhile. */
export interface PendingChoice {
  readonly value: unknown;
  readonly commandId: string;
}

export interface WindowState {
  readonly status: Status | null;
  /** Why there is no status: the service did not start or the store cannot be read. */
  readonly startError: CallError | null;
  readonly service: Notice<'service.state'>['state'];
  /** Who works here now. */
  readonly person: string | null;
  readonly route: Route;
  /** Key of the field or reading that a list led to; it gets the focus once. */
  readonly focus: string | null;
  readonly jobs: Readonly<Record<string, HeldJob>>;
  /** Jobs that could not be read, with why. */
  readonly jobErrors: Readonly<Record<string, CallError>>;
  /** By `typedKey`. */
  readonly typed: Readonly<Record<string, TypedEntry>>;
  /** By `typedKey`. */
  readonly pending: Readonly<Record<string, PendingChoice>>;
  /** Commands without an answer. */
  readonly unanswered: number;
  /** The last refusal that belongs to no field. */
  readonly problem: CallError | null;
  readonly list: JobList | null;
  readonly certificates: Readonly<Record<string, readonly CertificateRow[]>>;
  readonly theme: ThemeChoice;
  readonly language: Language;
  readonly lengthUnit: LengthUnit;
  readonly cover: Cover;
  /** Puttings-up of a fixture whose quick placement is skipped, by the guide's key. */
  readonly quickSkipped: readonly string[];
  /** Whether the keypad for numbers is out. */
  readonly keypad: boolean;
  /** Instruments that this window has connected, by id. */
  readonly live: Readonly<Record<string, LiveInstrument>>;
}

export type WindowStore = StoreApi<WindowState>;

/** The store as it is before the first answer. */
export function createWindowStore(route: Route): WindowStore {
  return createStore<WindowState>(() => ({
    status: null,
    startError: null,
    service: 'starting',
    person: null,
    route,
    focus: null,
    jobs: {},
    jobErrors: {},
    typed: {},
    pending: {},
    unanswered: 0,
    problem: null,
    list: null,
    certificates: {},
    theme: 'system',
    language: 'en',
    lengthUnit: 'mm',
    cover: 'none',
    quickSkipped: [],
    keypad: false,
    live: {},
  }));
}
