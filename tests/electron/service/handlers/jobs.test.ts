import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { sha256Hex } from '../../../../core/canonical.ts';
import { callOrThrow } from '../../../../electron/cli/playScript.ts';
import { newId } from '../../../../electron/service/clock.ts';
import { openDemoShop, openService, refusalOf, testFolder } from './openService.ts';

const field = (id: string, value: unknown, text: string) => ({
  type: 'fieldRecorded',
  v: 1 as const,
  payload: { field: id, at: { sensor: null, station: null, item: null }, value, text },
});

async function jobInDemoShop() {
  const folder = testFolder();
  const service = await openService(folder);
  await openDemoShop(service);
  const { job } = await callOrThrow(service.dispatch, 'job.create', {
    person: 'mira',
    bay: '2',
    commandId: newId(),
    entries: [],
  });
  const entry = (entries: ReturnType<typeof field>[], more: object = {}) => ({
    job,
    person: 'mira',
    commandId: newId(),
    expectedSeq: 1,
    draft: null,
    entries,
    ...more,
  });
  return { folder, service, job, entry };
}

describe('jobs through the service', () => {
  test('a job created twice by one command is one job', async () => {
    const { service } = await jobInDemoShop();
    const command = { person: 'mira', bay: '2', commandId: newId(), entries: [] };
    const first = await callOrThrow(service.dispatch, 'job.create', command);
    expect(await callOrThrow(service.dispatch, 'job.create', command)).toEqual(first);
    expect((await callOrThrow(service.dispatch, 'job.list', { search: '' })).total).toBe(2);
  });

  test('personal text comes back beside the events and is not in them', async () => {
    const { service, job, entry } = await jobInDemoShop();
    await callOrThrow(
      service.dispatch,
      'job.record',
      entry([field('intake.owner', { personal: 'Nils Breakwater' }, '')]),
    );
    const read = await callOrThrow(service.dispatch, 'job.read', { job, afterSeq: 0 });
    expect(read.events.map((each) => each.text).join()).not.toContain('Breakwater');
    expect(Object.values(read.personal)).toEqual(['Nils Breakwater']);
  });

  test('a draft is kept, answered back, and gone when its entry is recorded', async () => {
    const { service, job, entry } = await jobInDemoShop();
    await callOrThrow(service.dispatch, 'draft.save', { job, field: 'intake.plate', text: 'QUAY 6' });
    expect((await callOrThrow(service.dispatch, 'job.read', { job, afterSeq: 0 })).drafts).toMatchObject([
      { field: 'intake.plate', text: 'QUAY 6' },
    ]);
    await callOrThrow(
      service.dispatch,
      'job.record',
      entry([field('intake.plate', 'QUAY 61', 'QUAY 61')], { draft: 'intake.plate' }),
    );
    expect((await callOrThrow(service.dispatch, 'job.read', { job, afterSeq: 0 })).drafts).toEqual([]);
  });

  test('an entry of somebody unknown, of a kind that only the service makes, of a wrong form, or behind, is refused', async () => {
    const { service, entry } = await jobInDemoShop();
    const plate = field('intake.plate', 'X', 'X');
    const issued = { type: 'certificateIssued', v: 1 as const, payload: { field: '' } };
    const { dispatch } = service;
    expect(await refusalOf(dispatch, 'job.record', entry([plate], { person: 'nobody' }))).toBe(
      'person/unknown',
    );
    expect(await refusalOf(dispatch, 'job.record', { ...entry([]), entries: [issued] })).toBe(
      'job/notForWindow',
    );
    expect(await refusalOf(dispatch, 'job.record', entry([field('intake.plate', null, 'X')]))).toBe(
      'journal/badEntry',
    );
    expect(await refusalOf(dispatch, 'job.record', entry([plate], { expectedSeq: 0 }))).toBe(
      'journal/behind',
    );
    expect(await refusalOf(dispatch, 'job.record', entry([plate]))).toBe('accepted');
  });

  test('search finds by plate, number of the job and VIN, in any case', async () => {
    const { service, entry } = await jobInDemoShop();
    await callOrThrow(service.dispatch, 'job.record', entry([field('intake.plate', 'QUAY 61', 'QUAY 61')]));
    for (const search of ['quay 6', '2-20', '']) {
      expect((await callOrThrow(service.dispatch, 'job.list', { search })).total).toBe(1);
    }
    expect((await callOrThrow(service.dispatch, 'job.list', { search: 'nowhere' })).total).toBe(0);
  });

  test('the list tells how many jobs wait for what, and shows those that wait for one of them, in pages', async () => {
    const { service, entry } = await jobInDemoShop();
    await callOrThrow(service.dispatch, 'job.record', entry([field('intake.plate', 'QUAY 61', 'QUAY 61')]));
    await callOrThrow(service.dispatch, 'job.create', {
      person: 'mira',
      bay: '2',
      commandId: newId(),
      entries: [],
    });
    const list = (more: object) => callOrThrow(service.dispatch, 'job.list', { search: '', ...more });
    expect((await list({})).waiting).toEqual({ 'waits.work': 2 });
    expect((await list({ waitsFor: ['waits.work'], limit: 1 })).rows.map((row) => row.plate)).toEqual(['']);
    const second = await list({ waitsFor: ['waits.work'], limit: 1, offset: 1 });
    expect([second.total, second.rows[0]?.plate]).toEqual([2, 'QUAY 61']);
    expect((await list({ waitsFor: ['waits.signature', 'waits.nothing'] })).total).toBe(0);
  });

  test('the store survives a restart; the demo shop opens its key by itself', async () => {
    const { folder, service, job } = await jobInDemoShop();
    await service.close();
    const again = await openService(folder);
    expect(await callOrThrow(again.dispatch, 'app.status', {})).toMatchObject({
      key: 'open',
      store: { state: 'ready' },
    });
    expect((await callOrThrow(again.dispatch, 'job.read', { job, afterSeq: 0 })).events).toHaveLength(1);
  });

  test('a damaged database is left as it is, said plainly, and nothing can be recorded', async () => {
    const { folder, service, entry } = await jobInDemoShop();
    await service.close();
    const path = join(folder, 'datumline.db');
    const bytes = await readFile(path);
    bytes.fill(0xff, 0, 100);
    await writeFile(path, bytes);
    const damaged = await openService(folder);
    expect((await callOrThrow(damaged.dispatch, 'app.status', {})).store.state).toBe('damaged');
    expect(await refusalOf(damaged.dispatch, 'job.record', entry([field('intake.plate', 'X', 'X')]))).toBe(
      'store/readOnly',
    );
    await damaged.close();
    expect(sha256Hex(await readFile(path))).toBe(sha256Hex(bytes));
  });
});
