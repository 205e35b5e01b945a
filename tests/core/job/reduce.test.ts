import { describe, expect, test } from 'vitest';
import { type EventType, type Payload, payloadSchema } from '../../../core/job/events.ts';
import { atItem, atStation, fieldKey, wholeJob } from '../../../core/job/fieldKey.ts';
import { type JobEvent, reduce, reduceEvent } from '../../../core/job/reduce.ts';

const JOB = '01890000-0000-7000-8000-000000000001';

/** Events of one job in a row; a test names only type and payload. */
function history(...facts: readonly (readonly [EventType, Payload])[]): readonly JobEvent[] {
  return facts.map(
    ([type, payload], i) =>
      ({
        job: JOB,
        seq: i + 1,
        type,
        at: { utcMs: 1_700_000_000_000 + i * 1000, offsetMin: 60 },
        person: 'tech',
        payload,
      }) as JobEvent,
  );
}

const opened: readonly [EventType, Payload<'jobOpened'>] = [
  'jobOpened',
  { reference: 'B1-2026-0001', demo: true, bay: 'B1', decisionRule: 'guarded', follows: null },
];

const field = (id: string, value: string, at = wholeJob): readonly [EventType, Payload<'fieldRecorded'>] => [
  'fieldRecorded',
  { field: id, at, value, text: value },
];

const reading = (
  id: string,
  quantity: string,
  fixtureSetUp = 1,
): readonly [EventType, Payload<'readingRecorded'>] => [
  'readingRecorded',
  {
    reading: id,
    quantity,
    sensor: null,
    station: null,
    value: 1000,
    unit: 'mm',
    direction: null,
    text: '1000',
    instrument: null,
    purpose: 'proof',
    carSetUp: 1,
    fixtureSetUp,
  },
];

