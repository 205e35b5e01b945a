// A tape that sends its readings over the network: a server that can be told what to show, unplugged and plugged in again,
// and the shop's word for where it is.
import { type AddressInfo, createServer, type Server, type Socket } from 'node:net';
import type { LineStream } from '../../core/instruments/index.ts';
import { localHost } from '../../electron/cli/demo.ts';
import { callOrThrow } from '../../electron/cli/playScript.ts';
import { newId } from '../../electron/service/clock.ts';
import { startService } from '../../electron/service/handlers/index.ts';
import { createDispatch } from '../../electron/service/host/dispatch.ts';

/** A thousand lines a second, in bursts. */
const BURST_MS = 100;
const LINES_IN_BURST = 100;
/** How far the lines before the last of a burst lie from it, mm. */
const JITTER_MM = 0.2;

export const TAPE_FORMAT: LineStream['format'] = {
  pattern: '^D1 *(?<value>[-+][0-9.,]+) *(?<unit>mm)',
  kind: 'length',
  unit: '',
  channel: '',
  good: [],
};

export class SendingTape {
  private server: Server | undefined;
  private readonly sockets = new Set<Socket>();
  private valueMm: number;
  port = 0;

  constructor(valueMm: number) {
    this.valueMm = valueMm;
  }

  shows(valueMm: number): void {
    this.valueMm = valueMm;
  }

  private burst(): string {
    return Array.from({ length: LINES_IN_BURST }, (_, n) => {
      const isLast = n === LINES_IN_BURST - 1;
      const value = this.valueMm + (isLast ? 0 : n % 2 === 0 ? JITTER_MM : -JITTER_MM);
      return `D1 +${value.toFixed(2)} mm\r\n`;
    }).join('');
  }

  /** Begins to listen, on the port it had before. */
  async plugIn(): Promise<void> {
    const server = createServer((socket) => {
      this.sockets.add(socket);
      socket.on('error', () => undefined);
      const timer = setInterval(() => socket.write(this.burst()), BURST_MS);
      socket.on('close', () => {
        clearInterval(timer);
        this.sockets.delete(socket);
      });
    });
    await new Promise<void>((resolve) => server.listen(this.port, '127.0.0.1', resolve));
    this.port = (server.address() as AddressInfo).port;
    this.server = server;
  }

  say(text: string): void {
    for (const socket of this.sockets) socket.write(text);
  }

  /** Ends in the middle of a line, and does not answer any more. */
  async unplug(): Promise<void> {
    const closed = new Promise<void>((resolve) => this.server?.close(() => resolve()));
    for (const socket of this.sockets) socket.end('D1 +14');
    for (const socket of this.sockets) socket.destroySoon();
    await closed;
  }
}

/** Records, as the shop's owner, that this instrument of the demo shop sends from there. */
export async function recordStream(folder: string, instrument: string, stream: LineStream): Promise<void> {
  const service = await startService(localHost(folder));
  const dispatch = createDispatch(service.handlers, (_trace, name, fault) => {
    throw new Error(`${name}: ${String(fault)}`);
  });
  try {
    const { shop } = await callOrThrow(dispatch, 'app.status', {});
    const owner = shop?.people.find((each) => each.roles.includes('owner'));
    if (shop === null || owner === undefined) throw new Error('no shop with an owner');
    const instruments = shop.instruments.map((each) => (each.id === instrument ? { ...each, stream } : each));
    if (!instruments.some((each) => each.stream !== undefined))
      throw new Error(`no instrument ${instrument}`);
    await callOrThrow(dispatch, 'shop.record', {
      person: owner.id,
      commandId: newId(),
      shop: { ...shop, instruments },
    });
  } finally {
    await service.close();
  }
}
