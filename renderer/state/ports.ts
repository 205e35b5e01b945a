/** What the window's state needs from outside: calls, notices, time and ids. Tests hand in their own. */
import type { CallName, Input, Notice, NoticeName, Output } from '../../core/contract/index.ts';
import type { Result } from '../../core/result.ts';

/** Why a call had no answer of value: the envelope's error, or that the service could not be reached. */
export interface CallError {
  readonly code: string;
  readonly details: Readonly<Record<string, unknown>>;
  readonly traceId: string;
}

export interface Ports {
  readonly call: <N extends CallName>(name: N, input: Input<N>) => Promise<Result<Output<N>, CallError>>;
  /** Listens to a notice; the answer ends it. */
  readonly onNotice: <N extends NoticeName>(name: N, listener: (notice: Notice<N>) => void) => () => void;
  readonly nowUtcMs: () => number;
  /** A fresh UUIDv7: of a command, a reading, a sensor. */
  readonly newId: () => string;
  /** Runs `act` after `ms`; the answer cancels it. */
  readonly later: (ms: number, act: () => void) => () => void;
  /** Runs `act` before the next picture is drawn. */
  readonly frame: (act: () => void) => void;
}
