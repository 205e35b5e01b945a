import { beforeEach, describe, expect, test } from 'vitest';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import { type Actions, createActions } from '../../../renderer/state/actions.ts';
import { typedFact } from '../../../renderer/state/fieldText.ts';
import { RETRY_MS } from '../../../renderer/state/recorder.ts';
import { DRAFT_AFTER_MS, typedKey } from '../../../renderer/state/typedEntry.ts';
import { createWindowStore, type WindowStore } from '../../../renderer/state/windowState.ts';
import { FakePorts, ok, openedPayload, refusal, settle, storedEvent } from '../fakePorts.ts';

const JOB = 'job-1';
const KEY = 'intake.plate';
const plate = (text: string) => typedFact({ id: KEY, kind: 'text' }, wholeJob, text);

let ports: FakePorts;
let store: WindowStore;
let actions: Actions;
let kept: Map<string, string>;
let stored: { text: string; hash: string }[];
let drafts: { field: string; text: string; savedAtUtcMs: number }[];

/** A service that appends what it is sent, and answers a repeated command with its first answer. */
function answerAsService(): void {
  const first = new Map<string, { text: string; hash: string }[]>();
  ports.answer('job.record', (input) => {
    const known = first.get(input.commandId);
    if (known !== undefined) return ok({ events: known, personal: {} });
    if (input.expectedSeq !== null && input.expectedSeq !== stored.length) return refusal('journal/behind');
    const events = input.entries.map((entry, index) =>
      storedEvent(stored.length + 1 + index, entry.type, entry.payload),
    );
    stored.push(...events);
    first.set(input.commandId, events);
    return ok({ events, personal: {} });
  });
  ports.answer('job.read', () => ok({ events: stored, drafts, personal: {} }));
  ports.answer('draft.save', () => ok({ savedAtUtcMs: ports.nowUtcMs() }));
}

beforeEach(async () => {
  ports = new FakePorts();
  kept = new Map();
  stored = [storedEvent(1, 'jobOpened', openedPayload)];
  drafts = [];
  answerAsService();
  store = createWindowStore({ screen: 'home' });
  actions = createActions(store, ports, {
    read: (key) => kept.get(key) ?? null,
    write: (key, value) => kept.set(key, value),
  });
  await actions.readJob(JOB);
});

const entry = () => store.getState().typed[typedKey(JOB, KEY)];
const recordedPlate = () => store.getState().jobs[JOB]?.job.fields[KEY]?.value;

describe('typing', () => {
  test('is saved as a draft 300 ms after the key, once', async () => {
    actions.type(JOB, KEY, 'Q');
    await ports.pass(DRAFT_AFTER_MS - 1);
    actions.type(JOB, KEY, 'QU');
    expect(ports.inputs('draft.save')).toEqual([]);
    await ports.pass(1);
    expect(ports.inputs('draft.save')).toEqual([{ job: JOB, field: KEY, text: 'QU' }]);
    expect(entry()).toMatchObject({ phase: 'typing', savedText: 'QU' });
    await ports.pass(10 * DRAFT_AFTER_MS);
    expect(ports.inputs('draft.save')).toHaveLength(1);
  });

  test('is saved again and again while somebody types without a pause', async () => {
    const keys = 'QUAY 61 BY THE SEA';
    for (let length = 1; length <= keys.length; length += 1) {
      actions.type(JOB, KEY, keys.slice(0, length));
      await ports.pass(100);
    }
    // 18 keys, 100 ms apart: what is 300 ms old is in the store, or something later.
    expect(ports.inputs('draft.save').map(({ text }) => String(text).length)).toEqual([3, 6, 9, 12, 15, 18]);
  });

  test('is saved at once when the field is left', async () => {
    actions.type(JOB, KEY, 'QU');
    actions.leave(JOB, KEY);
    await settle();
    expect(ports.inputs('draft.save')).toHaveLength(1);
    await ports.pass(DRAFT_AFTER_MS);
    expect(ports.inputs('draft.save')).toHaveLength(1);
  });

  test('is tried again while the store does not answer', async () => {
    ports.answer('draft.save', () => refusal('service/interrupted'));
    actions.type(JOB, KEY, 'QU');
    await ports.pass(DRAFT_AFTER_MS);
    await ports.pass(DRAFT_AFTER_MS);
    answerAsService();
    await ports.pass(DRAFT_AFTER_MS);
    expect(entry()?.savedText).toBe('QU');
  });

  test('dropped, it takes its draft with it', async () => {
    actions.type(JOB, KEY, 'QU');
    await ports.pass(DRAFT_AFTER_MS);
    actions.drop(JOB, KEY);
    await settle();
    expect(entry()).toBeUndefined();
    expect(ports.inputs('draft.save').at(-1)).toEqual({ job: JOB, field: KEY, text: '' });
  });
});

