/**
 * One call from text to envelope: known name, size, schema, one command at a time, handler, answer's schema. Used by
 * the service process and by the command line alike.
 */
import { randomBytes } from 'node:crypto';
import { type CallName, calls, type Envelope } from '../../../core/contract/index.ts';
import { err, ok, type Result } from '../../../core/result.ts';
import type { CallError, Handlers } from './handlers.ts';

export interface Dispatch {
  call(name: string, inputText: string, traceId?: string): Promise<Envelope<unknown>>;
  /** Resolves when every command taken so far has been answered. */
  settled(): Promise<void>;
}

/** Where a bug's stack goes; the caller gets only the trace id. */
export type ReportFault = (traceId: string, name: string, fault: unknown) => void;

type Run = (
  input: unknown,
  traceId: string,
) => Result<unknown, CallError> | Promise<Result<unknown, CallError>>;

const MOST_ISSUES = 5;

export function newTraceId(): string {
  return randomBytes(6).toString('hex');
}

function isCallName(name: string): name is CallName {
  return Object.hasOwn(calls, name);
}

function parseInput(name: CallName, inputText: string): Result<unknown, CallError> {
  const { limit, input } = calls[name];
  if (inputText.length > limit) return err({ code: 'call/tooLarge', details: { name, limit } });
  let value: unknown;
  try {
    value = JSON.parse(inputText);
  } catch {
    return err({ code: 'call/invalid', details: { name, issues: ['not JSON'] } });
  }
  const parsed = input.safeParse(value);
  if (parsed.success) return ok(parsed.data);
  const issues = parsed.error.issues
    .slice(0, MOST_ISSUES)
    .map(({ path, message }) => `${path.join('.')}: ${message}`);
  return err({ code: 'call/invalid', details: { name, issues } });
}

export function createDispatch(handlers: Handlers, reportFault: ReportFault): Dispatch {
  let lastCommand: Promise<unknown> = Promise.resolve();

  async function runHandler(
    name: CallName,
    input: unknown,
    traceId: string,
  ): Promise<Result<unknown, CallError>> {
    try {
      // The input has just passed this very name's schema; the compiler cannot follow that through the table.
      const run = handlers[name] as Run;
      const result = await run(input, traceId);
      return result.ok ? ok(calls[name].output.parse(result.value)) : result;
    } catch (fault) {
      reportFault(traceId, name, fault);
      return err({ code: 'service/fault', details: { name } });
    }
  }

  function inTurn(name: CallName, input: unknown, traceId: string): Promise<Result<unknown, CallError>> {
    if (calls[name].kind === 'query') return runHandler(name, input, traceId);
    const answer = lastCommand.then(() => runHandler(name, input, traceId));
    lastCommand = answer;
    return answer;
  }

  async function answer(
    name: string,
    inputText: string,
    traceId: string,
  ): Promise<Result<unknown, CallError>> {
    if (!isCallName(name)) return err({ code: 'call/unknown', details: { name: name.slice(0, 80) } });
    const input = parseInput(name, inputText);
    return input.ok ? inTurn(name, input.value, traceId) : input;
  }

  return {
    async call(name, inputText, traceId = newTraceId()) {
      const result = await answer(name, inputText, traceId);
      return result.ok ? result : err({ ...result.error, traceId });
    },
    settled: () => lastCommand.then(() => undefined),
  };
}
