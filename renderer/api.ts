/**
 * The window's only way to the service, and the only file that touches the bridge. Nothing here throws: what goes
 * wrong on the way is an answer like any other.
 */
import type { Bridge } from '../core/contract/bridge.ts';
import type { CallName, Input, Notice, NoticeName, Output } from '../core/contract/index.ts';
import { err, ok, type Result } from '../core/result.ts';

declare global {
  interface Window {
    readonly datumline: Bridge;
  }
}

/** Why a call has no value. `traceId` finds it in the log; empty when it never left the window. */
export interface CallFailure {
  readonly code: string;
  readonly details: Readonly<Record<string, unknown>>;
  readonly traceId: string;
}

/** A stored file, named by its bytes. */
export interface StoredFile {
  readonly digest: string;
  readonly sizeBytes: number;
}

const unreachable: CallFailure = { code: 'call/unreachable', details: {}, traceId: '' };

/** Sends one call of the contract and unwraps its envelope. */
export async function call<N extends CallName>(
  name: N,
  input: Input<N>,
): Promise<Result<Output<N>, CallFailure>> {
  try {
    const envelope = await window.datumline.call(name, input);
    return envelope.ok ? ok(envelope.value) : err(envelope.error);
  } catch {
    return err(unreachable);
  }
}

/** Listens to a notice of the service; returns the function that stops listening. */
export function listen<N extends NoticeName>(name: N, listener: (notice: Notice<N>) => void): () => void {
  return window.datumline.on(name, listener);
}

/** Stores the bytes of a file that the person picked or dropped. */
export async function storeFile(bytes: Blob): Promise<Result<StoredFile, CallFailure>> {
  // The bridge below cannot carry an empty body, and an empty file proves nothing.
  if (bytes.size === 0) return err({ code: 'file/empty', details: {}, traceId: '' });
  try {
    const answer = await fetch('/drop', { method: 'POST', body: bytes });
    if (answer.ok) return ok((await answer.json()) as StoredFile);
    return err({ code: (await answer.text()).slice(0, 80), details: { size: bytes.size }, traceId: '' });
  } catch {
    return err(unreachable);
  }
}

/** The address at which a stored file can be shown or saved. */
export function fileAddress(digest: string): string {
  return `/file/${digest}`;
}
