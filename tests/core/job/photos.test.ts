import { beforeEach, describe, expect, test } from 'vitest';
import { assess } from '../../../core/job/assess.ts';
import { type Payload, payloadSchema } from '../../../core/job/events.ts';
import { standingPhotos, standingReport } from '../../../core/job/job.ts';
import { Journal } from './madeJob.ts';

let journal: Journal;

const photo = (id: string, personalId = `words-${id}`): Payload<'photoAdded'> => ({
  photo: id,
  stage: 'prechecks',
  sensor: null,
  station: null,
  digest: 'a'.repeat(64),
  mediaType: 'image/jpeg',
  sizeBytes: 1000,
  widthPx: 640,
  heightPx: 480,
  shows: { personalId, commitment: 'b'.repeat(64) },
});

const report = (id: string): Payload<'reportAttached'> => ({
  report: id,
  sensor: 'fc',
  digest: 'c'.repeat(64),
  mediaType: 'application/pdf',
  sizeBytes: 10,
  tool: 'Invented tool 5',
  software: '1.0',
});

beforeEach(() => {
  journal = new Journal();
  journal.add('jobOpened', { reference: 'R', demo: true, bay: 'b', decisionRule: 'guarded', follows: null });
  journal.add('sensorListed', { sensor: 'fc', kind: 'forwardCamera', name: 'Camera' });
  journal.add('sensorDisposed', { sensor: 'fc', disposition: 'staticHere', source: '' });
});

describe('photos of a job', () => {
  test('a struck one and an erased one leave, and stay in the record', () => {
    for (const id of ['one', 'two', 'three']) journal.add('photoAdded', photo(id));
    journal.add('photoStruck', { photo: 'two', reason: 'blurred' });
    journal.add('erased', { personalIds: ['words-three'], reason: 'asked for' });
    expect(standingPhotos(journal.job).map((each) => each.photo)).toEqual(['one']);
    expect(journal.job.photos).toHaveLength(3);
    expect(journal.job.photos[1]?.struck?.reason).toBe('blurred');
  });

  test('striking again changes nothing', () => {
    journal.add('photoAdded', photo('one'));
    journal.add('photoStruck', { photo: 'one', reason: 'blurred' });
    journal.add('photoStruck', { photo: 'one', reason: 'other' });
    expect(journal.job.photos[0]?.struck?.reason).toBe('blurred');
  });

  test.each([
    ['words in the open', { ...photo('x'), shows: 'the owner at the wheel' }],
    ['a PNG', { ...photo('x'), mediaType: 'image/png' }],
    ['a side beyond what is kept', { ...photo('x'), widthPx: 2049 }],
    ['a stage of its own', { ...photo('x'), stage: 'lunch' }],
    ['a path', { ...photo('x'), path: '/tmp/x.jpg' }],
  ])('%s is refused by the schema', (_name, payload) => {
    expect(payloadSchema('photoAdded').safeParse(payload).success).toBe(false);
  });
});

describe("the scan tool's report", () => {
  const missing = () => assess(journal.job, {}).missing.map((each) => each.key);

  test('attached it stands for the typed words; struck they are asked for again', () => {
    expect(missing()).toEqual(expect.arrayContaining(['outcome.scanTool@fc//', 'outcome.scanReport@fc//']));
    journal.add('reportAttached', report('r1'));
    expect(missing().filter((key) => key.startsWith('outcome.scan'))).toEqual([]);
    journal.add('reportStruck', { report: 'r1' });
    expect(missing()).toContain('outcome.scanReport@fc//');
  });

  test('the last one that is not struck stands', () => {
    journal.add('reportAttached', report('r1'));
    journal.add('reportAttached', report('r2'));
    expect(standingReport(journal.job, 'fc')?.report).toBe('r2');
    journal.add('reportStruck', { report: 'r2' });
    expect(standingReport(journal.job, 'fc')?.report).toBe('r1');
    expect(standingReport(journal.job, 'other')).toBeUndefined();
  });
});

describe('handing over a disabled system', () => {
  test('who, how and when are needed, for an honest stop too', () => {
    const at = { sensor: null, station: null, item: null };
    const needed = ['outcome.whoWasTold', 'outcome.toldHow', 'outcome.toldAt'];
    const keys = () => assess(journal.job, {}).missingToStop.map((each) => each.key);
    const state = (value: string) =>
      journal.add('fieldRecorded', { field: 'outcome.stateAtHandover', at, value, text: value });
    state('working');
    for (const key of needed) expect(keys()).not.toContain(key);
    state('switchedOff');
    expect(keys()).toEqual(expect.arrayContaining(needed));
  });
});
