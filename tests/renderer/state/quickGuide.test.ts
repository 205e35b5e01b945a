import { describe, expect, test } from 'vitest';
import { assess } from '../../../core/job/assess.ts';
import type { JobSensor } from '../../../core/job/job.ts';
import { type Pose6, trueReadings } from '../../../core/rehearsal/trueBay.ts';
import { invariant } from '../../../core/result.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { type QuickQuestion, type Reply, reckon } from '../../../renderer/ahead/reckon.ts';
import { movesUnderWay } from '../../../renderer/state/movesUnderWay.ts';
import { nextLine } from '../../../renderer/state/nextLine.ts';
import { answersOf, placementView } from '../../../renderer/state/placementView.ts';
import {
  type QuickGuide,
  quickAsked,
  quickGuide,
  quickMoveFact,
  quickSlot,
} from '../../../renderer/state/quickGuide.ts';
import { slotsOf } from '../../../renderer/state/readings.ts';
import { Journal, ofStand } from '../../core/job/madeJob.ts';
import { CENTRE, EQUIPMENT, SQUARE } from '../../core/placement/trueLayout.ts';

const stations = [CENTRE];

/** A fixture put up by eye: 80 mm too far, 60 mm to a side, turned by two degrees. */
const BY_EYE: Pose6 = {
  ...SQUARE.target,
  ahead: SQUARE.target.ahead + 80,
  left: SQUARE.target.left - 60,
  yaw: SQUARE.target.yaw + 0.035,
};

/** Car and floor are measured, the fixture is not. */
function measured(): Journal {
  const journal = new Journal();
  journal.open(stations);
  journal.read(
    SQUARE,
    stations,
    (key, spec) => !key.includes('!') && (!ofStand(key, spec) || spec.id.startsWith('floor.')),
  );
  return journal;
}

function sensorOf(journal: Journal): JobSensor {
  const [sensor] = journal.job.sensors;
  invariant(sensor !== undefined, 'a sensor');
  return sensor;
}

/** The guide once its question is answered. */
function guideOf(journal: Journal): QuickGuide | undefined {
  const { job } = journal;
  const sensor = sensorOf(journal);
  const asked = quickAsked(job, sensor);
  return asked === undefined ? undefined : quickGuide(job, sensor, asked, answerTo(asked.question));
}

function answerTo(question: QuickQuestion) {
  const { answer } = reckon(question) as Reply<'quick'>;
  return answer;
}

function needed(journal: Journal): QuickGuide {
  const guide = guideOf(journal);
  invariant(guide !== undefined, 'quick placement leads');
  return guide;
}

/** Reads a fixture reading of a pose, for guiding or as proof. */
function readOne(journal: Journal, id: string, pose: Pose6, purpose: 'guide' | 'proof' = 'guide'): void {
  const true_ = trueReadings({ ...SQUARE, target: pose }, EQUIPMENT, 'ahead')[id];
  invariant(true_ !== undefined, `${id} is read of the fixture`);
  const { setUps } = journal.job;
  journal.add('readingRecorded', {
    reading: `g${journal.events.length}`,
    quantity: id,
    sensor: 'fc',
    station: null,
    value: true_.value,
    unit: id.startsWith('fixture.') ? 'rad' : 'mm',
    direction: true_.direction ?? null,
    text: '1',
    instrument: null,
    purpose,
    carSetUp: setUps.car,
    fixtureSetUp: setUps.fixture,
  });
}

/** Takes both readings of the look that is asked for. */
function look(journal: Journal, pose: Pose6): void {
  for (const slot of needed(journal).slots) readOne(journal, slot.spec.id, pose);
}

function lineOf(journal: Journal) {
  const { job, events } = journal;
  const sensor = sensorOf(journal);
  const view = placementView(job, sensor);
  return nextLine({
    stage: 'placement',
    job,
    assessment: assess(job, answersOf(job)),
    answer: view.answer.ok ? view.answer.value : undefined,
    recipe: view.recipe,
    slots: slotsOf(job, sensor.sensor, view.recipe, 'placement'),
    moves: movesUnderWay({ job, events, personal: {} }, sensor),
    quick: guideOf(journal),
  });
}

