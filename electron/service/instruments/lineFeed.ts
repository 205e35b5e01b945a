/**
 * From lines to notices: every line is read, so that a take knows all of them; the window hears of the newest only, and at
 * most sixty times a second. Lines are read in short turns, so that a burst never keeps the service from its other work;
 * of lines that come faster than they can be read the oldest are left out, for the newest value wins.
 */
import {
  type InstrumentFault,
  instrumentFault,
  type LineReader,
  MOST_LINE,
  recentValues,
  type StreamedValue,
  type Take,
} from '../../../core/instruments/index.ts';
import type { FramedLine } from './lineFramer.ts';

/** What the window hears. */
export interface FeedNews {
  /** The line of the newest value, or, without a value since the last news, the newest line. */
  readonly line: string;
  readonly value: StreamedValue | null;
  /** What was wrong with the newest line that could not be read since the last news. */
  readonly fault: InstrumentFault | null;
  readonly take: Take | null;
  /** Lines since the beginning: all, those that could not be read, those left out. */
  readonly lines: number;
  readonly unread: number;
  readonly skipped: number;
}

export interface FeedParts {
  /** Undefined while a sample is collected for a format to come: lines are passed on as they are. */
  readonly read: LineReader | undefined;
  /** A clock that only runs on, ms. */
  readonly now: () => number;
  readonly onNews: (news: FeedNews) => void;
}

export interface LineFeed {
  push(lines: readonly FramedLine[]): void;
  /** After a break: the values before it are not of one take with those after. */
  interrupt(): void;
  close(): void;
}

/** Sixty a second, a little less so that a timer which fires early does not make it more. */
const NEWS_EVERY_MS = 17;
/** A turn of reading lasts about this long at most. */
const TURN_MS = 4;
/** The clock is asked once for so many lines. */
const LINES_PER_LOOK = 16;
/** Lines that may wait to be read. */
export const MOST_WAITING = 4_000;

/** A feed that has heard nothing yet. */
export function lineFeed({ read, now, onNews }: FeedParts): LineFeed {
  const recent = recentValues();
  let waiting: FramedLine[] = [];
  let done = 0;
  let turn: NodeJS.Immediate | undefined;
  let telling: NodeJS.Timeout | undefined;
  let toldAt = Number.NEGATIVE_INFINITY;
  let counts = { lines: 0, unread: 0, skipped: 0 };
  let newest: Pick<FeedNews, 'line' | 'value' | 'fault'> | undefined;

  function readOne({ text, cut }: FramedLine): void {
    const before = newest ?? { line: text, value: null, fault: null };
    const answer = cut
      ? ({ ok: false, error: instrumentFault('instrument.lineTooLong', { most: `${MOST_LINE}` }) } as const)
      : read?.(text);
    if (answer === undefined) newest = { ...before, line: text };
    else if (!answer.ok) {
      counts = { ...counts, unread: counts.unread + 1 };
      newest = { ...before, fault: answer.error, line: before.value === null ? text : before.line };
    } else if (answer.value !== undefined) {
      recent.add(answer.value.value, now());
      newest = { ...before, value: answer.value, line: text };
    }
  }

  function tell(): void {
    telling = undefined;
    if (newest === undefined) return;
    toldAt = now();
    const news = { ...newest, ...counts, take: recent.take(toldAt) ?? null };
    newest = undefined;
    onNews(news);
  }

  function readTurn(): void {
    turn = undefined;
    const until = now() + TURN_MS;
    while (done < waiting.length && (done % LINES_PER_LOOK !== 0 || now() < until)) {
      const line = waiting[done];
      done += 1;
      if (line !== undefined) readOne(line);
    }
    if (done < waiting.length) turn = setImmediate(readTurn);
    else [waiting, done] = [[], 0];
    if (newest === undefined || telling !== undefined) return;
    const pause = toldAt + NEWS_EVERY_MS - now();
    if (pause <= 0) tell();
    // A timer leaves out what is after the decimal sign, and would come too early.
    else telling = setTimeout(tell, Math.ceil(pause));
  }

  return {
    push(lines) {
      counts = { ...counts, lines: counts.lines + lines.length };
      waiting.push(...lines);
      const tooMany = waiting.length - done - MOST_WAITING;
      if (tooMany > 0) {
        counts = { ...counts, skipped: counts.skipped + tooMany };
        waiting = waiting.slice(done + tooMany);
        done = 0;
      }
      turn ??= setImmediate(readTurn);
    },
    interrupt: () => recent.clear(),
    close() {
      clearImmediate(turn);
      clearTimeout(telling);
      newest = undefined;
      waiting = [];
    },
  };
}
