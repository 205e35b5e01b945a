/**
 * A process that opens the journal and records until that fails, saying on standard output what was answered and what the
 * trouble was called. Sizes grow, so that a limit is met in the middle of a command. At most `commands` are recorded.
 */
import { readSync, writeSync } from 'node:fs';
import { newId } from '../../electron/service/clock.ts';
import { openJournal } from '../../electron/service/journal/index.ts';
import { faultContext, faultOptions, numberedEntry } from './faultJournal.ts';

export type TroubleLine =
  | { readonly ready: true }
  | { readonly answered: string }
  | { readonly trouble: string; readonly at: 'open' | 'append' | 'draft' | 'again' };

const [folder = '', job = newId(), commands = '100000', first = '1', size = '2000'] = process.argv.slice(2);

function say(line: TroubleLine): void {
  writeSync(1, `${JSON.stringify(line)}\n`);
}

/** Until something, or the end, comes on standard input. */
function waitForStart(): void {
  readSync(0, Buffer.alloc(1));
}

/** A moment in which another process can have its turn. */
function breathe(): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 2);
}

function run(): void {
  const opened = openJournal(folder, faultOptions, faultContext());
  if (!opened.ok) {
    say({ trouble: opened.error.code, at: 'open' });
    return;
  }
  const journal = opened.value;
  say({ ready: true });
  waitForStart();
  for (let n = Number(first); n < Number(first) + Number(commands); n += 1) {
    const request = { job, commandId: newId(), entries: [numberedEntry(n, Number(size))] };
    const answer = journal.append({ ...request, ctx: faultContext() });
    if (answer.ok) {
      say({ answered: request.commandId });
      breathe();
      continue;
    }
    say({ trouble: answer.error.code, at: 'append' });
    const draft = journal.saveDraft(job, 'remark', 'x'.repeat(20_000), Date.now());
    if (!draft.ok) say({ trouble: draft.error.code, at: 'draft' });
    const again = journal.append({ ...request, ctx: faultContext() });
    if (!again.ok) say({ trouble: again.error.code, at: 'again' });
    break;
  }
  journal.close();
}

run();
