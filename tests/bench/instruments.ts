/**
 * The service while instruments stream: one and three at a thousand lines a second over TCP, and bursts of ten thousand
 * lines at once. Measured: how late the service's event loop runs, how many notices a second the window gets, and how
 * long a call from the window takes meanwhile. The instruments are another process, so that their work is not counted.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { setTimeout as pause } from 'node:timers/promises';
import type { Notice } from '../../core/contract/index.ts';
import { localHost } from '../../electron/cli/demo.ts';
import { callOrThrow } from '../../electron/cli/playScript.ts';
import { newId } from '../../electron/service/clock.ts';
import { startService } from '../../electron/service/handlers/index.ts';
import { createDispatch, type Dispatch } from '../../electron/service/host/dispatch.ts';
import { type Timing, timed, timingOf } from './timing.ts';

const STREAM_MS = 5_000;
/** Answer to a call while instruments stream, 95th percentile. */
const CALL_LIMIT_MS = 50;
const NOTICES_A_SECOND = 60;
const NANO_IN_MS = 1e6;

const format = {
  pattern: '^(?<channel>D[0-9]) *(?<value>[-+][0-9.,]+) *(?<unit>mm|in)?',
  kind: 'length' as const,
  unit: 'mm',
  channel: '',
  good: [],
};

type Plan = { readonly everyMs: number; readonly lines: number };

/** An instrument in a process of its own; answers its port. */
async function startInstrument(plan: Plan): Promise<{ readonly port: number; readonly child: ChildProcess }> {
  const child = fork(new URL('./streamingInstrument.ts', import.meta.url), [
    String(plan.everyMs),
    String(plan.lines),
  ]);
  const port = await new Promise<number>((resolve) => child.once('message', (told) => resolve(Number(told))));
  return { port, child };
}

interface Running {
  readonly dispatch: Dispatch;
  readonly notices: Notice<'instrument.value'>[];
}

async function stream(running: Running, name: string, count: number, plan: Plan): Promise<readonly Timing[]> {
  const { dispatch, notices } = running;
  const instruments = await Promise.all(Array.from({ length: count }, () => startInstrument(plan)));
  const delay = monitorEventLoopDelay({ resolution: 1 });
  try {
    for (const [n, { port }] of instruments.entries()) {
      const source = { kind: 'tcp' as const, host: '127.0.0.1', port };
      await callOrThrow(dispatch, 'instrument.connect', { instrument: `g${n}`, source, format });
    }
    await pause(1000);
    const first = notices.length;
    const linesBefore = linesOf(notices, count);
    const took: number[] = [];
    delay.enable();
    const start = performance.now();
    while (performance.now() - start < STREAM_MS) {
      took.push(await timed(() => callOrThrow(dispatch, 'job.list', { search: '' })));
      await pause(20);
    }
    const seconds = (performance.now() - start) / 1000;
    delay.disable();
    const perSecond = (notices.length - first) / seconds / count;
    const lines = Math.round((linesOf(notices, count) - linesBefore) / seconds);
    console.log(
      `${name}: ${lines} lines a second heard, ${perSecond.toFixed(1)} notices a second and instrument, ` +
        `${notices.reduce((sum, each) => Math.max(sum, each.skipped), 0)} lines left out`,
    );
    if (lines < 1) throw new Error('nothing was heard');
    if (perSecond > NOTICES_A_SECOND) throw new Error(`${perSecond} notices a second`);
    const late = [50, 95, 99, 100].map((share) => delay.percentile(share) / NANO_IN_MS);
    return [
      timingOf(`${name}: a call meanwhile`, CALL_LIMIT_MS, took),
      {
        name: `${name}: event loop late by`,
        runs: delay.count,
        medianMs: Math.round((late[0] ?? 0) * 1000) / 1000,
        p95Ms: Math.round((late[1] ?? 0) * 1000) / 1000,
        slowestMs: Math.round((late[3] ?? 0) * 1000) / 1000,
        limitMs: null,
      },
    ];
  } finally {
    delay.disable();
    for (const [n] of instruments.entries()) {
      await callOrThrow(dispatch, 'instrument.disconnect', { instrument: `g${n}` });
    }
    for (const { child } of instruments) child.kill();
    notices.length = 0;
  }
}

/** All lines heard so far, of all instruments. */
function linesOf(notices: readonly Notice<'instrument.value'>[], count: number): number {
  const last = Array.from({ length: count }, (_, n) =>
    notices.findLast((each) => each.instrument === `g${n}`),
  );
  return last.reduce((sum, each) => sum + (each?.lines ?? 0), 0);
}

/** Starts the service with the demo shop and measures. */
export async function benchInstruments(): Promise<readonly Timing[]> {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-instruments-'));
  const notices: Notice<'instrument.value'>[] = [];
  const service = await startService({
    ...localHost(folder),
    notify: (name, value) => {
      if (name === 'instrument.value') notices.push(value as Notice<'instrument.value'>);
    },
  });
  try {
    const dispatch = createDispatch(service.handlers, (_trace, name, fault) => {
      throw new Error(`fault in ${name}: ${String(fault)}`);
    });
    await callOrThrow(dispatch, 'shop.openDemo', { commandId: newId() });
    const running = { dispatch, notices };
    return [
      ...(await stream(running, 'one instrument, 2 lines a second', 1, { everyMs: 500, lines: 1 })),
      ...(await stream(running, 'one instrument, 1000 lines a second', 1, { everyMs: 10, lines: 10 })),
      ...(await stream(running, 'three instruments, 1000 lines a second each', 3, {
        everyMs: 10,
        lines: 10,
      })),
      ...(await stream(running, 'bursts of 10000 lines', 1, { everyMs: 1000, lines: 10_000 })),
    ];
  } finally {
    await service.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
