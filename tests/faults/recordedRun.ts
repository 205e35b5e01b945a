/**
 * A run of the journal to be recorded call by call: birth, commands, drafts, a clean end, a second start, enough volume for a
 * checkpoint, more commands, and no end. Whatever was answered is said on standard output, and so stands in the recording
 * between the calls where it was said.
 */
import { writeSync } from 'node:fs';
import { newId } from '../../electron/service/clock.ts';
import type { Durability } from '../../electron/service/journal/connection.ts';
import { type Journal, openJournal } from '../../electron/service/journal/index.ts';
import { type FaultRow, faultContext, faultOptions, numberedEntry } from './faultJournal.ts';

/** What the run says. */
export type Said =
  | { readonly commandId: string; readonly hashes: readonly string[] }
  | { readonly job: string; readonly field: string; readonly text: string };

const [folder = '', durability = 'full'] = process.argv.slice(2);
const job = newId();
let n = 0;

function say(said: Said): void {
  writeSync(1, `${JSON.stringify(said)}\n`);
}

function open(): Journal<FaultRow> {
  const options = { ...faultOptions, durability: durability as Durability };
  const opened = openJournal(folder, options, faultContext());
  if (!opened.ok) throw new Error(JSON.stringify(opened.error));
  return opened.value;
}

function record(journal: Journal<FaultRow>, commands: number, size: number): void {
  for (let i = 0; i < commands; i += 1) {
    const commandId = newId();
    const entries = Array.from({ length: 1 + (n % 3) }, () => {
      n += 1;
      return numberedEntry(n, size);
    });
    const answer = journal.append({ job, commandId, entries, ctx: faultContext() });
    if (!answer.ok) throw new Error(JSON.stringify(answer.error));
    say({ commandId, hashes: answer.value.events.map((event) => event.hash) });
    if (n % 2 === 0) {
      const draft = { job, field: `field ${n % 5}`, text: `typed ${n}` };
      journal.saveDraft(draft.job, draft.field, draft.text, Date.now());
      say(draft);
    }
  }
}

const first = open();
record(first, 20, 200);
first.close();
const second = open();
record(second, 15, 200);
record(second, 24, 80_000);
record(second, 15, 200);
process.kill(process.pid, 'SIGKILL');
