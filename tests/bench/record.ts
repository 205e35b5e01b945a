/**
 * Recording one entry at the end of the demo job, when it is longest: the whole way through the service, with the flush
 * to the disk. The job is played several times, each in a store of its own; the last thirty entries of each count.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { localHost } from '../../electron/cli/demo.ts';
import { callOrThrow, playScript, readScript } from '../../electron/cli/playScript.ts';
import { newId } from '../../electron/service/clock.ts';
import { startService } from '../../electron/service/handlers/index.ts';
import { createDispatch, type Dispatch } from '../../electron/service/host/dispatch.ts';
import { type Timing, timingOf } from './timing.ts';

const LIMIT_MS = 20;
const WARM_UPS = 1;
const PLAYS = 6;
const LAST = 30;
const SCRIPT = new URL('../../assets/demo/demo-job.json', import.meta.url);

interface Took {
  readonly wallMs: number;
  /** Processor time of the whole process, its threads included: what remains of the wall clock on a busy machine. */
  readonly processorMs: number;
}

/** Plays the job once up to its signature and answers how long each entry took, in their order. */
async function playOnce(): Promise<readonly Took[]> {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-record-'));
  const service = await startService(localHost(folder));
  try {
    const dispatch = createDispatch(service.handlers, (_trace, name, fault) => {
      throw new Error(`fault in ${name}: ${String(fault)}`);
    });
    const took: Took[] = [];
    const watched: Dispatch = {
      ...dispatch,
      async call(name, inputText, traceId) {
        const [start, usage] = [performance.now(), process.cpuUsage()];
        const envelope = await dispatch.call(name, inputText, traceId);
        const { user, system } = process.cpuUsage(usage);
        const processorMs = (user + system) / 1000;
        if (name === 'job.record') took.push({ wallMs: performance.now() - start, processorMs });
        return envelope;
      },
    };
    const { shop } = await callOrThrow(dispatch, 'shop.openDemo', { commandId: newId() });
    if (shop === null) throw new Error('no shop');
    const script = readScript(SCRIPT);
    const unsigned = { ...script, steps: script.steps.filter((step) => step.do !== 'sign') };
    await playScript(watched, unsigned, shop, { shown: () => undefined, signed: () => undefined });
    return took;
  } finally {
    await service.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Measures; the first play only warms up. */
export async function benchRecord(): Promise<readonly Timing[]> {
  const values: Took[] = [];
  for (let play = 0; play < WARM_UPS + PLAYS; play += 1) {
    const took = await playOnce();
    if (took.length < LAST) throw new Error(`the demo job has ${took.length} entries`);
    if (play >= WARM_UPS) values.push(...took.slice(-LAST));
  }
  const name = `record an entry at the end of the demo job (last ${LAST})`;
  return [
    timingOf(
      name,
      LIMIT_MS,
      values.map((each) => each.wallMs),
    ),
    timingOf(
      `${name}, processor time`,
      null,
      values.map((each) => each.processorMs),
    ),
  ];
}
