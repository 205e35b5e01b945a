/**
 * The near end of the printing thread. One thread serves the whole process: it holds no state between two requests. It is started
 * by the first, and keeps no process alive that has nothing left to print.
 */
import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { PrintAnswer, PrintRequest } from './printJob.ts';
import type { FromThread, ToThread } from './printThread.ts';

interface Waiting {
  readonly answer: (answer: PrintAnswer) => void;
  readonly fail: (fault: Error) => void;
}

// Built, both ends lie side by side and end alike.
const threadFile = new URL(`./printThread${extname(import.meta.url)}`, import.meta.url);

class Printer {
  private thread: Worker | undefined;
  private lastId = 0;
  private readonly waiting = new Map<number, Waiting>();

  print(request: PrintRequest): Promise<PrintAnswer> {
    this.lastId += 1;
    const message: ToThread = { id: this.lastId, request };
    return new Promise((answer, fail) => {
      this.waiting.set(message.id, { answer, fail });
      const thread = this.thread ?? this.start();
      thread.ref();
      thread.postMessage(message);
    });
  }

  private start(): Worker {
    const thread = new Worker(threadFile, { name: 'printing' });
    this.thread = thread;
    thread.on('message', (message: FromThread) => this.take(message));
    thread.on('error', (fault) =>
      this.end(thread, fault instanceof Error ? fault : new Error(String(fault))),
    );
    thread.on('exit', (code) => this.end(thread, new Error(`the printing thread ended with code ${code}`)));
    return thread;
  }

  private take(message: FromThread): void {
    const waiting = this.waiting.get(message.id);
    this.waiting.delete(message.id);
    if (this.waiting.size === 0) this.thread?.unref();
    if ('fault' in message) waiting?.fail(new Error(message.fault));
    else waiting?.answer(message.answer);
  }

  /** The next request starts another thread. */
  private end(thread: Worker, fault: Error): void {
    if (this.thread !== thread) return;
    this.thread = undefined;
    const left = [...this.waiting.values()];
    this.waiting.clear();
    for (const { fail } of left) fail(fault);
  }
}

const printer = new Printer();

/** Prints on the thread. Rejects when the thread has a fault: a bug, never an expected failure. */
export function print(request: PrintRequest): Promise<PrintAnswer> {
  return printer.print(request);
}
