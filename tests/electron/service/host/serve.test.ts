// The service as a real process: started by fork, ended by its parent's word or by its parent's end.
import { type ChildProcess, fork, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { calls } from '../../../../core/contract/index.ts';

const host = new URL('../../../../electron/service/host/', import.meta.url).href;
const names = JSON.stringify(Object.keys(calls));

// Answers every call with a failure named after it, "draft.save" only after a while.
const script = `
import { serve } from '${host}serve.ts';
await serve((host) => ({
  handlers: Object.fromEntries(${names}.map((name) => [name, async () => {
    if (name === 'draft.save') await new Promise((resolve) => setTimeout(resolve, 200));
    host.notify('job.changed', { job: 'j', seq: 1 });
    return { ok: false, error: { code: 'test/' + name, details: {} } };
  }])),
  close: () => host.files.put(Buffer.from('closed in order')).then(() => undefined),
}));
`;

let folder = '';
let child: ChildProcess;
let received: { type: string; id?: number; envelope?: unknown }[] = [];

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'serve-'));
  const file = join(folder, 'service.mjs');
  writeFileSync(file, script);
  received = [];
  child = fork(file, [], {
    execArgv: [],
    env: { ...process.env, DATUMLINE_DATA: join(folder, 'data') },
    serialization: 'json',
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
  });
  child.on('message', (message) => received.push(message as (typeof received)[number]));
  await vi.waitUntil(() => received.some(({ type }) => type === 'ready'), 20_000);
});
afterEach(() => {
  child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

const exit = () => new Promise((resolve) => child.once('exit', resolve));
const send = (id: number, request: object) => child.send({ type: 'request', id, request });
const call = (name: string, inputText: string) => ({ kind: 'call', name, inputText, traceId: 't' });
const answerTo = (id: number) =>
  vi.waitUntil(() => {
    const found = received.find((message) => message.type === 'answer' && message.id === id);
    return found?.envelope;
  }, 10_000);

test('answers a call, and sends notices', async () => {
  send(1, call('app.status', '{}'));
  expect(await answerTo(1)).toEqual({
    ok: false,
    error: { code: 'test/app.status', details: {}, traceId: 't' },
  });
  expect(received).toContainEqual({ type: 'notice', name: 'job.changed', value: { job: 'j', seq: 1 } });
});

test('locates and adopts files', async () => {
  send(1, { kind: 'locateFile', digest: '0'.repeat(64) });
  expect(await answerTo(1)).toEqual({ ok: true, value: null });
  send(2, { kind: 'adoptFile', path: join(folder, 'nowhere'), digest: '0'.repeat(64) });
  expect(await answerTo(2)).toMatchObject({ ok: false, error: { code: 'service/fault' } });
});

test('asked to close, it first answers what it has taken, closes its store, and ends well', async () => {
  const ended = exit();
  send(1, call('draft.save', '{"job":"0190c8f0-0000-7000-8000-000000000001","field":"f","text":""}'));
  child.send({ type: 'close' });
  expect(await answerTo(1)).toMatchObject({ error: { code: 'test/draft.save' } });
  expect(await ended).toBe(0);
});

test('when its parent is gone it ends', async () => {
  const ended = exit();
  child.disconnect();
  expect(await ended).toBe(0);
});

test('without a parent it refuses to start', () => {
  const { status, stderr } = spawnSync(process.execPath, [join(folder, 'service.mjs')], { encoding: 'utf8' });
  expect(status).not.toBe(0);
  expect(stderr).toContain('started by fork');
});
