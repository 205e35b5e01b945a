import { describe, expect, test } from 'vitest';
import { controlAction, controlDue, controlReason, PAUSE_LIMIT_MIN } from '../../../core/job/controlDue.ts';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import type { JobSensor } from '../../../core/job/job.ts';
import { defaultRecipe } from '../../../core/placement/recipe.ts';
import { say } from '../../../core/words/index.ts';
import { CENTRE, SQUARE } from '../placement/trueLayout.ts';
import { Journal } from './madeJob.ts';

const MINUTE = 60_000;
const stations = [CENTRE];

function measured(): Journal {
  const journal = new Journal();
  journal.open(stations);
  journal.read(SQUARE, stations);
  return journal;
}

const sensorOf = (journal: Journal): JobSensor => {
  const [sensor] = journal.job.sensors;
  if (sensor === undefined) throw new Error('no sensor');
  return sensor;
};
/** What is due so many minutes after the last event. */
const dueAfter = (journal: Journal, minutes: number, limit?: number) =>
  controlDue(journal.job, sensorOf(journal), journal.job.last.utcMs + minutes * MINUTE, limit);

function control(journal: Journal, offMm = 0, quantity = 'bar.sameL'): void {
  const proof = journal.job.readings.find((each) => each.quantity === quantity);
  if (proof === undefined) throw new Error('not measured');
  const { stamp: _stamp, struck: _struck, ...rest } = proof;
  const { car, fixture } = journal.job.setUps;
  journal.add('readingRecorded', {
    ...rest,
    reading: `c${journal.events.length}`,
    purpose: 'control',
    value: proof.value + offMm,
    carSetUp: car,
    fixtureSetUp: fixture,
  });
}

describe('a pause', () => {
  test('within the limit asks for nothing, beyond it for the first distance to the bar', () => {
    expect(dueAfter(measured(), 29)).toBeUndefined();
    expect(dueAfter(measured(), 31)).toMatchObject({
      slot: { id: 'bar.sameL', purpose: 'control' },
      cause: { kind: 'pause' },
      state: 'due',
    });
    expect(PAUSE_LIMIT_MIN).toBe(30);
  });
  test("takes the procedure's or the shop's limit", () => {
    expect(dueAfter(measured(), 20, 15)?.state).toBe('due');
    expect(dueAfter(measured(), 90, 120)).toBeUndefined();
    const journal = measured();
    const { procedure } = sensorOf(journal);
    if (procedure === null) throw new Error('no procedure');
    journal.add('procedureChosen', { sensor: 'fc', procedure: { ...procedure, pauseLimitMin: 10 } });
    expect(dueAfter(journal, 11, 120)?.state).toBe('due');
    expect(dueAfter(journal, 9, 5)).toBeUndefined();
  });
  test('that was passed over stays until a control agrees, however quickly work went on', () => {
    const journal = measured();
    journal.wait(45 * MINUTE);
    journal.add('captureAttempted', {
      sensor: 'fc',
      station: 'centre',
      result: 'failed',
      cause: '',
      change: '',
    });
    const due = dueAfter(journal, 1);
    expect(due?.cause.kind === 'pause' && Math.floor(due.cause.minutes)).toBe(45);
    control(journal);
    expect(dueAfter(journal, 1)).toBeUndefined();
    expect(dueAfter(journal, 40)?.state).toBe('due');
  });
  test('a control within 2.8 times the repeatability agrees: 1.12 mm of 0.4 mm, and 1.2 mm do not', () => {
    for (const [off, state] of [
      [1.1, undefined],
      [-1.1, undefined],
      [1.2, 'disagrees'],
      [-9, 'disagrees'],
    ] as const) {
      const journal = measured();
      journal.wait(45 * MINUTE);
      control(journal, off);
      const due = dueAfter(journal, 1);
      expect(due?.state, String(off)).toBe(state);
      if (due !== undefined) {
        expect(due.difference).toBeCloseTo(off, 9);
        expect(due.limit).toBeCloseTo(2.8 * 0.4, 2);
      }
    }
  });
  test('before the pause a control proves nothing after it', () => {
    const journal = measured();
    control(journal);
    expect(dueAfter(journal, 45)?.state).toBe('due');
  });
  test('of the car alone is controlled by a tape of the car', () => {
    const journal = new Journal();
    journal.open(stations);
    journal.read(SQUARE, stations, (_key, spec) => spec.stage === 'bay' || spec.stage === 'datum');
    expect(dueAfter(journal, 45)?.slot.id).toBe('base.L');
    journal.wait(45 * MINUTE);
    control(journal, 0, 'base.L');
    expect(dueAfter(journal, 1)).toBeUndefined();
  });
  test('before anything was measured, or after the car moved anyway, asks for nothing', () => {
    const journal = new Journal();
    journal.open(stations);
    expect(dueAfter(journal, 500)).toBeUndefined();
    const moved = measured();
    moved.add('bodyMoved', { body: 'car', setUp: 2, cause: 'moved', words: '' });
    expect(dueAfter(moved, 500)).toBeUndefined();
  });
  test('a fixture moved after the pause leaves the car to be controlled, by what was read before it', () => {
    const journal = measured();
    journal.wait(45 * MINUTE);
    journal.add('bodyMoved', { body: 'fixture', setUp: 2, cause: 'moved', words: '' });
    journal.read(SQUARE, stations, (_key, spec) => spec.dependsOn.includes('fixture'));
    expect(dueAfter(journal, 1)?.slot.id).toBe('base.L');
  });
  test('a clock set to an earlier time is no pause', () => {
    const journal = measured();
    journal.wait(-600 * MINUTE);
    control(journal);
    expect(dueAfter(journal, 1)).toBeUndefined();
  });
});

describe('something on the car answered anew', () => {
  const answer = (journal: Journal, field: string, value: string): void =>
    journal.add('fieldRecorded', { field, at: { ...wholeJob }, value, text: value });

  test('ride height after the readings: a control is due; before them none', () => {
    const journal = new Journal();
    journal.open(stations);
    answer(journal, 'prechecks.rideHeight', 'even');
    answer(journal, 'prechecks.rideHeight', 'low');
    journal.read(SQUARE, stations);
    expect(dueAfter(journal, 1)).toBeUndefined();
    answer(journal, 'prechecks.rideHeight', 'even');
    expect(dueAfter(journal, 1)).toMatchObject({ state: 'due', cause: { kind: 'answeredAnew' } });
    control(journal);
    expect(dueAfter(journal, 1)).toBeUndefined();
  });
  test('a first answer, or one that has nothing to do with how the car sits, asks for none', () => {
    const journal = measured();
    answer(journal, 'prechecks.fuel', 'full');
    answer(journal, 'prechecks.codesBefore', 'none');
    answer(journal, 'prechecks.codesBefore', 'one');
    expect(dueAfter(journal, 1)).toBeUndefined();
  });
});

describe('how it is said', () => {
  test('the reading in the one line, the reason beside it', () => {
    const due = dueAfter(measured(), 45.4);
    if (due === undefined) throw new Error('due');
    const action = controlAction(due, defaultRecipe({ stations }));
    expect(say(action.wordKey, action.values)).toBe(
      "Read as a control: car's-left point ahead to car's-left bar end",
    );
    const reason = controlReason(due.cause);
    expect(say(reason.wordKey, reason.values)).toBe(
      'Work stood still for 45 minutes: one control must agree before it goes on.',
    );
    const off = { ...due, state: 'disagrees', difference: 4 } as const;
    expect(controlAction(off, defaultRecipe({ stations })).wordKey).toBe('next.control');
  });
});
