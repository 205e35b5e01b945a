import { describe, expect, test } from 'vitest';
import { controlDue } from '../../../core/job/controlDue.ts';
import type { Job, JobSensor } from '../../../core/job/job.ts';
import { invariant } from '../../../core/result.ts';
import { controlSlot, stillMatters } from '../../../renderer/state/controlSlot.ts';
import { entryContext } from '../../../renderer/state/expectation.ts';
import { standFact } from '../../../renderer/state/moves.ts';
import { placementView } from '../../../renderer/state/placementView.ts';
import { slotsOf } from '../../../renderer/state/readings.ts';
import { Journal } from '../../core/job/madeJob.ts';
import { CENTRE, SQUARE } from '../../core/placement/trueLayout.ts';

const MINUTE = 60_000;
const stations = [CENTRE];

function measured(): Journal {
  const journal = new Journal();
  journal.open(stations);
  journal.read(SQUARE, stations);
  return journal;
}

const sensorOf = (job: Job): JobSensor => {
  const [sensor] = job.sensors;
  invariant(sensor !== undefined, 'a sensor');
  return sensor;
};

function slotAfter(journal: Journal, minutes: number) {
  const { job } = journal;
  const sensor = sensorOf(job);
  const due = controlDue(job, sensor, job.last.utcMs + minutes * MINUTE);
  const view = placementView(job, sensor);
  return { due, view, slot: controlSlot(job, sensor, view.recipe, due) };
}

function readControl(journal: Journal, offMm: number): void {
  const proof = journal.job.readings.find((each) => each.quantity === 'bar.sameL');
  invariant(proof !== undefined, 'measured');
  const { stamp: _at, struck: _none, ...rest } = proof;
  const reading = `c${journal.events.length}`;
  journal.add('readingRecorded', { ...rest, reading, purpose: 'control', value: proof.value + offMm });
}

describe('the control as a reading to take', () => {
  test('there is none until one is due', () => {
    expect(slotAfter(measured(), 5).slot).toBeUndefined();
  });

  test('is empty and to be read, under its own purpose and its own draft', () => {
    const { slot, view } = slotAfter(measured(), 45);
    expect(slot).toMatchObject({ key: 'bar.sameL!control', state: 'missing', standing: [] });
    const proof = slotsOf(measured().job, view.sensor.sensor, view.recipe, 'placement')[0];
    expect(slot?.draft).not.toBe(proof?.draft);
  });

  test('an entry near what it repeats passes; one far off is asked about, afterwards', () => {
    const { slot, view } = slotAfter(measured(), 45);
    invariant(slot !== undefined, 'due');
    const proof = measured().job.readings.find((each) => each.quantity === 'bar.sameL')?.value ?? 0;
    const context = entryContext(slot, [slot], view);
    expect(context.expected).toBeCloseTo(proof, 9);
    // Not against where the fixture should stand: another required pose leaves the question as it is.
    expect(entryContext(slot, [slot], { ...view, stations: [] })).toEqual(context);
  });

  test('what was read for an earlier pause is behind it', () => {
    const journal = measured();
    journal.wait(45 * MINUTE);
    readControl(journal, 0);
    expect(slotAfter(journal, 5).slot).toBeUndefined();
    expect(slotAfter(journal, 45).slot).toMatchObject({ state: 'missing', standing: [] });
  });

  test('one that differs stands, to be seen and struck', () => {
    const journal = measured();
    journal.wait(45 * MINUTE);
    readControl(journal, 12);
    const { due, slot } = slotAfter(journal, 1);
    expect(due?.state).toBe('disagrees');
    expect(slot?.state).toBe('recorded');
    expect(slot?.standing).toHaveLength(1);
  });

  test('nothing is asked once every station is captured', () => {
    const journal = measured();
    expect(stillMatters(journal.job, sensorOf(journal.job))).toBe(true);
    journal.add('captureAttempted', {
      sensor: 'fc',
      station: CENTRE.id,
      result: 'passed',
      cause: '',
      change: '',
    });
    expect(stillMatters(journal.job, sensorOf(journal.job))).toBe(false);
  });
});

describe('the fixture at another stand', () => {
  test('its readings are to be taken, not taken again', () => {
    const journal = measured();
    const sensor = sensorOf(journal.job);
    const fact = standFact(journal.job, sensor.sensor, CENTRE.id);
    expect(fact.payload).toMatchObject({ setUp: 2, stand: { sensor: sensor.sensor, station: CENTRE.id } });
    const { recipe } = placementView(journal.job, sensor);
    journal.add('bodyMoved', {
      body: 'fixture',
      setUp: 2,
      cause: 'moved',
      words: '',
      stand: { sensor: sensor.sensor, station: CENTRE.id },
    });
    const slots = slotsOf(journal.job, sensor.sensor, recipe, 'placement');
    expect(slots.every((slot) => slot.state === 'missing')).toBe(true);
    const bumped = measured();
    bumped.add('bodyMoved', { body: 'fixture', setUp: 2, cause: 'moved', words: '' });
    const again = slotsOf(bumped.job, sensor.sensor, recipe, 'placement');
    expect(again.every((slot) => slot.state === 'earlier')).toBe(true);
  });
});
