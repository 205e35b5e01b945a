import { describe, expect, test } from 'vitest';
import { type LineStream, lineReader, lineStreamSchema } from '../../../core/instruments/index.ts';
import { invariant } from '../../../core/result.ts';
import {
  FIRST_PATTERN,
  formatOfTexts,
  sourceOfTexts,
  streamOfTexts,
  streamText,
  textsOfStream,
} from '../../../renderer/state/streamForm.ts';

const tcp: LineStream = {
  source: { kind: 'tcp', host: 'tape.bay', port: 4001 },
  format: {
    pattern: 'D1 (?<value>.+) (?<quality>OK|NO)',
    kind: 'length',
    unit: 'in',
    channel: 'D1',
    good: ['OK', 'A'],
  },
};
const serial: LineStream = {
  source: { kind: 'serial', port: 'ttyUSB0', baud: 19_200, dataBits: 7, stopBits: 2, parity: 'even' },
  format: { ...tcp.format, kind: 'angle', unit: '°' },
};

describe('a way of sending as texts', () => {
  test.each([
    ['network', tcp],
    ['serial port', serial],
  ])('by a %s comes back as it was, its bits and parity too', (_name, stream) => {
    const back = streamOfTexts(textsOfStream(stream), stream);
    expect(back).toEqual({ ok: true, value: stream });
    expect(lineStreamSchema.safeParse(stream).success).toBe(true);
  });

  test('nothing sent is nothing kept, whatever else is typed', () => {
    expect(streamOfTexts({ ...textsOfStream(tcp), 'stream.kind': 'none', 'stream.port': 'x' }, tcp)).toEqual({
      ok: true,
      value: undefined,
    });
    expect(streamText(undefined)).toBe('');
  });

  test('a new serial port has eight bits, one stop bit and no parity', () => {
    const texts = { ...textsOfStream(undefined), 'stream.kind': 'serial', 'stream.serialPort': 'COM3' };
    expect(sourceOfTexts(texts, undefined)).toEqual({
      ok: true,
      value: { kind: 'serial', port: 'COM3', baud: 9600, dataBits: 8, stopBits: 1, parity: 'none' },
    });
  });

  test('a change of anything makes it another one', () => {
    const other = { ...tcp, format: { ...tcp.format, unit: 'mm' } };
    expect(streamText(other)).not.toBe(streamText(tcp));
    expect(streamText({ ...tcp, source: { kind: 'tcp', host: 'tape.bay', port: 4002 } })).not.toBe(
      streamText(tcp),
    );
    expect(streamText({ ...tcp })).toBe(streamText(tcp));
  });
});

describe('what cannot be read is named by its field', () => {
  test.each([
    [{ 'stream.host': '' }, 'stream.host'],
    [{ 'stream.host': '../etc' }, 'stream.host'],
    [{ 'stream.port': '' }, 'stream.port'],
    [{ 'stream.port': '70000' }, 'stream.port'],
    [{ 'stream.port': '40 01' }, 'stream.port'],
  ])('%o', (change, field) => {
    const answer = sourceOfTexts({ ...textsOfStream(tcp), ...change }, tcp);
    expect(!answer.ok && answer.error.fields).toEqual([field]);
  });

  test('a serial port by a path, and no speed', () => {
    const texts = { ...textsOfStream(serial), 'stream.serialPort': '/dev/ttyUSB0', 'stream.baud': '' };
    const answer = sourceOfTexts(texts, serial);
    expect(!answer.ok && answer.error.fields).toEqual(['stream.serialPort', 'stream.baud']);
  });

  test('an empty pattern', () => {
    const answer = formatOfTexts({ ...textsOfStream(tcp), 'stream.pattern': '' });
    expect(!answer.ok && answer.error.fields).toEqual(['stream.pattern']);
  });
});

test('the pattern a new form begins with reads a number with its unit, or with the unit of the form', () => {
  const format = formatOfTexts(textsOfStream(undefined));
  invariant(format.ok, 'the first pattern fits the schema');
  expect(format.value.pattern).toBe(FIRST_PATTERN);
  const reader = lineReader(format.value);
  invariant(reader.ok, 'the first pattern can be read');
  expect(reader.value('+1467,5')).toMatchObject({ ok: true, value: { value: 1467.5, unit: 'mm' } });
  expect(reader.value('10.0 in')).toMatchObject({ ok: true, value: { value: 254 } });
});
