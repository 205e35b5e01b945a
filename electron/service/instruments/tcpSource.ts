/** Lines over the network: a TCP client of an instrument or of a converter in front of one. */
import { connect } from 'node:net';
import { type InstrumentFault, instrumentFault } from '../../../core/instruments/index.ts';
import type { OpenSource } from './source.ts';

/** A host that does not answer in this time does not answer. */
const CONNECT_LIMIT_MS = 5_000;
/** Asked after when nothing comes: an instrument whose cable was pulled says no good-bye. */
const KEEP_ALIVE_MS = 5_000;

const UNREACHABLE: ReadonlySet<string> = new Set([
  'ENOTFOUND',
  'EAI_AGAIN',
  'EHOSTUNREACH',
  'ENETUNREACH',
  'EHOSTDOWN',
  'ETIMEDOUT',
]);

/** What an error of the network says, before and after the connection stood. */
export function tcpFault(error: NodeJS.ErrnoException, place: string, wasOpen: boolean): InstrumentFault {
  const code = error.code ?? '';
  if (code === 'ECONNREFUSED') return instrumentFault('instrument.refused', { place });
  if (wasOpen && ['ECONNRESET', 'EPIPE', 'ETIMEDOUT', 'ECONNABORTED'].includes(code)) {
    return instrumentFault('instrument.unplugged', { place });
  }
  if (UNREACHABLE.has(code)) return instrumentFault('instrument.unreachable', { place });
  return instrumentFault('instrument.trouble', { place, problem: code === '' ? error.message : code });
}

/** A source at an address. */
export function tcpSource(host: string, port: number): OpenSource {
  const place = host.includes(':') ? `[${host}]:${port}` : `${host}:${port}`;
  return ({ opened, bytes, ended }) => {
    const socket = connect({ host, port });
    let isOpen = false;
    let isOver = false;
    const end = (fault: InstrumentFault) => {
      if (isOver) return;
      isOver = true;
      socket.destroy();
      ended(fault);
    };
    socket.setTimeout(CONNECT_LIMIT_MS, () => {
      if (!isOpen) end(instrumentFault('instrument.unreachable', { place }));
    });
    socket.on('connect', () => {
      isOpen = true;
      socket.setTimeout(0);
      socket.setKeepAlive(true, KEEP_ALIVE_MS);
      if (!isOver) opened();
    });
    socket.on('data', (chunk) => {
      if (!isOver) bytes(chunk);
    });
    socket.on('error', (error) => end(tcpFault(error, place, isOpen)));
    socket.on('close', () => end(instrumentFault('instrument.unplugged', { place })));
    return () => {
      isOver = true;
      socket.destroy();
    };
  };
}
