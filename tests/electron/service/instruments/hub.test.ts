import { describe, expect, onTestFinished, test } from 'vitest';
import type { LineFormat, StreamSource } from '../../../../core/instruments/index.ts';
import type { ConnectionNews } from '../../../../electron/service/instruments/connection.ts';
import { instrumentHub, MOST_CONNECTED } from '../../../../electron/service/instruments/hub.ts';
import type { FeedNews } from '../../../../electron/service/instruments/lineFeed.ts';
import { serialFault, serialPorts } from '../../../../electron/service/instruments/serialSource.ts';
import { tcpFault } from '../../../../electron/service/instruments/tcpSource.ts';
import { fakeTcp, fakeTerminal, happenings, portFolder } from './fakeInstrument.ts';

const format: LineFormat = {
  pattern: '^(?<value>[-+0-9.]+) *(?<unit>mm|in)?$',
  kind: 'length',
  unit: 'mm',
  channel: '',
  good: [],
};
const tcp = (port: number): StreamSource => ({ kind: 'tcp', host: '127.0.0.1', port });
const serial = (port: string): StreamSource => ({
  kind: 'serial',
  port,
  baud: 115_200,
  dataBits: 8,
  stopBits: 1,
  parity: 'none',
});

/** A hub that tries again soon, does not mind where a line began, and tells what it hears. */
function hubUnderTest(folder = portFolder(), midLineMs = 0) {
  const values = happenings<FeedNews & { readonly instrument: string }>();
  const states = happenings<ConnectionNews & { readonly instrument: string }>();
  const hub = instrumentHub({
    onValue: (instrument, news) => values.add({ instrument, ...news }),
    onState: (instrument, news) => states.add({ instrument, ...news }),
    portFolder: folder,
    pace: { firstPauseMs: 5, longestPauseMs: 40, silentAfterMs: 60_000, midLineMs },
  });
  onTestFinished(() => hub.close());
  return { hub, values, states };
}

describe('an instrument on the network', () => {
  test('is heard: units, garbage, then gone without a word after it is disconnected', async () => {
    const server = await fakeTcp();
    const { hub, values, states } = hubUnderTest();
    expect(hub.connect('g', tcp(server.port), format)).toBeUndefined();
    const client = await server.client();
    await states.until((news) => news.state === 'open');
    client.write('1.5 in\r\n');
    expect(await values.until((news) => news.value !== null)).toMatchObject({
      instrument: 'g',
      line: '1.5 in',
      value: { value: 38.099999999999994, unit: 'mm' },
    });
    client.write('#\u0000%\r\n');
    expect(await values.until((news) => news.unread === 1)).toMatchObject({
      fault: { key: 'instrument.noMatch' },
    });
    const closed = new Promise<void>((resolve) => client.on('close', () => resolve()));
    hub.disconnect('g');
    await closed;
    expect(states.all.at(-1)?.state).toBe('closed');
    expect(hub.states()).toEqual([]);
  });

  test('unplugged in mid-line: the half line is no value, and it is heard again when it is back', async () => {
    const server = await fakeTcp();
    const { hub, values, states } = hubUnderTest();
    hub.connect('g', tcp(server.port), format);
    const client = await server.client();
    client.write('10.25\r\n12');
    await values.until((news) => news.value?.value === 10.25);
    await server.stop();
    expect(await states.until((news) => news.fault?.key === 'instrument.unplugged')).toMatchObject({
      state: 'waiting',
    });
    await states.until((news) => news.fault?.key === 'instrument.refused');
    const back = await fakeTcp(server.port);
    (await back.client()).write('34.5\r\n');
    await values.until((news) => news.value?.value === 34.5);
    expect(values.all.flatMap(({ value }) => (value === null ? [] : [value.value]))).toEqual([10.25, 34.5]);
  });

  test('that runs already when we come: the first line may have lost its beginning and is left out', async () => {
    const server = await fakeTcp();
    const { hub, values } = hubUnderTest(portFolder(), 60_000);
    hub.connect('g', tcp(server.port), format);
    (await server.client()).write('4.5\r\n10.25\r\n');
    await values.until((news) => news.lines === 1);
    expect(values.all.map((news) => news.value?.value)).toEqual([10.25]);
  });

  test('that does not answer is tried again after a pause that grows to its limit', async () => {
    const server = await fakeTcp();
    await server.stop();
    const { hub, states } = hubUnderTest();
    hub.connect('g', tcp(server.port), format);
    await states.until(() => states.all.filter((news) => news.state === 'waiting').length >= 6);
    const pauses = states.all.filter((news) => news.state === 'waiting').map((news) => news.nextTryMs ?? 0);
    // The news is told just after the pause has begun: a busy machine may have used some of it up.
    pauses.slice(0, 6).forEach((pause, n) => {
      expect(pause).toBeLessThanOrEqual(Math.min(5 * 2 ** n, 40));
    });
    expect(Math.max(...pauses)).toBeGreaterThan(20);
  });

  test('a name that nobody knows cannot be reached', async () => {
    const { hub, states } = hubUnderTest();
    hub.connect('g', { kind: 'tcp', host: 'gauge.invalid', port: 4001 }, format);
    expect(await states.until((news) => news.fault !== null)).toMatchObject({
      fault: { key: 'instrument.unreachable', values: { place: 'gauge.invalid:4001' } },
    });
  });

  test('a burst of 5000 lines at once: heard of in a few notices, the newest last, every line counted', async () => {
    const server = await fakeTcp();
    const { hub, values } = hubUnderTest();
    hub.connect('g', tcp(server.port), format);
    const client = await server.client();
    const start = performance.now();
    client.write(Array.from({ length: 5000 }, (_, n) => `${n + 1}\r\n`).join(''));
    const last = await values.until((news) => news.value?.value === 5000);
    const most = (performance.now() - start) / (1000 / 60) + 2;
    expect(last.lines).toBe(5000);
    expect(values.all.length).toBeLessThanOrEqual(most);
  });

  test('connected anew in another way, the old connection is closed', async () => {
    const [one, two] = [await fakeTcp(), await fakeTcp()];
    const { hub, values } = hubUnderTest();
    hub.connect('g', tcp(one.port), null);
    const old = await one.client();
    const closed = new Promise<void>((resolve) => old.on('close', () => resolve()));
    old.write('as it is\n');
    expect(await values.until(() => true)).toMatchObject({ line: 'as it is', value: null, fault: null });
    hub.connect('g', tcp(two.port), format);
    await closed;
    (await two.client()).write('7\n');
    expect(await values.until((news) => news.value !== null)).toMatchObject({
      value: { value: 7 },
      lines: 1,
    });
  });

  test('with a format that cannot be used nothing is changed', async () => {
    const server = await fakeTcp();
    const { hub } = hubUnderTest();
    hub.connect('g', tcp(server.port), null);
    const client = await server.client();
    expect(hub.connect('g', tcp(1), { ...format, pattern: '(' })?.key).toBe('instrument.patternUnreadable');
    expect(client.destroyed).toBe(false);
    expect(hub.states()).toHaveLength(1);
  });

  test('more than a bay can have are refused', () => {
    const { hub } = hubUnderTest();
    const answers = Array.from({ length: MOST_CONNECTED + 1 }, (_, n) => hub.connect(`g${n}`, tcp(1), null));
    expect(answers.filter((fault) => fault !== undefined)).toMatchObject([{ key: 'instrument.tooMany' }]);
    expect(hub.connect('g0', tcp(1), null)).toBeUndefined();
  });
});