describe('sending', () => {
  test('uses the command of the open field, names the draft, and ends in the record', async () => {
    actions.type(JOB, KEY, 'QUAY 1');
    const commandId = entry()?.commandId;
    const answer = actions.send(JOB, KEY, [plate('QUAY 1')]);
    expect(entry()?.phase).toBe('sent');
    expect(store.getState().unanswered).toBe(1);
    expect((await answer).ok).toBe(true);
    expect(ports.inputs('job.record')).toMatchObject([{ commandId, draft: KEY, expectedSeq: 1 }]);
    expect(entry()).toBeUndefined();
    expect(recordedPlate()).toBe('QUAY 1');
    expect(store.getState().unanswered).toBe(0);
    await ports.pass(DRAFT_AFTER_MS);
    expect(ports.inputs('draft.save')).toEqual([]);
  });

  test('answered only after the service was started anew, it is recorded once', async () => {
    const record = new Map<string, number>();
    ports.answer('job.record', (input) => {
      record.set(input.commandId, (record.get(input.commandId) ?? 0) + 1);
      return refusal('service/interrupted');
    });
    actions.type(JOB, KEY, 'QUAY 1');
    const answer = actions.send(JOB, KEY, [plate('QUAY 1')]);
    await ports.pass(RETRY_MS);
    expect(entry()?.phase).toBe('sent');
    answerAsService();
    await ports.pass(RETRY_MS);
    expect((await answer).ok).toBe(true);
    expect(record.size).toBe(1);
    expect(stored).toHaveLength(2);
  });

  test('typed on while it is on its way, the later text stays in the field', async () => {
    actions.type(JOB, KEY, 'QUAY 1');
    const answer = actions.send(JOB, KEY, [plate('QUAY 1')]);
    actions.type(JOB, KEY, 'QUAY 12');
    await answer;
    expect(recordedPlate()).toBe('QUAY 1');
    expect(entry()).toMatchObject({ text: 'QUAY 12', phase: 'typing' });
    expect((await actions.send(JOB, KEY, [plate('QUAY 12')])).ok).toBe(true);
    expect(recordedPlate()).toBe('QUAY 12');
  });

  test('refused, the text stays with the reason, and the job is read again', async () => {
    ports.answer('job.record', () => refusal('journal/behind'));
    stored.push(
      storedEvent(2, 'fieldRecorded', { field: 'intake.make', at: wholeJob, value: 'T', text: 'T' }),
    );
    actions.type(JOB, KEY, 'QUAY 1');
    await actions.send(JOB, KEY, [plate('QUAY 1')]);
    expect(entry()).toMatchObject({ text: 'QUAY 1', phase: 'refused', error: { code: 'journal/behind' } });
    expect(store.getState().jobs[JOB]?.job.fields['intake.make']?.value).toBe('T');
    answerAsService();
    expect((await actions.send(JOB, KEY, [plate('QUAY 1')])).ok).toBe(true);
    expect(entry()).toBeUndefined();
  });
});

