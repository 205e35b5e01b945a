/**
 * A field while it is not recorded, in its visible states: *typing* (a draft in the store 300 ms after a key and
 * at blur), *sent* (one command is on its way), *restored* (typed before a restart, not recorded), *refused* (the
 * service said why not). A field without a typed entry shows what is recorded.
 */
import type { CallError } from './ports.ts';

export type TypedPhase = 'typing' | 'sent' | 'restored' | 'refused';

export interface TypedEntry {
  readonly job: string;
  /** Field key, or that of a reading slot. */
  readonly key: string;
  readonly text: string;
  readonly phase: TypedPhase;
  /** Made when the field opened; the one command that will carry this entry has it. */
  readonly commandId: string;
  /** Draft text as last answered by the store; null before the first. */
  readonly savedText: string | null;
  readonly error: CallError | null;
}

/** How long after a key the draft is saved at the latest, ms. */
export const DRAFT_AFTER_MS = 300;

/** One text per field and job, for maps. */
export function typedKey(job: string, key: string): string {
  return `${job} ${key}`;
}

/** An entry as it starts: the field was opened. */
export function opened(job: string, key: string, text: string, commandId: string): TypedEntry {
  return { job, key, text, phase: 'typing', commandId, savedText: null, error: null };
}

/** A draft that came from the store after a start: it waits for its person. */
export function restored(job: string, key: string, text: string, commandId: string): TypedEntry {
  return { job, key, text, phase: 'restored', commandId, savedText: text, error: null };
}

/**
 * The text changed. What was sent keeps its command; a text typed after that is another entry with a command of its
 * own, so that a repeat can never carry a different text under the same id.
 */
export function typed(entry: TypedEntry, text: string, freshId: string): TypedEntry {
  const commandId = entry.phase === 'sent' || entry.phase === 'refused' ? freshId : entry.commandId;
  return { ...entry, text, phase: 'typing', commandId, error: null };
}

/** The command left. */
export function sent(entry: TypedEntry): TypedEntry {
  return { ...entry, phase: 'sent', error: null };
}

/**
 * The service answered the command `commandId` with yes. Undefined: nothing is left to show but the record. An entry
 * that was typed on meanwhile stays.
 */
export function afterRecorded(entry: TypedEntry, commandId: string): TypedEntry | undefined {
  return entry.commandId === commandId ? undefined : entry;
}

/** The service answered the command `commandId` with no; the text stays as typed. */
export function afterRefused(
  entry: TypedEntry,
  commandId: string,
  error: CallError,
  freshId: string,
): TypedEntry {
  if (entry.commandId !== commandId) return entry;
  return { ...entry, phase: 'refused', error, commandId: freshId };
}
