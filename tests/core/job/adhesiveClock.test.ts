import { beforeEach, describe, expect, test } from 'vitest';
import { localMsOf, momentMs, momentText } from '../../../core/entry/index.ts';
import { adhesiveClock, mayNotMove, movableText, movedTooEarly } from '../../../core/job/adhesiveClock.ts';
import { assess } from '../../../core/job/assess.ts';
import type { FieldValue } from '../../../core/job/events.ts';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import { Journal } from './madeJob.ts';

const MINUTE = 60_000;
let journal: Journal;

function answer(field: string, value: FieldValue): void {
  journal.add('fieldRecorded', { field: `prechecks.${field}`, at: wholeJob, value, text: '' });
}

/** Bonded so many minutes before the job's last event, on the job's own clock. */
function bonded(minutesAgo: number, waitMinutes: number): void {
  const { utcMs, offsetMin } = journal.job.last;
  answer('glass', 'makersPart');
  answer('bondedAt', momentText(localMsOf(utcMs, offsetMin) - minutesAgo * MINUTE));
  answer('adhesiveMinutes', waitMinutes);
}

const stopKeys = () => assess(journal.job, {}).stops.map((each) => `${each.key} ${each.label}`);

beforeEach(() => {
  journal = new Journal();
  journal.add('jobOpened', { reference: 'R', demo: true, bay: 'b', decisionRule: 'guarded', follows: null });
  journal.add('sensorListed', { sensor: 'fc', kind: 'forwardCamera', name: 'Camera' });
  journal.add('sensorDisposed', { sensor: 'fc', disposition: 'staticHere', source: '' });
});

describe("the adhesive's clock", () => {
  test('bonding at 14:30 with 90 minutes: may be moved from 16:00', () => {
    answer('glass', 'makersPart');
    answer('bondedAt', '2026-03-05 14:30');
    answer('adhesiveMinutes', 90);
    const clock = adhesiveClock(journal.job);
    expect(clock && movableText(clock)).toBe('2026-03-05 16:00');
    const at = (text: string) => mayNotMove(clock, momentMs(text) ?? Number.NaN);
    expect([at('2026-03-05 14:29'), at('2026-03-05 14:30')]).toEqual([false, true]);
    expect([at('2026-03-05 15:59'), at('2026-03-05 16:00')]).toEqual([true, false]);
  });

  test('over midnight, and a part of a minute counts as a whole one', () => {
    answer('glass', 'otherPart');
    answer('bondedAt', '2026-12-31 23:30');
    answer('adhesiveMinutes', 60.5);
    const clock = adhesiveClock(journal.job);
    expect(clock && movableText(clock)).toBe('2027-01-01 00:31');
  });

  test('no clock without replaced glass, a time, or minutes', () => {
    expect(adhesiveClock(journal.job)).toBeUndefined();
    bonded(10, 60);
    expect(adhesiveClock(journal.job)).toBeDefined();
    answer('glass', 'notReplaced');
    expect(adhesiveClock(journal.job)).toBeUndefined();
    expect(mayNotMove(undefined, 0)).toBe(false);
  });
});

describe('moved too early', () => {
  test('rolled while the clock ran: forbids the work, by name', () => {
    bonded(10, 60);
    answer('settled', true);
    expect(movedTooEarly(journal.job).map((each) => each.field)).toEqual(['prechecks.settled']);
    expect(stopKeys()).toContain('prechecks.settled stop.movedTooEarly');
  });

  test('said to be over while it ran: the clock knows better', () => {
    bonded(10, 60);
    answer('adhesive', 'timeOver');
    expect(stopKeys()).toContain('prechecks.adhesive stop.movedTooEarly');
  });

  test('rolled when the time was over, or before the glass was bonded: nothing', () => {
    bonded(90, 60);
    answer('settled', true);
    expect(movedTooEarly(journal.job)).toEqual([]);
    answer('bondedAt', '2030-01-01 10:00');
    expect(movedTooEarly(journal.job)).toEqual([]);
  });

  test('answered again after the time: the later answer counts', () => {
    bonded(10, 60);
    answer('settled', true);
    journal.wait(51 * MINUTE);
    answer('settled', true);
    expect(movedTooEarly(journal.job)).toEqual([]);
  });

  test('a no says nothing about moving', () => {
    bonded(10, 60);
    answer('settled', ['no', 'lifted']);
    answer('adhesive', 'timeRunning');
    expect(movedTooEarly(journal.job)).toEqual([]);
  });
});
