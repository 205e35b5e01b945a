/** Instruments that tests make: a TCP server, and a terminal pair by socat. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { type AddressInfo, createServer, type Server, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

/** Things that happen, and waiting for the one that fits: no test waits for a time. */
export function happenings<T>() {
  const all: T[] = [];
  const waiting = new Set<() => void>();
  return {
    all,
    add(each: T): void {
      all.push(each);
      for (const look of [...waiting]) look();
    },
    /** The first that fits, of those that happened and those to come. */
    until(fits: (each: T) => boolean, from = 0): Promise<T> {
      return new Promise((resolve) => {
        const look = () => {
          const found = all.slice(from).find(fits);
          if (found === undefined) return;
          waiting.delete(look);
          resolve(found);
        };
        waiting.add(look);
        look();
      });
    },
  };
}

export interface FakeTcp {
  readonly port: number;
  /** The next client that connects, or the one that is. */
  readonly client: () => Promise<Socket>;
  readonly stop: () => Promise<void>;
}

/** A server on a port of its own, or on `port`. */
export async function fakeTcp(port = 0): Promise<FakeTcp> {
  const clients = happenings<Socket>();
  const server: Server = createServer((socket) => {
    socket.on('error', () => undefined);
    clients.add(socket);
  });
  await new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve));
  const stop = async () => {
    for (const socket of clients.all) socket.destroy();
    await new Promise<void>((resolve) => server.close(() => resolve()));
  };
  onTestFinished(stop);
  const address = server.address() as AddressInfo;
  return { port: address.port, client: () => clients.until((socket) => !socket.destroyed), stop };
}

export interface FakeTerminal {
  readonly write: (text: string) => void;
  /** Pulls the plug: the terminal is gone. */
  readonly pull: () => Promise<void>;
}

/** A folder in which fake ports appear under their names. */
export function portFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-ports-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A terminal in `folder` under `name`, whose other end is ours to write to. */
export async function fakeTerminal(folder: string, name: string): Promise<FakeTerminal> {
  const link = join(folder, name);
  const child: ChildProcess = spawn('socat', ['-d', '-d', `pty,raw,echo=0,link=${link}`, 'stdio']);
  const ended = new Promise<void>((resolve) => child.on('exit', () => resolve()));
  const pull = async () => {
    child.kill('SIGTERM');
    await ended;
  };
  onTestFinished(pull);
  await new Promise<void>((resolve, reject) => {
    child.on('error', reject);
    child.stderr?.on('data', (text) => {
      if (String(text).includes('starting data transfer loop')) resolve();
    });
  });
  child.stdin?.on('error', () => undefined);
  return { write: (text) => void child.stdin?.write(text), pull };
}
