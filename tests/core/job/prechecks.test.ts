import { beforeEach, describe, expect, test } from 'vitest';
import { assess, forbids, placesOf } from '../../../core/job/assess.ts';
import type { FieldValue, SensorKind } from '../../../core/job/events.ts';
import { typedValue } from '../../../core/job/facts.ts';
import { fieldKey, wholeJob } from '../../../core/job/fieldKey.ts';
import { checkChoices, fieldById, stageById } from '../../../core/job/stages/index.ts';
import { Journal } from './madeJob.ts';

const stage = stageById('prechecks');
let journal: Journal;

beforeEach(() => {
  journal = new Journal();
  journal.add('jobOpened', { reference: 'R', demo: true, bay: 'b', decisionRule: 'guarded', follows: null });
});

function sensor(kind: SensorKind, disposition: 'staticHere' | 'notNeeded' = 'staticHere'): void {
  journal.add('sensorListed', { sensor: kind, kind, name: kind });
  journal.add('sensorDisposed', { sensor: kind, disposition, source: '' });
}

function answer(name: string, value: FieldValue): void {
  journal.add('fieldRecorded', { field: `prechecks.${name}`, at: wholeJob, value, text: '' });
}

const missing = () =>
  assess(journal.job, {})
    .missing.filter((each) => each.stage === 'prechecks')
    .map((each) => each.key.replace('prechecks.', ''));

const field = (name: string) => {
  const found = fieldById(`prechecks.${name}`)?.field;
  if (found === undefined) throw new Error(name);
  return found;
};

describe('only what the sensor asks for', () => {
  test('a radar asks for its face and cover, a camera for its window', () => {
    sensor('frontRadar');
    expect(missing()).toEqual(expect.arrayContaining(['faceTilt', 'cover', 'coverSound']));
    expect(missing()).not.toContain('cameraWindow');
    sensor('forwardCamera');
    expect(missing()).toContain('cameraWindow');
  });

  test('a radar that is not calibrated here asks for nothing', () => {
    sensor('forwardCamera');
    sensor('cornerRadar', 'notNeeded');
    expect(missing()).not.toContain('cover');
    expect(placesOf(journal.job, stage, field('cover'))).toEqual([]);
  });

  test('roof, tow bar, treads, toes and paint are there and not required', () => {
    sensor('frontRadar');
    for (const name of ['roofClear', 'towBar', 'treadFL', 'toeRL', 'paintThickness', 'tyreSizeFront']) {
      expect(missing()).not.toContain(name);
      expect(placesOf(journal.job, stage, field(name))).toHaveLength(1);
    }
  });
});

describe('a check', () => {
  test('in order, not in order with its reason, does not apply', () => {
    sensor('forwardCamera');
    answer('cameraWindow', true);
    answer('roofClear', 'notApplicable');
    expect(missing()).not.toContain('cameraWindow');
    expect(assess(journal.job, {}).stops.filter((each) => each.stage === 'prechecks')).toEqual([]);
    answer('cameraWindow', ['no', 'dirty']);
    const place = { at: wholeJob, condition: null };
    expect(forbids(journal.job, field('cameraWindow'), place)).toBe(true);
    expect(assess(journal.job, {}).stops.map((each) => each.key)).toContain('prechecks.cameraWindow');
  });

  test('what records from before hold, a plain yes or no, still counts', () => {
    sensor('forwardCamera');
    answer('settled', true);
    expect(missing()).not.toContain('settled');
    answer('settled', false);
    expect(assess(journal.job, {}).stops.map((each) => each.key)).toContain('prechecks.settled');
  });

  test('every check that can be a no forbids the work and offers a reason with its words', () => {
    const checks = stage.fields.filter((each) => each.kind === 'check');
    expect(checks.length).toBeGreaterThan(10);
    for (const each of checks) {
      expect(each.stops).toEqual(['no']);
      expect(each.reasons?.length).toBeGreaterThan(1);
      const values = checkChoices(each).map((choice) => choice.value);
      expect(new Set(values).size).toBe(values.length);
    }
  });

  test('typed in a script: the answer, then the reason', () => {
    const read = (text: string) => {
      const value = typedValue({ kind: 'check' }, text);
      return value.ok ? value.value : value.error;
    };
    expect(read('yes')).toBe(true);
    expect(read('no')).toEqual(['no']);
    expect(read('no, dirty')).toEqual(['no', 'dirty']);
    expect(read('notApplicable')).toBe('notApplicable');
  });
});

describe('the walk', () => {
  test('rows of one place stand together: nobody walks round the car twice', () => {
    const order = stage.fields.map((each) => each.walk ?? 'conditions');
    const places = order.filter((each, i) => each !== order[i - 1]);
    expect(new Set(places).size).toBe(places.length);
    expect(places).toEqual([
      'seat',
      'windscreen',
      'faces',
      'wheels',
      'load',
      'alignment',
      'conditions',
      'last',
    ]);
  });

  test('codes before and after are codes, and needed for an honest stop too', () => {
    for (const id of ['prechecks.codesBefore', 'outcome.codesAfter']) {
      expect(fieldById(id)?.field).toMatchObject({ kind: 'codes', neededToStop: true });
    }
    expect(typedValue({ kind: 'codes' }, 'B1E04-54')).toEqual({ ok: true, value: ['B1E04-54'] });
    expect(typedValue({ kind: 'codes' }, 'not a code')).toMatchObject({ ok: false });
  });

  test('keys are plain, of the whole job', () => {
    expect(fieldKey('prechecks.cover', wholeJob)).toBe('prechecks.cover');
  });
});