describe('reduce', () => {
  test('a journal that does not open a job makes no job', () => {
    expect(reduce(history(field('intake.plate', 'X')))).toBeUndefined();
    expect(reduce([])).toBeUndefined();
  });

  test('the latest value of a field holds and the corrections before it are counted', () => {
    const job = reduce(history(opened, field('intake.plate', 'AB 1'), field('intake.plate', 'AB 12')));
    expect(job?.fields['intake.plate']?.value).toBe('AB 12');
    expect(job?.fields['intake.plate']?.corrections).toBe(1);
    expect(job?.fields['intake.plate']?.stamp.seq).toBe(3);
  });

  test('the same field at two stations stands under two keys', () => {
    const job = reduce(
      history(
        opened,
        field('stations.conditionsHold', 'a', atStation('fc', 'centre')),
        field('stations.conditionsHold', 'b', atStation('fc', 'left')),
      ),
    );
    expect(Object.values(job?.fields ?? {}).map((each) => each.value)).toEqual(['a', 'b']);
    expect(fieldKey('prechecks.condition', atItem('fc', 'tyres'))).toBe('prechecks.condition@fc//tyres');
  });

  test('a struck reading stays in the list, is struck once, and the others are untouched', () => {
    const strike: readonly [EventType, Payload<'readingStruck'>] = [
      'readingStruck',
      { reading: 'r1', reason: 'typingSlip', words: '' },
    ];
    const again: readonly [EventType, Payload<'readingStruck'>] = [
      'readingStruck',
      { reading: 'r1', reason: 'other', words: 'second thoughts' },
    ];
    const job = reduce(history(opened, reading('r1', 'base.L'), reading('r2', 'base.R'), strike, again));
    expect(job?.readings.map((each) => each.struck?.reason ?? null)).toEqual(['typingSlip', null]);
  });

  test('a moved fixture opens a new set-up and leaves the car where it is', () => {
    const moved: readonly [EventType, Payload<'bodyMoved'>] = [
      'bodyMoved',
      { body: 'fixture', setUp: 2, cause: 'moveDone', words: '' },
    ];
    const job = reduce(history(opened, reading('r1', 'bar.sameL'), moved, reading('r2', 'bar.sameL', 2)));
    expect(job?.setUps).toEqual({ car: 1, fixture: 2 });
    expect(job?.readings.map((each) => each.fixtureSetUp)).toEqual([1, 2]);
  });

  const fixtureMoved = (
    setUp: number,
    more: Partial<Payload<'bodyMoved'>> = {},
  ): readonly [EventType, Payload<'bodyMoved'>] => [
    'bodyMoved',
    { body: 'fixture', setUp, cause: 'moveDone', words: '', ...more },
  ];

  test('a move that kept the plan says from which set-up on its readings hold; a bump keeps nothing', () => {
    const raised = fixtureMoved(2, { keeps: ['plan', 'slide'] });
    expect(reduce(history(opened, raised))?.setUps).toEqual({
      car: 1,
      fixture: 2,
      fixtureSince: { plan: 1, slide: 1 },
    });
    const again = fixtureMoved(3, { keeps: ['plan'] });
    expect(reduce(history(opened, raised, again))?.setUps.fixtureSince).toEqual({ plan: 1 });
    const bumped = fixtureMoved(3, { cause: 'moved', keeps: ['plan'] });
    expect(reduce(history(opened, raised, bumped))?.setUps).toEqual({ car: 1, fixture: 3 });
    expect(reduce(history(opened, raised, fixtureMoved(3)))?.setUps).toEqual({ car: 1, fixture: 3 });
  });

  test('a car that moved leaves what is known of the fixture as it is', () => {
    const carMoved = fixtureMoved(2, { body: 'car', cause: 'moved' });
    const raised = fixtureMoved(2, { keeps: ['plan'] });
    expect(reduce(history(opened, raised, carMoved))?.setUps).toEqual({
      car: 2,
      fixture: 2,
      fixtureSince: { plan: 1 },
    });
  });

  test('a fixture put up for another station leaves its stand with the set-ups it had there', () => {
    const east = fixtureMoved(4, { stand: { sensor: 'fc', station: 'east' } });
    const moved = fixtureMoved(5);
    const west = fixtureMoved(6, { stand: { sensor: 'fc', station: 'west' } });
    const before = [opened, fixtureMoved(2), fixtureMoved(3, { keeps: ['plan'] })] as const;
    expect(reduce(history(...before, east, moved, west))?.setUps).toEqual({
      car: 1,
      fixture: 6,
      standNow: 'fc/west',
      from: 6,
      leftStands: {
        '': { fixture: 3, from: 1, fixtureSince: { plan: 2 } },
        'fc/east': { fixture: 5, from: 4 },
      },
    });
    const back = fixtureMoved(7, { stand: { sensor: 'fc', station: 'east' } });
    const job = reduce(history(...before, east, moved, west, back));
    expect(job?.setUps.standNow).toBe('fc/east');
    expect(Object.keys(job?.setUps.leftStands ?? {})).toEqual(['', 'fc/west']);
  });

  test('payloads from before moves told what they keep pass as they are, and new ones with it', () => {
    const old = { body: 'fixture', setUp: 2, cause: 'moveDone', words: '' };
    expect(payloadSchema('bodyMoved').parse(old)).toEqual(old);
    const made = { ...old, keeps: ['plan'], stand: { sensor: 'fc', station: 'east' } };
    expect(payloadSchema('bodyMoved').parse(made)).toEqual(made);
    expect(payloadSchema('bodyMoved').safeParse({ ...old, keeps: ['all'] }).success).toBe(false);
  });

  test('a sensor listed twice is one sensor; its disposition comes later', () => {
    const listed: readonly [EventType, Payload<'sensorListed'>] = [
      'sensorListed',
      { sensor: 'fc', kind: 'forwardCamera', name: 'Forward camera' },
    ];
    const disposed: readonly [EventType, Payload<'sensorDisposed'>] = [
      'sensorDisposed',
      { sensor: 'fc', disposition: 'refused', source: 'owner' },
    ];
    const job = reduce(history(opened, listed, listed, disposed));
    expect(job?.sensors).toHaveLength(1);
    expect(job?.sensors[0]?.disposition).toBe('refused');
  });

  test('folding event by event gives what folding at once gives', () => {
    const events = history(opened, field('intake.plate', 'A'), reading('r1', 'base.L'));
    let job = reduceEvent(undefined, events[0] as JobEvent);
    for (const event of events.slice(1)) job = reduceEvent(job, event);
    expect(job).toEqual(reduce(events));
  });
});
