/** All instruments that are connected now, by their id. */
import {
  type InstrumentFault,
  instrumentFault,
  type LineFormat,
  type LineReader,
  lineReader,
  type StreamSource,
} from '../../../core/instruments/index.ts';
import { type Connection, type ConnectionNews, keepConnected, type Pace } from './connection.ts';
import { type FeedNews, lineFeed } from './lineFeed.ts';
import { serialPorts, serialSource } from './serialSource.ts';
import type { OpenSource } from './source.ts';
import { tcpSource } from './tcpSource.ts';

/** A bay has a handful; more is a mistake that would eat the machine's ports. */
export const MOST_CONNECTED = 16;

export interface HubParts {
  readonly onValue: (instrument: string, news: FeedNews) => void;
  readonly onState: (instrument: string, news: ConnectionNews) => void;
  /** A clock that only runs on, ms. */
  readonly now?: () => number;
  readonly portFolder?: string;
  readonly pace?: Partial<Pace>;
}

export interface InstrumentHub {
  /**
   * Connects, or connects anew in another way. Without a format lines are passed on unread. Answers what is wrong with
   * the format, or undefined; whether the instrument answers is told as news.
   */
  connect(instrument: string, source: StreamSource, format: LineFormat | null): InstrumentFault | undefined;
  disconnect(instrument: string): void;
  states(): readonly (readonly [instrument: string, news: ConnectionNews])[];
  ports(): Promise<readonly string[]>;
  close(): void;
}

interface Held {
  readonly connection: Connection;
  readonly close: () => void;
}

/** A hub without instruments. */
export function instrumentHub(parts: HubParts): InstrumentHub {
  const { now = () => performance.now() } = parts;
  const held = new Map<string, Held>();

  function sourceOf(source: StreamSource): OpenSource {
    return source.kind === 'tcp'
      ? tcpSource(source.host, source.port)
      : serialSource(source, parts.portFolder);
  }

  function hold(instrument: string, source: StreamSource, read: LineReader | undefined): Held {
    const feed = lineFeed({ read, now, onNews: (news) => parts.onValue(instrument, news) });
    const connection = keepConnected({
      open: sourceOf(source),
      now,
      onLines: (lines) => feed.push(lines),
      onNews(news) {
        if (news.state === 'connecting') feed.interrupt();
        parts.onState(instrument, news);
      },
      ...(parts.pace === undefined ? {} : { pace: parts.pace }),
    });
    return {
      connection,
      close() {
        feed.close();
        connection.close();
      },
    };
  }

  function disconnect(instrument: string): void {
    held.get(instrument)?.close();
    held.delete(instrument);
  }

  return {
    connect(instrument, source, format) {
      const reader = format === null ? undefined : lineReader(format);
      if (reader !== undefined && !reader.ok) return reader.error;
      if (!held.has(instrument) && held.size >= MOST_CONNECTED) {
        return instrumentFault('instrument.tooMany', { most: `${MOST_CONNECTED}` });
      }
      disconnect(instrument);
      held.set(instrument, hold(instrument, source, reader?.value));
      return undefined;
    },
    disconnect,
    states: () => [...held].map(([instrument, { connection }]) => [instrument, connection.news()] as const),
    ports: () => serialPorts(parts.portFolder),
    close() {
      for (const instrument of [...held.keys()]) disconnect(instrument);
    },
  };
}
