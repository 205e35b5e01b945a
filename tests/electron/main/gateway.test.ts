import { beforeEach, describe, expect, test, vi } from 'vitest';
import { calls } from '../../../core/contract/index.ts';

const { handle } = vi.hoisted(() => ({ handle: vi.fn() }));
vi.mock('electron', () => ({ ipcMain: { handle } }));

import { callChannel } from '../../../electron/main/channels.ts';
import { openGateway, receive } from '../../../electron/main/gateway.ts';

const forward = vi.fn(async () => ({ ok: true as const, value: 'answer' }));
const log = vi.fn();
const parts = { isOurWindow: (id: number) => id === 1, forward, log };
const ours = { contentsId: 1, frame: { url: 'app://datumline/index.html', parent: null } };

beforeEach(() => vi.clearAllMocks());

describe('a message in order', () => {
  test('is forwarded as text with a trace id, and answered', async () => {
    expect(await receive(parts, ours, 'job.read', { job: 'j', afterSeq: 0 })).toEqual({
      ok: true,
      value: 'answer',
    });
    expect(forward).toHaveBeenCalledWith(
      'job.read',
      '{"job":"j","afterSeq":0}',
      expect.stringMatching(/^[0-9a-f]{12}$/),
    );
  });

  test.each(Object.entries(calls))(
    '%s passes at its limit and not one character beyond',
    async (name, { limit }) => {
      const quotes = 2;
      expect((await receive(parts, ours, name, 'x'.repeat(limit - quotes))).ok).toBe(true);
      expect(await receive(parts, ours, name, 'x'.repeat(limit - quotes + 1))).toMatchObject({
        error: { code: 'call/tooLarge', details: { name, limit } },
      });
      expect(forward).toHaveBeenCalledTimes(1);
    },
  );
});

describe('a message that is not', () => {
  const cycle: Record<string, unknown> = {};
  cycle.self = cycle;
  const messages: [string, Parameters<typeof receive>[1], unknown, unknown, string][] = [
    ['a foreign window', { ...ours, contentsId: 2 }, 'app.status', {}, 'call/refused'],
    ['a frame that is gone', { contentsId: 1, frame: null }, 'app.status', {}, 'call/refused'],
    ['an unknown name', ours, 'app.everything', {}, 'call/unknown'],
    ['a name of Object', ours, 'toString', {}, 'call/unknown'],
    ['__proto__', ours, '__proto__', {}, 'call/unknown'],
    ['a name that is no text', ours, { toString: () => 'app.status' }, {}, 'call/unknown'],
    ['a notice as a call', ours, 'service.state', {}, 'call/unknown'],
    ['a cycle', ours, 'app.status', cycle, 'call/invalid'],
    ['a BigInt', ours, 'app.status', 1n, 'call/invalid'],
    ['nothing at all', ours, 'app.status', undefined, 'call/invalid'],
  ];
  test.each(messages)(
    '%s is refused, logged, and goes no further',
    async (_what, sender, name, input, code) => {
      const answer = await receive(parts, sender, name, input);
      expect(answer).toMatchObject({
        ok: false,
        error: { code, traceId: expect.stringMatching(/^[0-9a-f]{12}$/) },
      });
      expect(forward).not.toHaveBeenCalled();
      expect(log).toHaveBeenCalledWith(expect.stringContaining(code));
    },
  );

  test('the log takes only the start of a long name', async () => {
    await receive(parts, ours, 'n'.repeat(10_000), {});
    expect(log.mock.calls[0]?.[0].length).toBeLessThan(200);
  });
});

test('it listens on one channel and judges the sender of the event', async () => {
  openGateway(parts);
  expect(handle).toHaveBeenCalledTimes(1);
  const [channel, listener] = handle.mock.calls[0] ?? [];
  expect(channel).toBe(callChannel);
  const event = { sender: { id: 1 }, senderFrame: ours.frame };
  expect(await listener(event, 'app.status', {})).toEqual({ ok: true, value: 'answer' });
  expect(await listener({ ...event, sender: { id: 9 } }, 'app.status', {})).toMatchObject({
    error: { code: 'call/refused' },
  });
});
