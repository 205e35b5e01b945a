import { describe, expect, test } from 'vitest';
import type { EventType, Payload } from '../../../core/job/events.ts';
import { eventTypes } from '../../../core/job/events.ts';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import type { JobEvent } from '../../../core/job/reduce.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { eventWords } from '../../../renderer/text/eventWords.ts';
import { cameraOf, heldAfter, SENSOR, script, shop } from '../demoHeld.ts';

const held = heldAfter(script.steps.length);
const camera = cameraOf(held);
const [firstReading] = held.job.readings;

const samples: { readonly [T in EventType]: Payload<T> | undefined } = {
  shopRecorded: { shop },
  bayRecorded: { bay: '2', room: { outline: [], obstacles: [], survey: null, groundWorks: [] } },
  floorChosen: { way: 'spot', bay: '2', room: null },
  jobOpened: { reference: 'Q-1', demo: true, bay: '2', decisionRule: 'guarded', follows: null },
  fieldRecorded: { field: 'intake.plate', at: wholeJob, value: 'QUAY 61', text: 'QUAY 61' },
  sensorListed: { sensor: SENSOR, kind: 'forwardCamera', name: 'Camera' },
  sensorDisposed: { sensor: SENSOR, disposition: 'staticHere', source: '' },
  procedureChosen: camera.procedure === null ? undefined : { sensor: SENSOR, procedure: camera.procedure },
  equipmentChosen: camera.equipment === null ? undefined : { sensor: SENSOR, equipment: camera.equipment },
  readingRecorded: firstReading,
  readingStruck: { reading: firstReading?.reading ?? '', reason: 'wrongPoint', words: '' },
  bodyMoved: { body: 'fixture', setUp: 2, cause: 'moved', words: '' },
  captureAttempted: { sensor: SENSOR, station: 'centre', result: 'failed', cause: 'glare', change: 'blind' },
  photoAdded: {
    photo: 'ph1',
    stage: 'prechecks',
    sensor: null,
    station: null,
    digest: '0'.repeat(64),
    mediaType: 'image/jpeg',
    sizeBytes: 1,
    widthPx: 1,
    heightPx: 1,
    shows: { personalId: 'gone', commitment: '0'.repeat(64) },
  },
  photoStruck: { photo: 'ph1', reason: 'blurred' },
  reportAttached: {
    report: 'r1',
    sensor: SENSOR,
    digest: '0'.repeat(64),
    mediaType: 'application/pdf',
    sizeBytes: 1,
    tool: 'Invented tool',
    software: '1.0',
  },
  reportStruck: { report: 'r1' },
  certificateSealed: {
    certificate: 'c',
    number: 'QUAY-2-2026-0001',
    edition: 1,
    replaces: null,
    kind: 'calibrated',
    reason: '',
    recordDigest: '0'.repeat(64),
    head: '0'.repeat(64),
    signer: 'tobias',
    issuedAtUtcMs: 0,
    issuedOffsetMin: 0,
    paper: 'A4',
    program: 'x',
  },
  certificateIssued: { certificate: 'c', number: 'QUAY-2-2026-0001', edition: 1, fileDigest: '0'.repeat(64) },
  erased: { personalIds: ['p'], reason: 'asked for' },
};

function wordsOf<T extends EventType>(type: T, payload: unknown): string {
  const event = { job: 'j', seq: 1, type, at: { utcMs: 0, offsetMin: 0 }, person: 'mira', payload };
  return eventWords(event as unknown as JobEvent, held);
}

const place = (sensor: string | null, item: string | null) => ({ sensor, station: null, item });

describe('the history', () => {
  test.each(eventTypes)('%s is a sentence without gap, key or banned word', (type) => {
    const words = wordsOf(type, samples[type]);
    expect(words).not.toMatch(/[{}]|undefined|\b[a-z]+\.[a-z]+[A-Z.]/);
    expect(wordFaults(words)).toEqual([]);
    expect(words.length).toBeGreaterThan(5);
  });

  test.each([
    [
      { field: 'intake.steering', at: wholeJob, value: 'carLeft', text: 'carLeft' },
      "Steering wheel: at the car's left",
    ],
    [{ field: 'bay.clearZone', at: wholeJob, value: false, text: 'no' }, /: No$/],
    [{ field: 'intake.reasons', at: wholeJob, value: ['glass', 'code'], text: 'glass, code' }, /glass/],
    [
      {
        field: 'intake.owner',
        at: wholeJob,
        value: { personalId: 'p', commitment: '0'.repeat(64) },
        text: '',
      },
      'Owner of the car: Nils Breakwater',
    ],
    [
      {
        field: 'intake.owner',
        at: wholeJob,
        value: { personalId: 'erased', commitment: '0'.repeat(64) },
        text: '',
      },
      'Owner of the car: (empty)',
    ],
    [
      { field: 'prechecks.condition', at: place(SENSOR, 'wipersParked'), value: true, text: 'yes' },
      /^Wipers parked.*: Yes$/,
    ],
    [{ field: 'intake.odometerIn', at: wholeJob, value: 18412, text: '18412' }, 'Odometer on arrival: 18412'],
  ])('a field shows its answer as people gave it: %o', (payload, words) => {
    expect(wordsOf('fieldRecorded', payload)).toMatch(words);
  });

  test('a struck reading names which and why; other reasons are the person’s words', () => {
    expect(wordsOf('readingStruck', samples.readingStruck)).toMatch(/^Struck staff .*: wrong point$/);
    const other = { reading: firstReading?.reading ?? '', reason: 'other', words: 'a cat sat on the tape' };
    expect(wordsOf('readingStruck', other)).toMatch(/a cat sat on the tape$/);
  });

  test('a move that was asked for says what was asked', () => {
    const words = wordsOf('bodyMoved', {
      body: 'fixture',
      setUp: 2,
      cause: 'moveDone',
      words: 'Turn: 10 mm',
    });
    expect(words).toBe('Set-up 2 of the fixture: Turn: 10 mm');
  });
});
