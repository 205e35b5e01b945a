import { beforeEach, describe, expect, test } from 'vitest';
import type { Notice } from '../../../core/contract/index.ts';
import type { LineStream } from '../../../core/instruments/index.ts';
import { createStreaming, SAMPLE, type Streaming } from '../../../renderer/state/streaming.ts';
import { createWindowStore, type WindowStore } from '../../../renderer/state/windowState.ts';
import { FakePorts, ok, refusal, settle } from '../fakePorts.ts';

const stream: LineStream = {
  source: { kind: 'tcp', host: '127.0.0.1', port: 4001 },
  format: { pattern: '(?<value>.+)', kind: 'length', unit: 'mm', channel: '', good: [] },
};

function value(mm: number | null, lines = 1): Notice<'instrument.value'> {
  return {
    instrument: 'tape',
    line: String(mm),
    value: mm === null ? null : { value: mm, unit: 'mm', channel: '', quality: '' },
    fault: mm === null ? { key: 'instrument.noMatch', values: {} } : null,
    take: mm === null ? null : { n: 1, mean: mm, s: null },
    lines,
    unread: 0,
    skipped: 0,
  };
}

let ports: FakePorts;
let store: WindowStore;
let streaming: Streaming;

beforeEach(() => {
  ports = new FakePorts();
  ports.answer('instrument.connect', () => ok({ problem: null }));
  ports.answer('instrument.disconnect', () => ok({}));
  store = createWindowStore({ screen: 'home' });
  streaming = createStreaming(store, ports);
  streaming.start();
});

const connect = () => streaming.actions.connectInstruments([{ instrument: 'tape', stream }]);
const newest = () => store.getState().live.tape?.newest?.value.value;

describe('connecting', () => {
  test('happens once for each way of sending, and anew when that changes', async () => {
    await connect();
    await connect();
    expect(ports.inputs('instrument.connect')).toEqual([{ instrument: 'tape', ...stream }]);
    const moved: LineStream = { ...stream, source: { kind: 'tcp', host: '127.0.0.1', port: 4002 } };
    await streaming.actions.connectInstruments([{ instrument: 'tape', stream: moved }]);
    expect(ports.inputs('instrument.connect')).toHaveLength(2);
  });

  test('is undone for all at once, and nothing is heard of them any more', async () => {
    await connect();
    streaming.actions.disconnectInstruments();
    await settle();
    expect(ports.inputs('instrument.disconnect')).toEqual([{ instrument: 'tape' }]);
    ports.notify('instrument.value', value(1467));
    ports.draw();
    expect(store.getState().live).toEqual({});
  });

  test('a value that waited for the picture when the job was left does not come back', async () => {
    await connect();
    ports.notify('instrument.value', value(1467));
    streaming.actions.disconnectInstruments();
    ports.draw();
    expect(store.getState().live).toEqual({});
  });

  test('is done again when the service came back', async () => {
    await connect();
    streaming.again();
    await settle();
    expect(ports.inputs('instrument.connect')).toHaveLength(2);
  });

  test('a format that cannot be used is said with the instrument', async () => {
    ports.answer('instrument.connect', () => ok({ problem: { key: 'instrument.noValueGroup', values: {} } }));
    await connect();
    expect(store.getState().live.tape?.fault?.key).toBe('instrument.noValueGroup');
  });
});

describe('hearing', () => {
  test('of many values before a picture the newest is laid down, in one change', async () => {
    await connect();
    let changes = 0;
    store.subscribe(() => {
      changes += 1;
    });
    for (let n = 1; n <= 100; n += 1) ports.notify('instrument.value', value(1000 + n, n));
    expect(ports.frames).toHaveLength(1);
    expect(changes).toBe(0);
    ports.draw();
    expect(changes).toBe(1);
    expect(newest()).toBe(1100);
  });

  test('garbage after a value does not hide that value, and is told', async () => {
    await connect();
    ports.notify('instrument.value', value(1467));
    ports.notify('instrument.value', value(null, 2));
    ports.draw();
    expect(newest()).toBe(1467);
    expect(store.getState().live.tape).toMatchObject({ lines: 2, fault: { key: 'instrument.noMatch' } });
  });

  test('news of the connection are laid down at once; of strangers nothing is kept', async () => {
    await connect();
    const news = { state: 'open' as const, fault: null, nextTryMs: null, lastLineAgoMs: null };
    ports.notify('instrument.state', { instrument: 'tape', ...news });
    ports.notify('instrument.state', { instrument: 'stranger', ...news });
    expect(Object.keys(store.getState().live)).toEqual(['tape']);
    expect(store.getState().live.tape?.connection?.state).toBe('open');
  });
});

describe('listening for a format', () => {
  test('connects without a format and stops when it is told to', async () => {
    expect(await streaming.actions.listenTo(stream.source)).toBeNull();
    expect(ports.inputs('instrument.connect')).toEqual([
      { instrument: SAMPLE, source: stream.source, format: null },
    ]);
    streaming.actions.stopListening();
    await settle();
    expect(ports.inputs('instrument.disconnect')).toEqual([{ instrument: SAMPLE }]);
    expect(store.getState().live).toEqual({});
  });

  test('a service that cannot be reached is said', async () => {
    ports.answer('instrument.connect', () => refusal('call/unreachable'));
    expect(await streaming.actions.listenTo(stream.source)).toMatchObject({ code: 'call/unreachable' });
  });

  test('ports that cannot be listed are none', async () => {
    expect(await streaming.actions.instrumentPorts()).toEqual([]);
    ports.answer('instrument.ports', () => ok({ ports: ['ttyUSB0'] }));
    expect(await streaming.actions.instrumentPorts()).toEqual(['ttyUSB0']);
  });
});
