/**
 * The store behind the handlers: the journal when it is usable, or a read-only copy with the reason. A damaged file or
 * one of a newer edition is never touched: database, log and index are copied together first and the copy is opened.
 */
import { join } from 'node:path';
import type { Output } from '../../../core/contract/index.ts';
import { commutes, type EventType } from '../../../core/job/events.ts';
import type { JournalError } from '../../../core/job/journalError.ts';
import { payloadProblem } from '../../../core/job/readEvents.ts';
import { err, ok, type Result } from '../../../core/result.ts';
import type { Clock, RandomSource } from '../clock.ts';
import type { CallError } from '../host/handlers.ts';
import {
  type Journal,
  type JournalContext,
  type JournalReads,
  openCopy,
  openJournal,
} from '../journal/index.ts';
import { type JobRow, jobProjection } from './jobRow.ts';

export type StoreState = Output<'app.status'>['store'];

export interface Store {
  readonly state: StoreState;
  /** For reading: the journal itself, or a copy of what could not be opened; undefined when neither can. */
  readonly reads: JournalReads<JobRow> | undefined;
  /** For writing; undefined in every state but `ready`. */
  readonly journal: Journal<JobRow> | undefined;
}

const options = {
  checkPayload: payloadProblem,
  commutes: (type: string) => commutes(type as EventType),
  projection: jobProjection,
};

function stateOf(error: JournalError): StoreState {
  const detail = Object.entries(error.details)
    .map(([name, value]) => `${name}: ${String(value)}`)
    .join('; ');
  switch (error.code) {
    case 'journal/newer':
      return { state: 'newer', detail };
    case 'journal/corrupt':
    case 'journal/altered':
      return { state: 'damaged', detail };
    case 'journal/full':
      return { state: 'full', detail };
    case 'journal/readOnly':
      return { state: 'unwritable', detail };
    default:
      return { state: 'readOnly', detail: `${error.code}; ${detail}` };
  }
}

/** Opens the store of a data folder. Never throws for what can be wrong with a disk or a file: that is a state. */
export function openStore(dataFolder: string, clock: Clock, random: RandomSource): Store {
  const at = clock.now();
  const opened = openJournal(dataFolder, options, { at, random });
  if (opened.ok) {
    return { state: { state: 'ready', detail: '' }, reads: opened.value, journal: opened.value };
  }
  const copyFolder = join(dataFolder, 'read-only-copies', String(at.utcMs));
  const copy = openCopy(dataFolder, copyFolder, options);
  return { state: stateOf(opened.error), reads: copy.ok ? copy.value : undefined, journal: undefined };
}

/** The reading handle, or why there is none. */
export function readsOf(store: Store): Result<JournalReads<JobRow>, CallError> {
  return store.reads === undefined
    ? err({ code: 'store/unreadable', details: { ...store.state } })
    : ok(store.reads);
}

/** The writing handle, or why nothing can be recorded now. */
export function journalOf(store: Store): Result<Journal<JobRow>, CallError> {
  return store.journal === undefined
    ? err({ code: 'store/readOnly', details: { ...store.state } })
    : ok(store.journal);
}

/** Time, person and chance for one command. The device is the store: one installation writes one store. */
export function contextOf(
  storeId: string,
  person: string,
  version: string,
  clock: Clock,
  random: RandomSource,
): JournalContext {
  return { at: clock.now(), person, device: storeId, app: `datumline/${version}`, random };
}
