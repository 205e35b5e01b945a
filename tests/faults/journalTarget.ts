/** The bare journal in a process of its own, as it should be or with a flaw. */
import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { newId } from '../../electron/service/clock.ts';
import { numberedEntry } from './faultJournal.ts';
import type { Flaw, FromWriter, ToWriter } from './journalWriter.ts';
import type { Hearing, KillTarget, LivingWriter } from './killTarget.ts';

const WRITER = fileURLToPath(new URL('./journalWriter.ts', import.meta.url));

export function journalTarget(flaw?: Flaw): KillTarget {
  return {
    prepare: async () => [newId(), newId(), newId()],
    entry: numberedEntry,
    start: (folder, hearing) => start(flaw === undefined ? [folder] : [folder, flaw], hearing),
  };
}

function start(args: readonly string[], hearing: Hearing): Promise<LivingWriter> {
  const writer = fork(WRITER, args, { execArgv: [] });
  const say = (message: ToWriter) => {
    writer.send(message);
  };
  writer.on('error', () => undefined);
  return new Promise((resolve, reject) => {
    writer.once('exit', (code) => reject(new Error(`the writer ended by itself: ${code}`)));
    writer.on('message', (message: FromWriter) => {
      if (message.kind === 'answer') hearing.answered(message.commandId, message.hashes);
      else if (message.kind === 'saved') hearing.saved(message.field, message.text);
      else if (message.kind === 'trouble') throw new Error(`the writer had trouble: ${message.code}`);
      else {
        resolve({
          process: writer,
          append: (command, dieBeforeAnswer) => say({ kind: 'append', ...command, dieBeforeAnswer }),
          saveDraft: (job, field, text) => say({ kind: 'draft', job, field, text }),
        });
      }
    });
  });
}