describe('a choice', () => {
  test('shows as chosen until the answer is there, then the record does', async () => {
    const answer = actions.record(JOB, [plate('QUAY 1')], { key: KEY, value: 'QUAY 1' });
    expect(store.getState().pending[typedKey(JOB, KEY)]?.value).toBe('QUAY 1');
    await answer;
    expect(store.getState().pending).toEqual({});
    expect(recordedPlate()).toBe('QUAY 1');
  });

  test('refused, it is taken off and the reason stands above the stage', async () => {
    ports.answer('job.record', () => refusal('job/signed'));
    await actions.record(JOB, [plate('QUAY 1')], { key: KEY, value: 'QUAY 1' });
    expect(store.getState().pending).toEqual({});
    expect(store.getState().problem?.code).toBe('job/signed');
    actions.dismissProblem();
    expect(store.getState().problem).toBeNull();
  });
});

describe('after a start', () => {
  test('drafts are in their fields as typed, not recorded, and are not sent by themselves', async () => {
    drafts = [{ field: KEY, text: 'QUA', savedAtUtcMs: 0 }];
    await actions.readJob(JOB);
    expect(entry()).toMatchObject({ text: 'QUA', phase: 'restored' });
    await ports.pass(10_000);
    expect(ports.inputs('job.record')).toEqual([]);
  });

  test('a draft never overwrites what is being typed now', async () => {
    actions.type(JOB, KEY, 'QUAY 1');
    drafts = [{ field: KEY, text: 'QUA', savedAtUtcMs: 0 }];
    await actions.readJob(JOB);
    expect(entry()).toMatchObject({ text: 'QUAY 1', phase: 'typing' });
  });

  test('a job that is not in the record is an error of that job, not of the window', async () => {
    ports.answer('job.read', () => refusal('journal/noJob'));
    await actions.readJob('job-9');
    expect(store.getState().jobErrors['job-9']?.code).toBe('journal/noJob');
    expect(store.getState().problem).toBeNull();
  });

  test('a service that runs again gets every draft it had not answered', async () => {
    ports.answer('app.status', () => refusal('service/fault'));
    await actions.start();
    ports.answer('draft.save', () => refusal('service/interrupted'));
    ports.notify('service.state', { state: 'running' });
    ports.notify('service.state', { state: 'restarting' });
    expect(store.getState().service).toBe('restarting');
    actions.type(JOB, KEY, 'QUAY 1');
    await ports.pass(DRAFT_AFTER_MS);
    answerAsService();
    ports.notify('service.state', { state: 'running' });
    await settle();
    expect(entry()?.savedText).toBe('QUAY 1');
  });
});

describe('who works here', () => {
  const people = [
    { id: 'mira', name: 'Mira', roles: ['technician' as const], qualification: '' },
    { id: 'tobias', name: 'Tobias', roles: ['signer' as const], qualification: '' },
  ];
  const status = {
    version: '0',
    build: 'development' as const,
    store: { state: 'ready' as const, detail: '' },
    key: 'open' as const,
    rootFingerprint: '',
    shop: {
      name: 'S',
      code: 'SH',
      address: [],
      contact: '',
      demo: true,
      decisionRule: 'guarded' as const,
      paper: 'A4' as const,
      bays: [{ code: '1', name: 'B' }],
      people,
      instruments: [],
      sideArms: [],
      fixtures: [],
      targets: [],
      procedures: [],
    },
  };

  test('is the one chosen last on this PC, and stands in every command', async () => {
    kept.set('datumline.person', 'tobias');
    actions.takeStatus(status);
    expect(store.getState().person).toBe('tobias');
    await actions.record(JOB, [plate('QUAY 1')]);
    expect(ports.inputs('job.record')).toMatchObject([{ person: 'tobias' }]);
    actions.choosePerson('mira');
    expect(kept.get('datumline.person')).toBe('mira');
  });

  test('somebody who left the shop is not', () => {
    kept.set('datumline.person', 'gone');
    actions.takeStatus(status);
    expect(store.getState().person).toBe('mira');
  });
});