describe('an instrument on a serial port', () => {
  test('is heard, pulled in mid-line, and heard again when it is plugged in', async () => {
    const folder = portFolder();
    const terminal = await fakeTerminal(folder, 'ttyUSB0');
    const { hub, values, states } = hubUnderTest(folder);
    hub.connect('g', serial('ttyUSB0'), format);
    await states.until((news) => news.state === 'open');
    terminal.write('+0010.25\r\n12');
    await values.until((news) => news.value?.value === 10.25);
    await terminal.pull();
    expect(await states.until((news) => news.state === 'waiting')).toMatchObject({
      fault: { key: 'instrument.unplugged', values: { place: 'ttyUSB0' } },
    });
    await states.until((news) => news.fault?.key === 'instrument.noSuchPort');
    const seen = states.all.length;
    const back = await fakeTerminal(folder, 'ttyUSB0');
    await states.until((news) => news.state === 'open', seen);
    back.write('34.5\r\n');
    await values.until((news) => news.value?.value === 34.5);
    expect(values.all.flatMap(({ value }) => (value === null ? [] : [value.value]))).toEqual([10.25, 34.5]);
  });

  test('that another program holds is busy', async () => {
    const folder = portFolder();
    await fakeTerminal(folder, 'ttyACM0');
    const [one, two] = [hubUnderTest(folder), hubUnderTest(folder)];
    one.hub.connect('g', serial('ttyACM0'), format);
    await one.states.until((news) => news.state === 'open');
    two.hub.connect('g', serial('ttyACM0'), format);
    expect(await two.states.until((news) => news.fault !== null)).toMatchObject({
      fault: { key: 'instrument.portBusy' },
    });
  });

  test('is listed by its name, in order', async () => {
    const folder = portFolder();
    await fakeTerminal(folder, 'ttyUSB10');
    await fakeTerminal(folder, 'ttyUSB2');
    await fakeTerminal(folder, 'sda');
    expect(await serialPorts(folder)).toEqual(['ttyUSB2', 'ttyUSB10']);
    expect(await serialPorts(`${folder}/nowhere`)).toEqual([]);
  });
});

describe('trouble in words', () => {
  test.each([
    ['ECONNREFUSED', false, 'instrument.refused'],
    ['ETIMEDOUT', false, 'instrument.unreachable'],
    ['EHOSTUNREACH', false, 'instrument.unreachable'],
    ['ETIMEDOUT', true, 'instrument.unplugged'],
    ['ECONNRESET', true, 'instrument.unplugged'],
    ['EMFILE', false, 'instrument.trouble'],
  ])('network %s, open %s: %s', (code, wasOpen, key) => {
    expect(tcpFault(Object.assign(new Error('x'), { code }), 'h:1', wasOpen).key).toBe(key);
  });

  test.each([
    ['Error: No such file or directory, cannot open /dev/ttyUSB0', 'instrument.noSuchPort'],
    ['Opening COM7: File not found', 'instrument.noSuchPort'],
    ['Error Resource temporarily unavailable Cannot lock port', 'instrument.portBusy'],
    ['Opening COM7: Access denied', 'instrument.portBusy'],
    ['Error: Permission denied, cannot open /dev/ttyUSB0', 'instrument.notAllowed'],
    ['Error setting custom baud rate of 12345', 'instrument.trouble'],
  ])('port %s: %s', (message, key) => {
    expect(serialFault(new Error(message), 'ttyUSB0').key).toBe(key);
  });
});