/** The pose after a move made until the tape reads its number, or as far as it is told. */
function after(pose: Pose6, { move, until }: NonNullable<QuickGuide['move']>): Pose6 {
  const effect = move.predictedEffect;
  const at = (part: number): Pose6 => ({
    ahead: pose.ahead + part * effect.ahead,
    left: pose.left + part * effect.left,
    up: pose.up + part * effect.up,
    yaw: pose.yaw + part * effect.yaw,
    pitch: pose.pitch - part * effect.pitch,
    roll: pose.roll - part * effect.roll,
  });
  if (until === undefined) return at(1);
  const reads = (part: number): number =>
    trueReadings({ ...SQUARE, target: at(part) }, EQUIPMENT, 'ahead')[until.slot.id]?.value ?? Number.NaN;
  let [low, high] = [-1, 3];
  const falls = reads(high) < reads(low);
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (reads(middle) > until.valueMm === falls) low = middle;
    else high = middle;
  }
  return at(low);
}

/** Until the proof set is asked for. */
function follow(journal: Journal, from: Pose6): { readonly pose: Pose6; readonly moves: number } {
  let pose = from;
  let moves = 0;
  for (let step = 0; step < 40; step++) {
    const guide = guideOf(journal);
    if (guide === undefined) return { pose, moves };
    if (guide.move === undefined) {
      look(journal, pose);
      continue;
    }
    pose = after(pose, guide.move);
    moves += 1;
    journal.add('bodyMoved', quickMoveFact(journal.job, guide).payload as never);
  }
  throw new Error('no end');
}

describe('quick placement in the window', () => {
  test('begins when the car is measured, and not before', () => {
    const journal = new Journal();
    journal.open(stations);
    expect(guideOf(journal)).toBeUndefined();
    const { slots, looks, move } = needed(measured());
    expect(slots).toHaveLength(2);
    expect(looks).toBe(0);
    expect(move).toBeUndefined();
    for (const slot of slots) {
      expect(slot.spec.purpose).toBe('guide');
      expect(slot).toMatchObject({ state: 'missing', sensor: 'fc', standing: [] });
      expect(slot.draft).toContain('!guide');
    }
  });

  test('the first reading of a look waits for its second, and can still be struck', () => {
    const journal = measured();
    const [first, second] = needed(journal).slots;
    invariant(first !== undefined && second !== undefined, 'two readings');
    expect(quickSlot(needed(journal))?.key).toBe(first.key);
    readOne(journal, first.spec.id, BY_EYE);
    const half = needed(journal);
    expect(half.slots.map((slot) => slot.key)).toEqual([first.key, second.key]);
    expect(half.slots.map((slot) => slot.state)).toEqual(['recorded', 'missing']);
    expect(quickSlot(half)?.key).toBe(second.key);
    const [reading] = half.slots[0]?.standing ?? [];
    invariant(reading !== undefined, 'it stands');
    journal.add('readingStruck', { reading: reading.reading, reason: 'typingSlip', words: '' });
    expect(quickSlot(needed(journal))?.key).toBe(first.key);
  });

  test('leads by looks and moves to where the target must stand, then the proof readings begin', () => {
    const journal = measured();
    const { pose, moves } = follow(journal, BY_EYE);
    expect(moves).toBeGreaterThanOrEqual(2);
    expect(Math.abs(pose.ahead - SQUARE.target.ahead)).toBeLessThan(6);
    expect(Math.abs(pose.left - SQUARE.target.left)).toBeLessThan(6);
    expect(Math.abs(pose.yaw - SQUARE.target.yaw)).toBeLessThan(0.005);
    expect(lineOf(journal).text).toMatch(/^Read: /);
    // What was read to guide the hands is in nobody's proof.
    const view = placementView(journal.job, sensorOf(journal));
    expect(view.answer.ok && view.answer.value.stations[0]?.basis).not.toBe('found');
  });

  test('an earlier look is behind: the same reading is asked for empty again', () => {
    const journal = measured();
    look(journal, BY_EYE);
    for (let step = 0; step < 10 && needed(journal).move !== undefined; step++) {
      journal.add('bodyMoved', quickMoveFact(journal.job, needed(journal)).payload as never);
    }
    const { slots, looks } = needed(journal);
    expect(looks).toBe(1);
    expect(slots.map((slot) => [slot.state, slot.standing.length, slot.past.length])).toEqual([
      ['missing', 0, 0],
      ['missing', 0, 0],
    ]);
  });

  test('is over with the first proof reading of the fixture, and comes back when that is struck', () => {
    const journal = measured();
    look(journal, BY_EYE);
    readOne(journal, 'bar.sameL', BY_EYE, 'proof');
    expect(guideOf(journal)).toBeUndefined();
    const last = journal.job.readings.at(-1)?.reading ?? '';
    journal.add('readingStruck', { reading: last, reason: 'other', words: 'wrong' });
    expect(guideOf(journal)).toBeDefined();
  });

  test('a fixture that was pushed is put up anew: earlier looks count no more, proof readings neither', () => {
    const journal = measured();
    look(journal, BY_EYE);
    readOne(journal, 'bar.sameL', BY_EYE, 'proof');
    const before = measured();
    journal.add('bodyMoved', { body: 'fixture', setUp: 2, cause: 'moved', words: '' });
    const guide = needed(journal);
    expect(guide.looks).toBe(0);
    expect(guide.key).not.toBe(needed(before).key);
    expect(guide.slots.every((slot) => slot.state === 'missing')).toBe(true);
  });

  test('a car that moved takes its own measuring first', () => {
    const journal = measured();
    look(journal, BY_EYE);
    journal.add('bodyMoved', { body: 'car', setUp: 2, cause: 'moved', words: '' });
    expect(guideOf(journal)).toBeUndefined();
  });

  test('a state of a job is asked about once, and the first of two readings asks nothing new', () => {
    const journal = measured();
    const { job } = journal;
    const sensor = sensorOf(journal);
    const asked = quickAsked(job, sensor);
    expect(quickAsked(job, sensor)).toBe(asked);
    const [first] = needed(journal).slots;
    readOne(journal, first?.spec.id ?? '', BY_EYE);
    const then = quickAsked(journal.job, sensorOf(journal));
    expect(then?.question.key).toBe(asked?.question.key);
    expect(then?.ofThisLook.size).toBe(1);
    readOne(journal, 'fixture.roll', BY_EYE);
    expect(quickAsked(journal.job, sensorOf(journal))?.question.key).not.toBe(asked?.question.key);
  });

  test('while the step is reckoned nothing is asked for, and it can be skipped already', () => {
    const journal = measured();
    const { job } = journal;
    const sensor = sensorOf(journal);
    const asked = quickAsked(job, sensor);
    invariant(asked !== undefined, 'it leads');
    const waits = quickGuide(job, sensor, asked, undefined);
    expect(waits).toEqual({ key: needed(journal).key, step: 'waits', looks: 0, slots: [] });
    expect(quickSlot(waits)).toBeUndefined();
    // Where the reckoning broke, the proof readings are the way on.
    expect(quickGuide(job, sensor, asked, null)).toBeUndefined();
  });

  test('a rehearsal, a fixture of another kind and a signed job go without it', () => {
    const { job } = measured();
    const sensor = sensorOf(measured());
    expect(quickAsked({ ...job, rehearsal: true }, sensor)).toBeUndefined();
    const { procedure } = sensor;
    invariant(procedure !== null, 'chosen');
    const plate = { ...procedure, target: { ...procedure.target, body: 'plate' as const } };
    expect(quickAsked({ ...job }, { ...sensor, procedure: plate })).toBeUndefined();
  });
});

