/** What can be killed: a process that records commands and saves drafts, started on a folder. */
import type { ChildProcess } from 'node:child_process';
import type { JournalEntry } from '../../electron/service/journal/index.ts';

export type KillCommand = {
  readonly job: string;
  readonly commandId: string;
  readonly entries: readonly JournalEntry[];
};

/** What the process says. */
export type Hearing = {
  readonly answered: (commandId: string, hashes: readonly string[]) => void;
  readonly saved: (field: string, text: string) => void;
};

export type LivingWriter = {
  readonly process: ChildProcess;
  /** With `dieBeforeAnswer` it dies after the commit and before the answer. */
  readonly append: (command: KillCommand, dieBeforeAnswer: boolean) => void;
  readonly saveDraft: (job: string, field: string, text: string) => void;
};

export type KillTarget = {
  /** Makes the store ready in an empty folder; gives the jobs to work on. */
  readonly prepare: (folder: string) => Promise<readonly string[]>;
  /** An entry that is known by its number. */
  readonly entry: (n: number, size: number) => JournalEntry;
  readonly start: (folder: string, hearing: Hearing) => Promise<LivingWriter>;
};

/** The process is gone, and everything it had said has been heard. */
export async function endOf(process: ChildProcess): Promise<void> {
  const gone = new Promise((resolve) => process.once('exit', resolve));
  const heard = new Promise((resolve) => process.once('disconnect', resolve));
  await Promise.all([gone, heard]);
}
