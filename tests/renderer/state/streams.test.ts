import { describe, expect, test } from 'vitest';
import type { Notice } from '../../../core/contract/index.ts';
import {
  ageMs,
  FRESH_MS,
  isSettled,
  type LiveInstrument,
  MOST_SAMPLE,
  NOTHING_HEARD,
  notTwice,
  takeable,
  withConnection,
  withLine,
} from '../../../renderer/state/streams.ts';

type State = Notice<'instrument.state'>['state'];

const state = (name: State): Notice<'instrument.state'> => ({
  instrument: 'g',
  state: name,
  fault: null,
  nextTryMs: null,
  lastLineAgoMs: null,
});

function line(value: number | null, n = 60, text = `D1 ${value}`): Notice<'instrument.value'> {
  return {
    instrument: 'g',
    line: text,
    value: value === null ? null : { value, unit: 'mm', channel: '', quality: '' },
    fault: value === null ? { key: 'instrument.noMatch', values: {} } : null,
    take: value === null ? null : { n, mean: value, s: 0.1 },
    lines: 10,
    unread: value === null ? 1 : 0,
    skipped: 0,
  };
}

const heard = (name: State, n = 60, atMs = 1000): LiveInstrument =>
  withLine(withConnection(NOTHING_HEARD, state(name)), line(1467, n), atMs);

describe('what is heard of an instrument', () => {
  test('garbage leaves the value before it, which keeps its moment and its line', () => {
    const live = withLine(heard('open'), line(null, 0, '#*!'), 2000);
    expect(live.newest).toMatchObject({ atMs: 1000, line: 'D1 1467', value: { value: 1467 } });
    expect(live.fault?.key).toBe('instrument.noMatch');
    expect(live.unread).toBe(1);
    expect(withLine(live, line(1468), 3000)).toMatchObject({ fault: null, newest: { atMs: 3000 } });
  });

  test('the last lines are kept, the newest last, and no more of them than a trial takes', () => {
    let live = NOTHING_HEARD;
    for (let n = 1; n <= MOST_SAMPLE + 5; n += 1) live = withLine(live, line(n), n);
    expect(live.sample).toHaveLength(MOST_SAMPLE);
    expect(live.sample.at(-1)).toBe(`D1 ${MOST_SAMPLE + 5}`);
    expect(live.sample[0]).toBe('D1 6');
  });

  test('a clock that was set back makes no value younger than now', () => {
    const { newest } = heard('open');
    expect(newest === null ? -1 : ageMs(newest, 0)).toBe(0);
  });
});

describe('what may be taken', () => {
  test('a fresh value of a connection that stands, up to the age that is the limit and no older', () => {
    expect(takeable(heard('open'), 0, 1000 + FRESH_MS)?.value.value).toBe(1467);
    expect(takeable(heard('open'), 0, 1001 + FRESH_MS)).toBeUndefined();
  });

  test.each(['connecting', 'waiting', 'closed'] as const)('nothing while it is %s', (name) => {
    expect(takeable(heard(name), 0, 1000)).toBeUndefined();
  });

  test('nothing before anything came, nor without a connection', () => {
    expect(takeable(NOTHING_HEARD, 0, 0)).toBeUndefined();
    expect(takeable(withConnection(NOTHING_HEARD, state('open')), 0, 0)).toBeUndefined();
    expect(takeable(withLine(NOTHING_HEARD, line(1467), 0), 0, 0)).toBeUndefined();
  });

  test('a single value sent at the press of a button holds for the reading it was pressed for, and no other', () => {
    const pressed = heard('silent', 1);
    expect(takeable(pressed, 900, 60_000)?.value.value).toBe(1467);
    expect(takeable(pressed, 1001, 60_000)).toBeUndefined();
    expect(takeable(heard('silent', 2), 900, 60_000)).toBeUndefined();
  });
});

test('values of more than one place are not settled; one value and a quiet instrument are', () => {
  const newest = (unit: 'mm' | 'rad', s: number | null) => ({
    value: { value: 1, unit, channel: '', quality: '' },
    line: '',
    take: { n: s === null ? 1 : 9, mean: 1, s },
    atMs: 0,
  });
  expect(isSettled(newest('mm', 2))).toBe(true);
  expect(isSettled(newest('mm', 2.01))).toBe(false);
  expect(isSettled(newest('rad', 0.001))).toBe(true);
  expect(isSettled(newest('rad', 0.002))).toBe(false);
  expect(isSettled(newest('mm', null))).toBe(true);
});

test('a press that follows too soon is the same press', () => {
  const passes = notTwice(700);
  expect([0, 100, 699, 700, 1399, 1400].map(passes)).toEqual([true, false, false, true, false, true]);
});
