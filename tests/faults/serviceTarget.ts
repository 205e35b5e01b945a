/** The real service process, spoken to as the main process does: requests of the contract over the fork's channel. */
import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { CallName, Input, Output } from '../../core/contract/index.ts';
import { newId } from '../../electron/service/clock.ts';
import type { FromService, ToService } from '../../electron/service/host/wire.ts';
import type { JournalEntry } from '../../electron/service/journal/index.ts';
import { FATAL_ID } from './dieBeforeAnswer.ts';
import { endOf, type Hearing, type KillTarget, type LivingWriter } from './killTarget.ts';

const SERVICE = fileURLToPath(new URL('../../electron/service/host/main.ts', import.meta.url));
const PRELOAD = new URL('./dieBeforeAnswer.ts', import.meta.url).href;

type Ask = <N extends CallName>(name: N, input: Input<N>, fatal?: boolean) => Promise<Output<N>>;
type Running = { readonly process: ChildProcess; readonly ask: Ask };

/** The person whom setting up a shop makes. */
let person = '';

export const serviceTarget: KillTarget = {
  async prepare(folder) {
    const { process: service, ask } = await startService(folder);
    const ended = endOf(service);
    const made = await ask('shop.setUp', {
      ...{ commandId: newId(), name: 'Pier Seven Glass', code: 'PSG', address: 'Pier 7', bayName: 'Bay 1' },
      ...{ personName: 'Ada Buoy', qualification: '', passphrase: 'three herrings at low tide' },
    });
    person = made.status.shop?.people[0]?.id ?? '';
    const jobs: string[] = [];
    for (let n = 0; n < 3; n += 1) {
      jobs.push((await ask('job.create', { person, commandId: newId(), bay: '1', entries: [] })).job);
    }
    service.kill('SIGKILL');
    await ended;
    return jobs;
  },
  entry: fieldEntry,
  start,
};

/** Whole numbers are readings and fields by turns; every third field has a personal text. */
function fieldEntry(n: number, size: number): JournalEntry {
  const place = { sensor: null, station: null, item: null };
  const text = `n ${n}`;
  if (n % 2 === 0) {
    const reading = {
      reading: `r${n}`,
      quantity: 'trial',
      sensor: null,
      station: null,
      value: n,
      unit: 'mm',
    };
    const rest = { direction: null, text, instrument: null, purpose: 'guide', carSetUp: 1, fixtureSetUp: 1 };
    return { type: 'readingRecorded', v: 1, payload: { ...reading, ...rest } };
  }
  const value = n % 3 === 0 ? { personal: `remark ${n}` } : 'x'.repeat(size);
  return { type: 'fieldRecorded', v: 1, payload: { field: 'trial', at: place, value, text } };
}

async function start(folder: string, hearing: Hearing): Promise<LivingWriter> {
  const { process: service, ask } = await startService(folder);
  return {
    process: service,
    append({ job, commandId, entries }, dieBeforeAnswer) {
      const sent = entries.map(({ type, payload }) => ({ type, v: 1 as const, payload }));
      const input = { person, job, commandId, expectedSeq: null, draft: null, entries: sent };
      void ask('job.record', input, dieBeforeAnswer).then(({ events }) =>
        hearing.answered(
          commandId,
          events.map((event) => event.hash),
        ),
      );
    },
    saveDraft(job, field, text) {
      void ask('draft.save', { job, field, text }).then(() => hearing.saved(field, text));
    },
  };
}

function startService(folder: string): Promise<Running> {
  const service = fork(SERVICE, [], {
    execArgv: ['--import', PRELOAD],
    env: { ...process.env, DATUMLINE_DATA: folder, DATUMLINE_BUILD: 'test build' },
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
  });
  const waiting = new Map<number, (value: unknown) => void>();
  let asked = 0;
  service.on('error', () => undefined);
  const ask: Ask = <N extends CallName>(name: N, input: Input<N>, fatal = false) => {
    asked += 1;
    const id = fatal ? FATAL_ID + asked : asked;
    const request = { kind: 'call', name, inputText: JSON.stringify(input), traceId: String(id) } as const;
    service.send({ type: 'request', id, request } satisfies ToService);
    // The service has checked its answer against this very call's schema.
    return new Promise<Output<N>>((resolve) => waiting.set(id, (value) => resolve(value as Output<N>)));
  };
  return new Promise((resolve, reject) => {
    service.once('exit', (code) => reject(new Error(`the service ended by itself: ${code}`)));
    service.on('message', (message: FromService) => {
      if (message.type === 'ready') resolve({ process: service, ask });
      if (message.type !== 'answer') return;
      const { envelope } = message;
      if (!envelope.ok) throw new Error(`the service refused: ${JSON.stringify(envelope.error)}`);
      waiting.get(message.id)?.(envelope.value);
    });
  });
}
