import { describe, expect, test } from 'vitest';
import type { LineStream } from '../../../core/instruments/index.ts';
import type { Instrument } from '../../../core/job/equipment.ts';
import { payloadProblem } from '../../../core/job/readEvents.ts';
import { invariant } from '../../../core/result.ts';
import { liveRead, streamFor, streamOf, streamsOf } from '../../../renderer/state/liveReading.ts';
import { placementView } from '../../../renderer/state/placementView.ts';
import { readingEntryToSend } from '../../../renderer/state/readingEntry.ts';
import { type Slot, slotsOf } from '../../../renderer/state/readings.ts';
import type { NewestValue } from '../../../renderer/state/streams.ts';
import { cameraOf, heldAfter, readingIndex, SENSOR, shop } from '../demoHeld.ts';

const held = heldAfter(readingIndex('bar.sameR'));
const slots = slotsOf(held.job, SENSOR, placementView(held.job, cameraOf(held)).recipe, 'placement');

function slotOf(fits: (slot: Slot) => boolean): Slot {
  const slot = slots.find(fits);
  invariant(slot !== undefined, 'the recipe has such a reading');
  return slot;
}

const lengthSlot = slotOf((slot) => slot.spec.id === 'bar.sameR');
const tiltSlot = slotOf((slot) => slot.spec.directions !== undefined);

const stream: LineStream = {
  source: { kind: 'tcp', host: '127.0.0.1', port: 4001 },
  format: { pattern: '(?<value>.+)', kind: 'length', unit: 'mm', channel: '', good: [] },
};
const [tape] = shop.instruments.filter((each) => each.kind === 'tape');
invariant(tape !== undefined, 'the demo shop has a tape');
const sending: Instrument = { ...tape, stream };

const newest = (mean: number, line = 'D1 +1467.00 mm'): NewestValue => ({
  value: { value: mean + 0.5, unit: 'mm', channel: '', quality: '' },
  line,
  take: { n: 58, mean, s: 0.2 },
  atMs: 0,
});

const noWay = { chosen: undefined, sign: undefined };

describe('a length', () => {
  test('is the mean of the take, kept with its number, spread and last line', () => {
    const read = liveRead(lengthSlot, newest(1467), sending, noWay);
    expect(read).toMatchObject({ value: 1467, direction: undefined, needsWay: false });
    expect(read.taken).toEqual({ n: 58, mean: 1467, s: 0.2, lastLine: 'D1 +1467.00 mm' });
  });

  test('of a tape that starts at its 100 mark has that taken off; the take stays as it was sent', () => {
    const read = liveRead(lengthSlot, newest(1567), { ...sending, startsAt: 'hundred' }, noWay);
    expect(read.value).toBe(1467);
    expect(read.taken.mean).toBe(1567);
    const other = liveRead(
      lengthSlot,
      newest(1567),
      { ...sending, kind: 'other', startsAt: 'hundred' },
      noWay,
    );
    expect(other.value).toBe(1567);
  });

  test('in the drawing is the newest value alone', () => {
    expect(liveRead(lengthSlot, newest(1467), sending, noWay, 1470).value).toBe(1470);
  });
});

describe('a tilt', () => {
  const [first, second] = tiltSlot.spec.directions ?? [];

  test('asks for its way once, and without it can be no reading', () => {
    expect(liveRead(tiltSlot, newest(-0.01), undefined, noWay)).toMatchObject({
      value: 0.01,
      needsWay: true,
    });
    expect(liveRead(tiltSlot, newest(0), undefined, noWay).needsWay).toBe(false);
  });

  test.each([
    [0.01, '+', first],
    [0.01, '-', second],
    [-0.01, '-', first],
    [-0.01, '+', second],
  ])('of %f, when the way was chosen at the sign %s, goes the way that follows', (mean, sign, way) => {
    const read = liveRead(tiltSlot, newest(mean), undefined, { chosen: first, sign });
    expect(read).toMatchObject({ value: 0.01, direction: way, needsWay: false });
    expect(way).toBeDefined();
  });
});

describe('which instrument sends for a reading', () => {
  const withStream = {
    ...shop,
    instruments: shop.instruments.map((each) => (each.id === tape.id ? sending : each)),
  };

  test('the shop says where it is plugged in now; a frozen record says it where the shop does not', () => {
    const moved = { ...stream, source: { ...stream.source, port: 4002 } } as LineStream;
    expect(streamOf({ ...tape, stream: moved }, withStream)).toEqual(stream);
    expect(streamOf({ ...tape, stream: moved }, shop)).toEqual(moved);
    expect(streamOf(tape, shop)).toBeUndefined();
  });

  test('values of another kind than the reading are none for it', () => {
    expect(streamFor({ unit: 'mm' }, sending, shop)).toEqual(stream);
    expect(streamFor({ unit: 'deg' }, sending, shop)).toBeUndefined();
    expect(streamFor({ unit: 'mm' }, undefined, shop)).toBeUndefined();
  });

  test('all of a job that send are connected', () => {
    const { equipment } = cameraOf(held);
    expect(streamsOf(equipment, shop)).toEqual([]);
    expect(streamsOf(equipment, withStream)).toEqual([{ instrument: tape.id, stream }]);
    expect(streamsOf(null, withStream)).toEqual([]);
  });
});

test('what is recorded fits the record, with the line cut to what a reading keeps', () => {
  const line = `D1 +1467.00 mm ${'x'.repeat(200)}`;
  const { value, text, taken } = liveRead(lengthSlot, newest(1467, line), sending, noWay);
  const fact = { reading: 'r-1', value, text, taken, direction: null, instrument: tape.id };
  const entry = readingEntryToSend(held.job, lengthSlot, fact);
  expect(payloadProblem('readingRecorded', 1, entry.payload)).toBeUndefined();
  expect(entry.payload.taken).toEqual({ n: 58, mean: 1467, s: 0.2, lastLine: line });
  expect(String(entry.payload.text)).toHaveLength(60);
});
