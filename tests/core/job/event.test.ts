import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import type { EventEnvelope } from '../../../core/job/event.ts';
import { clockStepMs, eventHash, MAX_EVENT_TEXT, parseEvent, writeEvent } from '../../../core/job/event.ts';
import { envelope, textOf } from './chainOfEvents.ts';

describe('the stored text', () => {
  test('is this text, member for member: it is the evidence and must never change its form', () => {
    expect(textOf(envelope())).toBe(
      '{"app":"0.1.0","at":{"monoMs":1423829,"offsetMin":60,"utcMs":1795598910801,"zone":"Europe/Berlin"},' +
        '"commandId":"01a21209-0551-7775-b119-365a80b75b6a","device":"bay-pc",' +
        '"job":"01a21209-0551-74e3-8ca7-210b55be4a36","payload":{"text":"1350,5","value":1350.5},"person":"p1",' +
        '"prevInJob":"0000000000000000000000000000000000000000000000000000000000000000",' +
        '"prevInStore":"0000000000000000000000000000000000000000000000000000000000000000",' +
        '"seq":1,"store":"01a21209-052e-7706-9d17-a3a062af9ab9","storeSeq":1,"type":"readingRecorded","v":1}',
    );
  });

  test('comes back equal', () => {
    expect(parseEvent(textOf(envelope()))).toEqual({ ok: true, value: envelope() });
  });

  test('its hash is SHA-256 over the domain line, a line feed and the bytes of the text', () => {
    const text = textOf(envelope({ payload: { text: '12 € ½' } }));
    const expected = createHash('sha256').update(`datumline-event-1\n${text}`, 'utf8').digest('hex');
    expect(eventHash(text)).toBe(expected);
    expect(eventHash(`${text} `)).not.toBe(expected);
  });
});

const unfit: readonly (readonly [string, Partial<Record<keyof EventEnvelope, unknown>>])[] = [
  ['seq 0', { seq: 0 }],
  ['half a seq', { seq: 1.5 }],
  ['a store that is no UUIDv7', { store: 'shop' }],
  ['a job with a blank', { job: 'a b' }],
  ['an empty person', { person: '' }],
  ['a type with a capital', { type: 'ReadingRecorded' }],
  ['version 0', { v: 0 }],
  ['a payload that is a list', { payload: [] }],
  ['a payload that is nothing', { payload: null }],
  ['a payload with NaN', { payload: { value: Number.NaN } }],
  ['a payload with undefined', { payload: { value: undefined } }],
  ['a short link', { prevInJob: '00' }],
  ['a link in capitals', { prevInStore: 'A'.repeat(64) }],
  ['a time before 1970', { at: { utcMs: -1, offsetMin: 0, zone: 'UTC', monoMs: 0 } }],
  ['a moment without zone', { at: { utcMs: 0, offsetMin: 0, monoMs: 0 } }],
  ['one member more', { extra: 1 } as never],
];

describe('what does not fit', () => {
  test.each(unfit)('%s is refused when writing', (_name, change) => {
    const event = { ...envelope(), ...change } as EventEnvelope;
    expect(writeEvent(event)).toMatchObject({ ok: false, error: { code: 'event/notAnEvent' } });
  });

  test('one member less is refused', () => {
    const { person: _person, ...rest } = envelope();
    expect(writeEvent(rest as EventEnvelope)).toMatchObject({
      error: { code: 'event/notAnEvent', details: { problem: expect.stringContaining('person') } },
    });
  });

  test('a text that is too long is refused when writing and when reading', () => {
    const long = envelope({ payload: { text: 'x'.repeat(MAX_EVENT_TEXT) } });
    expect(writeEvent(long)).toMatchObject({ error: { code: 'event/notAnEvent' } });
    expect(parseEvent('x'.repeat(MAX_EVENT_TEXT + 1))).toMatchObject({ error: { code: 'event/notAnEvent' } });
  });

  test.each([
    ['white space', (text: string) => `${text}\n`],
    ['another order', (text: string) => `{"v":1,${text.slice(1, -7)}}`],
    ['a needless escape', (text: string) => text.replace('bay-pc', 'bay-\\u0070c')],
    ['a name twice', (text: string) => text.replace('"v":1}', '"v":1,"v":1}')],
    ['half a text', (text: string) => text.slice(0, 100)],
  ])('a text with %s is not canonical', (_name, spoil) => {
    const spoiled = spoil(textOf(envelope()));
    expect(spoiled).not.toBe(textOf(envelope()));
    expect(parseEvent(spoiled)).toMatchObject({ error: { code: 'event/notCanonical' } });
  });
});

describe('clockStepMs', () => {
  const at = (utcMs: number, monoMs: number) => ({ utcMs, offsetMin: 0, zone: 'UTC', monoMs });

  test.each([
    ['no step', at(1_000, 10), at(6_000, 5_010), 0],
    ['an hour forward', at(1_000, 10), at(3_606_000, 5_010), 3_600_000],
    ['ten seconds back', at(20_000, 10), at(15_000, 5_010), -10_000],
    ['the machine was started anew', at(1_000, 9_999), at(6_000, 10), undefined],
  ])('%s', (_name, before, after, step) => {
    expect(clockStepMs(before, after)).toBe(step);
  });
});