describe('the line at the top while it leads', () => {
  test('names the reading that waits, in at most twelve words', () => {
    const journal = measured();
    const [first, second] = needed(journal).slots;
    const before = lineOf(journal).text;
    expect(before).toMatch(/^Quick look: /);
    readOne(journal, first?.spec.id ?? '', BY_EYE);
    const then = lineOf(journal);
    expect(then.text).not.toBe(before);
    expect(then.moves).toEqual([]);
    expect(wordFaults(then.text)).toEqual([]);
    expect(second).toBeDefined();
  });

  test('says what the tape reads at the end of the move, and Done records that very sentence', () => {
    const journal = measured();
    const texts: string[] = [];
    let pose = BY_EYE;
    for (let step = 0; step < 40; step++) {
      const guide = guideOf(journal);
      if (guide === undefined) break;
      if (guide.move === undefined) {
        look(journal, pose);
        continue;
      }
      const line = lineOf(journal);
      texts.push(line.text);
      expect(line.quick).toStrictEqual(guide);
      expect(line.moves).toEqual([guide.move.move]);
      const fact = quickMoveFact(journal.job, guide);
      expect(fact.payload).toMatchObject({ cause: 'moveDone', words: line.text, body: 'fixture' });
      pose = after(pose, guide.move);
      journal.add('bodyMoved', fact.payload as never);
    }
    expect(texts.some((text) => /^(Roll|Turn|Shift) to [\d,]+ mm: /.test(text))).toBe(true);
    for (const text of texts) expect(text.split(/\s+/).length).toBeLessThanOrEqual(12);
  });
});
