import { beforeEach, describe, expect, test, vi } from 'vitest';
import { calls, type Output } from '../../../../core/contract/index.ts';
import { err, ok } from '../../../../core/result.ts';
import { createDispatch } from '../../../../electron/service/host/dispatch.ts';
import type { Handlers } from '../../../../electron/service/host/handlers.ts';

const status: Output<'app.status'> = {
  version: '1.2.3',
  build: 'development',
  store: { state: 'ready', detail: '' },
  shop: null,
  key: 'none',
  rootFingerprint: '',
};

const notAsked = () => err({ code: 'events/unreadable' as const, details: {} });
const none = Object.fromEntries(Object.keys(calls).map((name) => [name, notAsked])) as unknown as Handlers;
const job = '0190c8f0-0000-7000-8000-000000000001';
const save = (text: string) => JSON.stringify({ job, field: 'f', text });
const reportFault = vi.fn();
const dispatchWith = (some: Partial<Handlers>) => createDispatch({ ...none, ...some }, reportFault);

beforeEach(() => vi.clearAllMocks());

describe('an answer', () => {
  test('is the handler value', async () => {
    const dispatch = dispatchWith({ 'app.status': () => ok(status) });
    expect(await dispatch.call('app.status', '{}', 't')).toEqual({ ok: true, value: status });
  });

  test('or its failure, with the trace id added', async () => {
    const dispatch = dispatchWith({
      'app.status': () => err({ code: 'journal/full', details: { freeBytes: 0 } }),
    });
    expect(await dispatch.call('app.status', '{}', 't')).toEqual({
      ok: false,
      error: { code: 'journal/full', details: { freeBytes: 0 }, traceId: 't' },
    });
  });

  test('a call without a trace id gets one', async () => {
    expect(await dispatchWith({}).call('app.status', '{}')).toMatchObject({
      error: { traceId: expect.stringMatching(/^[0-9a-f]{12}$/) },
    });
  });

  test('the handler gets the parsed input and the trace id', async () => {
    const list = vi.fn(() => ok({ rows: [], total: 0 }));
    await dispatchWith({ 'job.list': list }).call('job.list', '{"search":"BA"}', 't');
    expect(list).toHaveBeenCalledWith({ search: 'BA' }, 't');
  });
});

describe('what is refused before a handler sees it', () => {
  test.each([
    ['app.everything', '{}', 'call/unknown'],
    ['constructor', '{}', 'call/unknown'],
    ['__proto__', '{}', 'call/unknown'],
    ['app.status', '{', 'call/invalid'],
    ['app.status', '{"extra":1}', 'call/invalid'],
    ['app.status', 'null', 'call/invalid'],
    ['job.list', '{"search":7}', 'call/invalid'],
    ['job.list', `{"search":"${'x'.repeat(20_000)}"}`, 'call/tooLarge'],
  ])('%s %.30s', async (name, text, code) => {
    const handler = vi.fn(notAsked);
    const answer = await dispatchWith({ 'app.status': handler, 'job.list': handler }).call(name, text, 't');
    expect(answer).toMatchObject({ ok: false, error: { code, traceId: 't' } });
    expect(handler).not.toHaveBeenCalled();
  });

  test('an invalid input says where, at most five times', async () => {
    const answer = await dispatchWith({}).call('job.record', '{}', 't');
    if (answer.ok) throw new Error('accepted');
    const issues = answer.error.details.issues as string[];
    expect(issues).toHaveLength(5);
    expect(issues[0]).toMatch(/^person: /);
  });
});

describe('a bug', () => {
  const bugs: [string, Handlers['app.status']][] = [
    [
      'thrown',
      () => {
        throw new Error('boom');
      },
    ],
    ['rejected', () => Promise.reject(new Error('boom'))],
    [
      'an answer that is not what the contract says',
      () => ok({ ...status, version: 7 } as unknown as typeof status),
    ],
  ];
  test.each(bugs)('%s is reported with its stack and answered without it', async (_name, handler) => {
    const answer = await dispatchWith({ 'app.status': handler }).call('app.status', '{}', 't');
    expect(answer).toEqual({
      ok: false,
      error: { code: 'service/fault', details: { name: 'app.status' }, traceId: 't' },
    });
    expect(reportFault).toHaveBeenCalledWith('t', 'app.status', expect.any(Error));
  });

  test('in a command does not stop the commands behind it', async () => {
    const dispatch = dispatchWith({
      'key.open': () => Promise.reject(new Error('boom')),
      'draft.save': () => ok({ savedAtUtcMs: 1 }),
    });
    const [first, second] = await Promise.all([
      dispatch.call('key.open', '{"passphrase":"x"}'),
      dispatch.call('draft.save', save('')),
    ]);
    expect(first.ok).toBe(false);
    expect(second).toEqual({ ok: true, value: { savedAtUtcMs: 1 } });
  });
});

describe('order', () => {
  test('commands run one after the other, in the order they came', async () => {
    const trail: string[] = [];
    const dispatch = dispatchWith({
      'draft.save': async ({ text }) => {
        trail.push(`start ${text}`);
        await new Promise((resolve) => setTimeout(resolve, text === 'a' ? 20 : 1));
        trail.push(`end ${text}`);
        return ok({ savedAtUtcMs: 1 });
      },
    });
    await Promise.all(['a', 'b', 'c'].map((text) => dispatch.call('draft.save', save(text))));
    expect(trail).toEqual(['start a', 'end a', 'start b', 'end b', 'start c', 'end c']);
  });

  test('a query does not wait for a command', async () => {
    let finish: () => void = () => undefined;
    const dispatch = dispatchWith({
      'draft.save': () =>
        new Promise((resolve) => {
          finish = () => resolve(ok({ savedAtUtcMs: 1 }));
        }),
      'app.status': () => ok(status),
    });
    const command = dispatch.call('draft.save', save('a'));
    expect((await dispatch.call('app.status', '{}')).ok).toBe(true);
    finish();
    expect((await command).ok).toBe(true);
  });

  test('settled waits for the commands taken so far', async () => {
    let done = false;
    const dispatch = dispatchWith({
      'draft.save': async () => {
        await new Promise((resolve) => setTimeout(resolve, 10));
        done = true;
        return ok({ savedAtUtcMs: 1 });
      },
    });
    void dispatch.call('draft.save', save('a'));
    await dispatch.settled();
    expect(done).toBe(true);
  });
});
