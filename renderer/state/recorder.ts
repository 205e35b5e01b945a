/**
 * Sends commands to the record, one after another per job, so that each carries the sequence the one before it made.
 * A command that the service did not answer (it was restarted, the pipe broke) is sent again with the same
 * `commandId` until it is: the service answers a repeat with its first answer, so nothing is recorded twice.
 */
import type { Output } from '../../core/contract/index.ts';
import type { Entry } from '../../core/job/events.ts';
import type { Result } from '../../core/result.ts';
import type { CallError, Ports } from './ports.ts';

/** One or more facts that are recorded together or not at all. Personal text is `{ personal: text }` here. */
export interface Command {
  readonly job: string;
  readonly commandId: string;
  readonly person: string;
  /** Key of the draft this entry makes obsolete. */
  readonly draft: string | null;
  readonly entries: readonly EntryToSend[];
}

/** An entry whose personal texts have not been put aside yet. */
export interface EntryToSend {
  readonly type: Entry['type'];
  readonly v: 1;
  readonly payload: Readonly<Record<string, unknown>>;
}

export type RecordAnswer = Result<Output<'job.record'>, CallError>;

export interface RecorderHooks {
  /** The last sequence of a job that the window has seen. */
  readonly lastSeq: (job: string) => number;
  /** Called before the answer is handed to who asked, so that state is never behind the mark. */
  readonly onRecorded: (job: string, output: Output<'job.record'>) => void;
  /** How many commands have no answer yet. */
  readonly onWaiting: (count: number) => void;
}

export interface Recorder {
  readonly submit: (command: Command) => Promise<RecordAnswer>;
  /** The service runs again: send what waits now instead of at the next try. */
  readonly wake: () => void;
}

/** How long to wait before a command without an answer is sent again, ms. */
export const RETRY_MS = 700;

/** Codes that say that no answer came, as opposed to an answer that says no. */
const NO_ANSWER: ReadonlySet<string> = new Set(['call/unreachable', 'service/interrupted', 'journal/busy']);

/** True when the command may or may not have been recorded, so that only a repeat can tell. */
export function hasNoAnswer(error: CallError): boolean {
  return NO_ANSWER.has(error.code);
}

const COMMUTES: ReadonlySet<string> = new Set(['readingRecorded']);

export function createRecorder(ports: Ports, hooks: RecorderHooks): Recorder {
  const tails = new Map<string, Promise<unknown>>();
  const sleepers = new Set<() => void>();
  let waiting = 0;

  const count = (change: number): void => {
    waiting += change;
    hooks.onWaiting(waiting);
  };

  const pause = (): Promise<void> =>
    new Promise((resolve) => {
      const cancel = ports.later(RETRY_MS, () => awake());
      const awake = (): void => {
        cancel();
        sleepers.delete(awake);
        resolve();
      };
      sleepers.add(awake);
    });

  const untilAnswered = async (command: Command): Promise<RecordAnswer> => {
    const commuting = command.entries.every((entry) => COMMUTES.has(entry.type));
    for (;;) {
      const answer = await ports.call('job.record', {
        job: command.job,
        person: command.person,
        commandId: command.commandId,
        expectedSeq: commuting ? null : hooks.lastSeq(command.job),
        draft: command.draft,
        entries: command.entries.map((entry) => ({ ...entry })),
      });
      if (answer.ok || !hasNoAnswer(answer.error)) return answer;
      await pause();
    }
  };

  const submit = async (command: Command): Promise<RecordAnswer> => {
    count(1);
    const before = tails.get(command.job) ?? Promise.resolve();
    const own = before
      .then(() => untilAnswered(command))
      .then((answer) => {
        if (answer.ok) hooks.onRecorded(command.job, answer.value);
        return answer;
      })
      .finally(() => count(-1));
    tails.set(
      command.job,
      own.catch(() => undefined),
    );
    return own;
  };

  return {
    submit,
    wake: () => {
      for (const awake of [...sleepers]) awake();
    },
  };
}
