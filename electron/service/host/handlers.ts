/** What a handler is. Derived from the contract: a call without a handler does not compile. */
import type { ErrorCode } from '../../../core/contract/errorCodes.ts';
import type { CallName, Input, Output } from '../../../core/contract/index.ts';
import type { Result } from '../../../core/result.ts';

/** An expected failure as a handler returns it; the host adds the trace id. */
export interface CallError {
  readonly code: ErrorCode;
  readonly details: Readonly<Record<string, unknown>>;
}

type Answer<N extends CallName> = Result<Output<N>, CallError>;

/** One handler. The input has passed the call's schema; commands run one at a time, queries whenever they come. */
export type Handler<N extends CallName> = (
  input: Input<N>,
  traceId: string,
) => Answer<N> | Promise<Answer<N>>;

export type Handlers = { readonly [N in CallName]: Handler<N> };
