import { expect, test } from 'vitest';
import { calls, notices } from '../../../core/contract/index.ts';
import { callLimits, noticeNames } from '../../../electron/main/callTable.ts';

test('the table has every call and notice of the contract and nothing else', () => {
  expect(Object.keys(callLimits)).toEqual(Object.keys(calls));
  expect(noticeNames).toEqual(Object.keys(notices));
  for (const [name, { limit }] of Object.entries(calls)) expect(callLimits[name]).toBe(limit);
});

test('it is values only, so that the build can replace the module by them', () => {
  expect(JSON.parse(JSON.stringify({ callLimits, noticeNames }))).toEqual({ callLimits, noticeNames });
});

test('a command without an id of its own is one of those that change nothing the second time', () => {
  const repeatable = Object.entries(calls)
    .filter(([, { kind, input }]) => kind === 'command' && !('commandId' in input.shape))
    .map(([name]) => name);
  expect(repeatable).toEqual(['instrument.connect', 'instrument.disconnect', 'key.open', 'draft.save']);
});
