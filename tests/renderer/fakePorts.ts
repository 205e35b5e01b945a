/** Ports for tests of the window's state: calls answered by hand, a clock that is turned by hand, counted ids. */
import type { CallName, Input, Notice, NoticeName, Output } from '../../core/contract/index.ts';
import { err, ok, type Result } from '../../core/result.ts';
import type { CallError, Ports } from '../../renderer/state/ports.ts';

export interface SentCall {
  readonly name: CallName;
  readonly input: Record<string, unknown>;
}

type Handler = (input: Record<string, unknown>) => Result<unknown, CallError>;

export const refusal = (code: string): Result<never, CallError> =>
  err({ code, details: {}, traceId: 'trace' });

interface Timer {
  readonly due: number;
  readonly act: () => void;
}

/** Lets every promise that can go on do so. */
export async function settle(): Promise<void> {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
}

export class FakePorts implements Ports {
  readonly sent: SentCall[] = [];
  private readonly handlers = new Map<CallName, Handler>();
  private readonly listeners = new Map<string, ((notice: never) => void)[]>();
  private timers: Timer[] = [];
  private ids = 0;
  private now = Date.UTC(2026, 10, 25, 8);

  /** Says how a call is answered from now on. */
  answer<N extends CallName>(name: N, handler: (input: Input<N>) => Result<Output<N>, CallError>): void {
    this.handlers.set(name, handler as unknown as Handler);
  }

  readonly call = async <N extends CallName>(
    name: N,
    input: Input<N>,
  ): Promise<Result<Output<N>, CallError>> => {
    // What crosses the bridge is JSON and nothing else.
    const crossed = JSON.parse(JSON.stringify(input)) as Record<string, unknown>;
    this.sent.push({ name, input: crossed });
    const handler = this.handlers.get(name);
    if (handler === undefined) return refusal('call/unreachable');
    return handler(crossed) as Result<Output<N>, CallError>;
  };

  readonly onNotice = <N extends NoticeName>(
    name: N,
    listener: (notice: Notice<N>) => void,
  ): (() => void) => {
    const known = this.listeners.get(name) ?? [];
    this.listeners.set(name, [...known, listener as (notice: never) => void]);
    return () => undefined;
  };

  notify<N extends NoticeName>(name: N, notice: Notice<N>): void {
    for (const listener of this.listeners.get(name) ?? []) listener(notice as never);
  }

  readonly nowUtcMs = (): number => this.now;

  readonly newId = (): string => {
    this.ids += 1;
    return `id-${this.ids}`;
  };

  readonly later = (ms: number, act: () => void): (() => void) => {
    const timer: Timer = { due: this.now + ms, act };
    this.timers.push(timer);
    return () => {
      this.timers = this.timers.filter((each) => each !== timer);
    };
  };

  /** Acts that wait for the next picture. */
  readonly frames: (() => void)[] = [];

  readonly frame = (act: () => void): void => {
    this.frames.push(act);
  };

  /** Draws a picture: what waited for it runs. */
  draw(): void {
    for (const act of this.frames.splice(0)) act();
  }

  /** Turns the clock on by `ms` and runs what falls due, then lets promises go on. */
  async pass(ms: number): Promise<void> {
    this.now += ms;
    const due = this.timers.filter((timer) => timer.due <= this.now);
    this.timers = this.timers.filter((timer) => timer.due > this.now);
    for (const timer of due) timer.act();
    await settle();
  }

  /** Inputs of every call of this name so far. */
  inputs(name: CallName): readonly Record<string, unknown>[] {
    return this.sent.filter((each) => each.name === name).map((each) => each.input);
  }
}

/** An event as the service stores it, as far as the window reads it. */
export function storedEvent(
  seq: number,
  type: string,
  payload: Record<string, unknown>,
  job = 'job-1',
): { text: string; hash: string } {
  const event = {
    job,
    seq,
    type,
    v: 1,
    at: { utcMs: Date.UTC(2026, 10, 25, 8) + seq * 1000, offsetMin: 60, zone: 'Etc/UTC', monoMs: seq },
    person: 'mira',
    payload,
  };
  return { text: JSON.stringify(event), hash: String(seq).padStart(64, '0') };
}

export const openedPayload = {
  reference: '1-2026-0001',
  demo: true,
  bay: '1',
  decisionRule: 'guarded',
  follows: null,
} as const;

export { ok };
