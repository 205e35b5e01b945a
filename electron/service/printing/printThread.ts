/** The printing thread starts here: one request in, one answer out, in the order they came. */
import { parentPort } from 'node:worker_threads';
import { invariant } from '../../../core/result.ts';
import { type PrintAnswer, type PrintRequest, printJob } from './printJob.ts';

export interface ToThread {
  readonly id: number;
  readonly request: PrintRequest;
}

/** `fault`: a bug's stack; the thread lives on. */
export type FromThread =
  | { readonly id: number; readonly answer: PrintAnswer }
  | { readonly id: number; readonly fault: string };

const port = parentPort;
invariant(port !== null, 'this file is started as a thread');

async function answered({ id, request }: ToThread): Promise<FromThread> {
  try {
    return { id, answer: await printJob(request) };
  } catch (fault) {
    return { id, fault: fault instanceof Error ? (fault.stack ?? fault.message) : String(fault) };
  }
}

let last: Promise<unknown> = Promise.resolve();
port.on('message', (message: ToThread) => {
  last = last.then(async () => port.postMessage(await answered(message)));
});
