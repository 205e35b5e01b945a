import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { lineReader } from '../../../../core/instruments/index.ts';
import { type FeedNews, lineFeed, MOST_WAITING } from '../../../../electron/service/instruments/lineFeed.ts';

const reader = lineReader({
  pattern: '^(?<channel>[AB]?)(?<value>[-+0-9.]+)$',
  kind: 'length',
  unit: 'mm',
  channel: '',
  good: [],
});
if (!reader.ok) throw new Error(reader.error.key);
const read = reader.value;

const whole = (...texts: readonly string[]) => texts.map((text) => ({ text, cut: false }));
const numbers = (from: number, count: number) =>
  whole(...Array.from({ length: count }, (_, n) => String(from + n)));

/** A feed under a clock that stands until it is moved; each look at it costs `lookMs`. */
function feedUnderTest(lookMs = 0) {
  const news: FeedNews[] = [];
  let spent = 0;
  const now = () => {
    spent += lookMs;
    return Date.now() + spent;
  };
  return { feed: lineFeed({ read, now, onNews: (each) => news.push(each) }), news };
}

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'setImmediate', 'clearImmediate', 'Date'] });
});
afterEach(() => {
  vi.useRealTimers();
});

describe('what the window hears', () => {
  test('the first value at once, then at most one in 17 ms, the newest, and the last always', () => {
    const { feed, news } = feedUnderTest();
    for (let ms = 0; ms < 100; ms += 1) {
      feed.push(whole(String(ms)));
      vi.advanceTimersByTime(1);
    }
    vi.advanceTimersByTime(1000);
    expect(news[0]?.value?.value).toBe(0);
    expect(news.length).toBeGreaterThanOrEqual(6);
    expect(news.length).toBeLessThanOrEqual(7);
    expect(news.at(-1)).toMatchObject({
      value: { value: 99 },
      line: '99',
      lines: 100,
      unread: 0,
      skipped: 0,
    });
  });

  test('a take of every value of the last second, heard of or not', () => {
    const { feed, news } = feedUnderTest();
    feed.push(numbers(1, 100));
    vi.advanceTimersByTime(20);
    expect(news).toHaveLength(1);
    expect(news[0]?.take).toMatchObject({ n: 100, mean: 50.5 });
    vi.advanceTimersByTime(2000);
    feed.push(whole('7'));
    vi.advanceTimersByTime(20);
    expect(news.at(-1)?.take).toEqual({ n: 1, mean: 7, s: null });
  });

  test('garbage between values does not hide them, and is counted', () => {
    const { feed, news } = feedUnderTest();
    feed.push([...whole('1', 'x', '2', '??'), { text: '3'.repeat(256), cut: true }]);
    vi.advanceTimersByTime(20);
    expect(news).toMatchObject([
      { line: '2', value: { value: 2 }, fault: { key: 'instrument.lineTooLong' }, lines: 5, unread: 3 },
    ]);
  });

  test('garbage alone is shown as it came, and no old value with it', () => {
    const { feed, news } = feedUnderTest();
    feed.push(whole('1'));
    vi.advanceTimersByTime(50);
    feed.push(whole('\u00ff#'));
    vi.advanceTimersByTime(50);
    expect(news.at(-1)).toMatchObject({ line: '\u00ff#', value: null, fault: { key: 'instrument.noMatch' } });
  });

  test('without a format the lines as they are', () => {
    const news: FeedNews[] = [];
    const feed = lineFeed({ read: undefined, now: () => Date.now(), onNews: (each) => news.push(each) });
    feed.push(whole('D1 +1.5 mm'));
    vi.advanceTimersByTime(20);
    expect(news).toEqual([
      { line: 'D1 +1.5 mm', value: null, fault: null, take: null, lines: 1, unread: 0, skipped: 0 },
    ]);
  });

  test('values before a break are in no take after it', () => {
    const { feed, news } = feedUnderTest();
    feed.push(whole('1', '2'));
    vi.advanceTimersByTime(20);
    feed.interrupt();
    feed.push(whole('9'));
    vi.advanceTimersByTime(20);
    expect(news.at(-1)?.take).toEqual({ n: 1, mean: 9, s: null });
  });

  test('nothing after it was closed', () => {
    const { feed, news } = feedUnderTest();
    feed.push(whole('1'));
    vi.advanceTimersByTime(20);
    feed.push(whole('2'));
    feed.close();
    vi.advanceTimersByTime(1000);
    expect(news).toHaveLength(1);
  });
});

describe('a burst', () => {
  test('is read in turns, between which other work has its turn', () => {
    const { feed, news } = feedUnderTest(1);
    let others = 0;
    const other = () => {
      others += 1;
      if (news.at(-1)?.value?.value !== 999) setImmediate(other);
    };
    feed.push(numbers(0, 1000));
    setImmediate(other);
    vi.advanceTimersByTime(1000);
    expect(others).toBeGreaterThan(5);
    expect(news.at(-1)).toMatchObject({ value: { value: 999 }, lines: 1000 });
  });

  test('faster than it can be read loses its oldest lines, says how many, and ends with the newest', () => {
    const { feed, news } = feedUnderTest();
    feed.push(numbers(0, MOST_WAITING));
    feed.push(numbers(MOST_WAITING, 500));
    vi.advanceTimersByTime(1000);
    expect(news.at(-1)).toMatchObject({
      value: { value: MOST_WAITING + 499 },
      lines: MOST_WAITING + 500,
      skipped: 500,
    });
  });
});
