import { describe, expect, test } from 'vitest';
import { invariant } from '../../../core/result.ts';
import { jobEventOf, withEvents } from '../../../renderer/state/heldJob.ts';
import { openedPayload, storedEvent } from '../fakePorts.ts';

const place = { sensor: null, station: null, item: null };
const plate = (seq: number, value: string) =>
  storedEvent(seq, 'fieldRecorded', { field: 'intake.plate', at: place, value, text: value });
const first = storedEvent(1, 'jobOpened', openedPayload);

describe('events held by the window', () => {
  test('fold to the job, in the order of their sequence whatever order they came in', () => {
    const held = withEvents(undefined, [plate(2, 'QUAY 1'), first], { p: 'text' });
    expect(held?.job.fields['intake.plate']?.value).toBe('QUAY 1');
    expect(held?.events.map((event) => event.seq)).toEqual([1, 2]);
    expect(held?.personal).toEqual({ p: 'text' });
  });

  test('one that is held already changes nothing, and is not a correction', () => {
    const held = withEvents(undefined, [first, plate(2, 'QUAY 1')], {});
    const again = withEvents(held, [plate(2, 'QUAY 1')], {});
    expect(again?.events).toHaveLength(2);
    expect(again?.job.fields['intake.plate']?.corrections).toBe(0);
  });

  test('a gap cannot be folded: the job must be read again', () => {
    const held = withEvents(undefined, [first], {});
    invariant(held !== undefined, 'opened');
    expect(withEvents(held, [plate(3, 'QUAY 2')], {})).toBeUndefined();
  });

  test('nothing is folded before the opening', () => {
    expect(withEvents(undefined, [], {})).toBeUndefined();
  });

  test('an event is read from its stored text', () => {
    expect(jobEventOf(plate(2, 'QUAY 1'))).toMatchObject({ seq: 2, type: 'fieldRecorded', person: 'mira' });
  });
});
