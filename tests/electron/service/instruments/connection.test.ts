import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { instrumentFault } from '../../../../core/instruments/index.ts';
import { type ConnectionNews, keepConnected } from '../../../../electron/service/instruments/connection.ts';
import type { SourceEvents } from '../../../../electron/service/instruments/source.ts';

/** A source that does what the test says, under a clock that stands until it is moved. */
function connectionUnderTest() {
  const sources: SourceEvents[] = [];
  const news: ConnectionNews[] = [];
  const lines: string[] = [];
  let closed = 0;
  const connection = keepConnected({
    open: (events) => {
      sources.push(events);
      return () => {
        closed += 1;
      };
    },
    now: () => Date.now(),
    onLines: (heard) => lines.push(...heard.map((line) => line.text)),
    onNews: (each) => news.push(each),
  });
  const source = () => {
    const last = sources.at(-1);
    if (last === undefined) throw new Error('nothing was opened');
    return last;
  };
  return { connection, sources, source, news, lines, closed: () => closed };
}

const gone = instrumentFault('instrument.unplugged', { place: 'x' });
const send = (events: SourceEvents, text: string) => events.bytes(Buffer.from(text));

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'Date'] });
});
afterEach(() => {
  vi.useRealTimers();
});

describe('a connection', () => {
  test('says its age, and that nothing comes any more, and that it comes again', () => {
    const { connection, source, news } = connectionUnderTest();
    expect(connection.news()).toEqual({
      state: 'connecting',
      fault: null,
      nextTryMs: null,
      lastLineAgoMs: null,
    });
    source().opened();
    vi.advanceTimersByTime(1000);
    send(source(), '1\n');
    vi.advanceTimersByTime(2999);
    expect(connection.news()).toMatchObject({ state: 'open', lastLineAgoMs: 2999 });
    vi.advanceTimersByTime(1);
    expect(connection.news()).toMatchObject({ state: 'silent', lastLineAgoMs: 3000 });
    vi.advanceTimersByTime(60_000);
    send(source(), '2\n');
    expect(connection.news()).toMatchObject({ state: 'open', lastLineAgoMs: 0 });
    vi.advanceTimersByTime(3000);
    expect(news.map((each) => each.state)).toEqual(['connecting', 'open', 'silent', 'open', 'silent']);
  });

  test('open and never a line is silent, too', () => {
    const { connection, source } = connectionUnderTest();
    source().opened();
    vi.advanceTimersByTime(3000);
    expect(connection.news()).toMatchObject({ state: 'silent', lastLineAgoMs: null });
  });

  test('is tried again after 0.5 s, 1 s, 2 s ... 30 s; a line heard starts over', () => {
    const { source, sources, news } = connectionUnderTest();
    const pauses: number[] = [];
    for (let n = 0; n < 8; n += 1) {
      source().opened();
      source().ended(gone);
      const pause = news.at(-1)?.nextTryMs ?? 0;
      pauses.push(pause);
      vi.advanceTimersByTime(pause - 1);
      expect(sources).toHaveLength(n + 1);
      vi.advanceTimersByTime(1);
      expect(sources).toHaveLength(n + 2);
    }
    expect(pauses).toEqual([500, 1000, 2000, 4000, 8000, 16_000, 30_000, 30_000]);
    source().opened();
    vi.advanceTimersByTime(300);
    send(source(), '1\n');
    source().ended(gone);
    expect(news.at(-1)).toMatchObject({ state: 'waiting', nextTryMs: 500, fault: gone });
  });

  test('what comes within 0.2 s of opening begins in mid-line; later it does not', () => {
    const { source, lines } = connectionUnderTest();
    source().opened();
    vi.advanceTimersByTime(199);
    send(source(), '5\n6\n');
    expect(lines).toEqual(['6']);
    source().ended(gone);
    vi.advanceTimersByTime(500);
    source().opened();
    vi.advanceTimersByTime(200);
    send(source(), '7\n');
    expect(lines).toEqual(['6', '7']);
  });

  test('half a line before a break is not joined to what comes after it', () => {
    const { source, lines } = connectionUnderTest();
    source().opened();
    vi.advanceTimersByTime(300);
    send(source(), '1\n12');
    source().ended(gone);
    vi.advanceTimersByTime(500);
    source().opened();
    vi.advanceTimersByTime(300);
    send(source(), '34\n');
    expect(lines).toEqual(['1', '34']);
  });

  test('closed while it waits, it is not opened again', () => {
    const { connection, source, sources, closed } = connectionUnderTest();
    source().ended(gone);
    connection.close();
    vi.advanceTimersByTime(100_000);
    expect(sources).toHaveLength(1);
    expect(closed()).toBe(1);
    expect(connection.news()).toMatchObject({ state: 'closed', nextTryMs: null });
  });
});
