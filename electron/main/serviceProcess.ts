/**
 * Keeps the service running: starts it, starts it again with growing pauses when it dies, and repeats the calls that
 * were under way. Repeating is safe: a query reads, a command carries the id by which its first answer is found, and
 * the few commands without one change nothing the second time.
 */
import type { ChildProcess } from 'node:child_process';
import type { ErrorCode } from '../../core/contract/errorCodes.ts';
import type { Envelope, Notice } from '../../core/contract/index.ts';
import type { FromService, Request, ToService } from '../service/host/wire.ts';

export type ServiceState = Notice<'service.state'>['state'];

export interface ServiceProcessParts {
  start(): ChildProcess;
  onNotice(name: string, value: unknown): void;
  onState(state: ServiceState): void;
  log(text: string): void;
}

export interface ServiceProcess {
  request(request: Request): Promise<Envelope<unknown>>;
  /** Lets it answer what it has taken, then ends it; kills it when that takes too long. */
  stop(): Promise<void>;
  readonly state: ServiceState;
}

interface Pending {
  readonly message: Extract<ToService, { type: 'request' }>;
  readonly answer: (envelope: Envelope<unknown>) => void;
  /** How often a service took it and died. */
  deaths: number;
  sent: boolean;
}

/** All times of this file. */
export const serviceTimes = {
  firstPauseMs: 100,
  longestPauseMs: 5_000,
  /** A service that lived this long starts with the first pause again. */
  provenAfterMs: 30_000,
  stopLimitMs: 6_000,
};

/** A call that two services in a row died of is not offered to a third. */
const MOST_DEATHS = 2;

/**
 * After so many starts in a row that came to nothing the window is told "stopped" and calls are answered so at once,
 * instead of waiting for ever; trying goes on.
 */
const STARTS_UNTIL_STOPPED = 5;

type Refusal = Extract<ErrorCode, 'service/interrupted' | 'service/stopped'>;

function refuse(request: Request, code: Refusal): Envelope<never> {
  const traceId = request.kind === 'call' ? request.traceId : '';
  return { ok: false, error: { code, details: {}, traceId } };
}

/** The pause before the next start, after so many failed ones in a row. */
export function pauseMs(failures: number): number {
  return Math.min(serviceTimes.longestPauseMs, serviceTimes.firstPauseMs * 2 ** Math.min(failures, 16));
}

export function startServiceProcess(parts: ServiceProcessParts): ServiceProcess {
  const pending = new Map<number, Pending>();
  let lastId = 0;
  let child: ChildProcess | undefined;
  let ready = false;
  let stopping = false;
  let failures = 0;
  let state: ServiceState = 'starting';

  const setState = (next: ServiceState) => {
    if (state === next) return;
    state = next;
    parts.onState(next);
  };

  const sendPending = () => {
    for (const entry of pending.values()) {
      if (entry.sent) continue;
      entry.sent = true;
      child?.send(entry.message, (error) => {
        // The exit event follows and decides what becomes of it.
        if (error) parts.log(`could not send: ${error.message}`);
      });
    }
  };

  const receive = (message: FromService) => {
    if (message.type === 'notice') return parts.onNotice(message.name, message.value);
    if (message.type === 'answer') {
      pending.get(message.id)?.answer(message.envelope);
      pending.delete(message.id);
      return;
    }
    ready = true;
    setState('running');
    sendPending();
  };

  const giveUp = (code: Refusal, which: (entry: Pending) => boolean) => {
    for (const [id, entry] of pending) {
      if (!which(entry)) continue;
      pending.delete(id);
      entry.answer(refuse(entry.message.request, code));
    }
  };

  const bury = () => {
    for (const entry of pending.values()) {
      if (entry.sent) entry.deaths += 1;
      entry.sent = false;
    }
    giveUp('service/interrupted', ({ deaths }) => deaths >= MOST_DEATHS);
  };

  const launch = () => {
    const startedAt = performance.now();
    ready = false;
    const started = parts.start();
    child = started;
    let over = false;
    const end = (why: string) => {
      if (over) return;
      over = true;
      if (child === started) child = undefined;
      ready = false;
      if (stopping) return;
      parts.log(`the service ended: ${why}`);
      bury();
      if (performance.now() - startedAt > serviceTimes.provenAfterMs) failures = 0;
      const pause = pauseMs(failures);
      failures += 1;
      if (failures >= STARTS_UNTIL_STOPPED) {
        setState('stopped');
        giveUp('service/stopped', () => true);
      } else {
        setState('restarting');
      }
      setTimeout(launch, pause);
    };
    started.on('message', receive);
    started.once('error', (error) => end(error.message));
    started.once('exit', (code, signal) => end(`code ${code}, signal ${signal}`));
  };

  launch();
  return {
    get state() {
      return state;
    },
    request(request) {
      if (stopping) return Promise.resolve(refuse(request, 'service/interrupted'));
      if (state === 'stopped') return Promise.resolve(refuse(request, 'service/stopped'));
      lastId += 1;
      const id = lastId;
      return new Promise((answer) => {
        pending.set(id, { message: { type: 'request', id, request }, answer, deaths: 0, sent: false });
        if (ready) sendPending();
      });
    },
    async stop() {
      stopping = true;
      const last = child;
      if (!last || last.exitCode !== null || last.signalCode !== null) return;
      await new Promise<void>((resolve) => {
        const timer = setTimeout(() => last.kill('SIGKILL'), serviceTimes.stopLimitMs);
        last.once('exit', () => {
          clearTimeout(timer);
          resolve();
        });
        last.send({ type: 'close' } satisfies ToService, () => undefined);
      });
    },
  };
}
