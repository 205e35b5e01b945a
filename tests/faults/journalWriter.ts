/**
 * A process that runs the journal on commands from its parent, to be killed. It answers after the commit, as the service
 * does. `flaw` makes it break a promise on purpose, to show that the checks would notice.
 */
import { newId } from '../../electron/service/clock.ts';
import { type JournalEntry, openJournal } from '../../electron/service/journal/index.ts';
import { faultContext, faultOptions } from './faultJournal.ts';

export type Flaw = 'answersEarly' | 'forgetsCommands' | 'forgetsDrafts';

export type ToWriter =
  | {
      readonly kind: 'append';
      readonly job: string;
      readonly commandId: string;
      readonly entries: readonly JournalEntry[];
      /** Die after the commit, before the answer. */
      readonly dieBeforeAnswer: boolean;
    }
  | { readonly kind: 'draft'; readonly job: string; readonly field: string; readonly text: string };

export type FromWriter =
  | { readonly kind: 'ready' }
  | {
      readonly kind: 'answer';
      readonly commandId: string;
      readonly hashes: readonly string[];
    }
  | { readonly kind: 'saved'; readonly field: string; readonly text: string }
  | { readonly kind: 'trouble'; readonly code: string };

const [folder = '', flaw] = process.argv.slice(2);

function say(message: FromWriter): void {
  process.send?.(message);
}

function die(): void {
  process.kill(process.pid, 'SIGKILL');
}

const opened = openJournal(folder, faultOptions, faultContext());
if (opened.ok) {
  const journal = opened.value;
  process.on('message', (message: ToWriter) => {
    if (message.kind === 'draft') {
      const { job, field, text } = message;
      if (flaw !== 'forgetsDrafts') journal.saveDraft(job, field, text, Date.now());
      say({ kind: 'saved', field, text });
      return;
    }
    const { dieBeforeAnswer, kind: _kind, ...request } = message;
    if (flaw === 'answersEarly' && dieBeforeAnswer) {
      process.send?.({ kind: 'answer', commandId: message.commandId, hashes: [] } satisfies FromWriter, die);
      return;
    }
    const commandId = flaw === 'forgetsCommands' ? newId() : message.commandId;
    const answer = journal.append({ ...request, commandId, ctx: faultContext() });
    if (dieBeforeAnswer) die();
    else if (answer.ok) {
      const hashes = answer.value.events.map((event) => event.hash);
      say({ kind: 'answer', commandId: message.commandId, hashes });
    } else say({ kind: 'trouble', code: answer.error.code });
  });
  say({ kind: 'ready' });
} else {
  say({ kind: 'trouble', code: opened.error.code });
}
