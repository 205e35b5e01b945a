import { describe, expect, test } from 'vitest';
import { type JobEvent, reduce } from '../../../core/job/reduce.ts';
import { invariant } from '../../../core/result.ts';
import { wordFaults } from '../../../core/words/index.ts';
import type { HeldJob } from '../../../renderer/state/heldJob.ts';
import { movedFact, movesDoneFact } from '../../../renderer/state/moves.ts';
import { movesSinceRead, movesUnderWay, openMoves } from '../../../renderer/state/movesUnderWay.ts';
import { placementView } from '../../../renderer/state/placementView.ts';
import { effectWords, moveAlone, moveSentence, thenReadWords } from '../../../renderer/text/moveWords.ts';
import { foldScriptEvents } from '../../demo/foldScript.ts';
import { cameraOf, movedIndex, script, shop } from '../demoHeld.ts';

/** The demo job with its events, before the fixture is moved. */
function notMoved(): HeldJob {
  const events = foldScriptEvents(script, shop, movedIndex);
  const job = reduce(events);
  invariant(job !== undefined, 'the demo job opens');
  return { events, job, personal: {} };
}

/** The job with one more fact. */
function withFact(held: HeldJob, fact: { readonly type: string; readonly payload: object }): HeldJob {
  const seq = held.job.last.seq + 1;
  const { utcMs, offsetMin, person } = held.job.last;
  const event = {
    job: held.job.id,
    seq,
    type: fact.type,
    at: { utcMs, offsetMin },
    person,
    payload: fact.payload,
  };
  const events = [...held.events, event as JobEvent];
  const job = reduce(events);
  invariant(job !== undefined, 'still a job');
  return { ...held, events, job };
}

const start = notMoved();
const listed = movesUnderWay(start, cameraOf(start));
invariant(listed !== undefined, 'moves are asked for');
const all = openMoves(listed);
const kinds = all.map((move) => move.kind);

/** After these moves were said to be done, one by one. */
const heldWith = (count: number): HeldJob =>
  all.slice(0, count).reduce((held, move) => withFact(held, movesDoneFact(held.job, [move])), start);

describe('the moves as a checklist', () => {
  test('lists every move but the slide, none done', () => {
    expect(kinds).toEqual(['turn', 'roll', 'raise', 'lean', 'level']);
    expect(listed.moves.every((each) => !each.done)).toBe(true);
  });

  test('a done one is ticked, and the rest stays as it was asked although the fixture is unknown now', () => {
    const held = heldWith(2);
    const view = placementView(held.job, cameraOf(held));
    expect(view.answer.ok && view.answer.value.fixture).toBeUndefined();
    const list = movesUnderWay(held, cameraOf(held));
    expect(list?.moves.map((each) => each.done)).toEqual([true, true, false, false, false]);
    expect(openMoves(list).map(moveSentence)).toEqual(all.slice(2).map(moveSentence));
    expect(held.job.setUps.fixture).toBe(3);
  });

  test('ends when all are done, one by one or together', () => {
    const held = heldWith(all.length);
    expect(movesUnderWay(held, cameraOf(held))).toBeUndefined();
    const together = withFact(start, movesDoneFact(start.job, all));
    expect(movesUnderWay(together, cameraOf(together))).toBeUndefined();
    expect(together.job.setUps.fixture).toBe(2);
    const mixed = heldWith(1);
    const rest = withFact(mixed, movesDoneFact(mixed.job, all.slice(1)));
    expect(movesUnderWay(rest, cameraOf(rest))).toBeUndefined();
  });

  test('a bump ends it: what was asked for says nothing any more', () => {
    const held = heldWith(2);
    const bumped = withFact(held, movedFact(held.job, 'fixture'));
    expect(movesSinceRead(bumped.job, cameraOf(bumped).sensor)).toEqual([]);
    expect(movesUnderWay(bumped, cameraOf(bumped))).toBeUndefined();
  });

  test('the next reading of the fixture ends it', () => {
    const held = heldWith(2);
    const last = held.job.readings.findLast((each) => each.quantity === 'bar.sameL');
    invariant(last !== undefined, 'read before');
    const { stamp: _at, struck: _none, ...payload } = last;
    const reading = { ...payload, reading: 'again', fixtureSetUp: held.job.setUps.fixture };
    const read = withFact(held, { type: 'readingRecorded', payload: reading });
    expect(movesUnderWay(read, cameraOf(read))).toBeUndefined();
  });
});

describe('a move in words', () => {
  test('stands without what is read afterwards, and says what it should change', () => {
    for (const { move } of listed.moves) {
      expect(moveAlone(move)).not.toMatch(/read/);
      const effect = effectWords(move, listed.station, 'ahead');
      expect(effect).toMatch(/^Should change: .*\d/);
      expect([moveAlone(move), effect].flatMap(wordFaults)).toEqual([]);
    }
    const roll = listed.moves.find((each) => each.move.kind === 'roll')?.move;
    invariant(roll !== undefined, 'a roll');
    expect(effectWords(roll, listed.station, 'ahead')).toMatch(/toward the car$/);
  });

  test('names what is read again where it is little, else the whole fixture', () => {
    const { recipe } = placementView(start.job, cameraOf(start));
    expect(thenReadWords(all, recipe)).toBe('Then read the whole fixture again.');
    const raise = all.find((move) => move.kind === 'raise');
    invariant(raise !== undefined, 'a raise');
    const height = raise.thenRead.filter((slot) => slot.id === 'target.height');
    expect(thenReadWords([{ ...raise, thenRead: height }], recipe)).toMatch(/^Then read again: height/);
    expect(thenReadWords([{ ...raise, thenRead: [] }], recipe)).toBe('');
  });
});
