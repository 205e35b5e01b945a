/**
 * A connection that is kept up: opened, opened again after a growing pause when it fails or ends, and watched for
 * silence. Lines of it are passed on as they end.
 */
import type { InstrumentFault } from '../../../core/instruments/index.ts';
import { type FramedLine, lineFramer } from './lineFramer.ts';
import type { OpenSource } from './source.ts';

export type ConnectionState = 'connecting' | 'open' | 'silent' | 'waiting' | 'closed';

export interface ConnectionNews {
  readonly state: ConnectionState;
  /** Why it is not open. */
  readonly fault: InstrumentFault | null;
  /** Until it is opened again. */
  readonly nextTryMs: number | null;
  /** Since the last line; null before the first. */
  readonly lastLineAgoMs: number | null;
}

export interface ConnectionParts {
  readonly open: OpenSource;
  /** A clock that only runs on, ms. */
  readonly now: () => number;
  readonly onLines: (lines: readonly FramedLine[]) => void;
  readonly onNews: (news: ConnectionNews) => void;
  readonly pace?: Partial<Pace>;
}

/** All in milliseconds. */
export interface Pace {
  readonly firstPauseMs: number;
  readonly longestPauseMs: number;
  /** Open, but without a line for so long: said, for the last value is old. */
  readonly silentAfterMs: number;
  /**
   * What comes so soon after opening comes from a running instrument, and likely from the middle of a line: that line is
   * left out. An instrument that sends when its button is pressed never answers so fast.
   */
  readonly midLineMs: number;
}

const PACE: Pace = { firstPauseMs: 500, longestPauseMs: 30_000, silentAfterMs: 3_000, midLineMs: 200 };

/** A connection under way. */
export interface Connection {
  readonly news: () => ConnectionNews;
  readonly close: () => void;
}

/** Opens and keeps open until closed. */
export function keepConnected(parts: ConnectionParts): Connection {
  const pace = { ...PACE, ...parts.pace };
  const framer = lineFramer();
  let state: ConnectionState = 'connecting';
  let fault: InstrumentFault | null = null;
  let pauseMs = pace.firstPauseMs;
  let nextTryAt: number | null = null;
  let lastLineAt: number | null = null;
  let openedAt: number | null = null;
  let closeSource: () => void = () => undefined;
  let retry: NodeJS.Timeout | undefined;
  let watch: NodeJS.Timeout | undefined;

  const news = (): ConnectionNews => ({
    state,
    fault,
    nextTryMs: nextTryAt === null ? null : Math.max(0, Math.round(nextTryAt - parts.now())),
    lastLineAgoMs: lastLineAt === null ? null : Math.max(0, Math.round(parts.now() - lastLineAt)),
  });

  function enter(next: ConnectionState, why: InstrumentFault | null = null): void {
    state = next;
    fault = why;
    parts.onNews(news());
  }

  function watchForSilence(): void {
    clearTimeout(watch);
    const quietMs = parts.now() - Math.max(lastLineAt ?? 0, openedAt ?? 0);
    if (quietMs >= pace.silentAfterMs) {
      if (state === 'open') enter('silent');
      return;
    }
    watch = setTimeout(watchForSilence, pace.silentAfterMs - quietMs);
  }

  function heard(lines: readonly FramedLine[]): void {
    if (lines.length === 0) return;
    lastLineAt = parts.now();
    // Only what is heard shows that the other side works: a port that opens and closes at once waits longer each time.
    pauseMs = pace.firstPauseMs;
    if (state === 'silent') {
      enter('open');
      watchForSilence();
    }
    parts.onLines(lines);
  }

  function start(): void {
    nextTryAt = null;
    enter('connecting');
    let isFirst = true;
    closeSource = parts.open({
      opened() {
        openedAt = parts.now();
        framer.reset(false);
        enter('open');
        watchForSilence();
      },
      bytes(chunk) {
        if (isFirst) framer.reset(parts.now() - (openedAt ?? 0) < pace.midLineMs);
        isFirst = false;
        heard(framer.feed(chunk));
      },
      ended(why) {
        clearTimeout(watch);
        framer.reset(false);
        nextTryAt = parts.now() + pauseMs;
        retry = setTimeout(start, pauseMs);
        pauseMs = Math.min(2 * pauseMs, pace.longestPauseMs);
        enter('waiting', why);
      },
    });
  }

  start();
  return {
    news,
    close() {
      clearTimeout(retry);
      clearTimeout(watch);
      nextTryAt = null;
      closeSource();
      enter('closed');
    },
  };
}
