import { describe, expect, test } from 'vitest';
import type { SetUps } from '../../../core/placement/placementReading.ts';
import { defaultRecipe, fixturePartOf, slotKey } from '../../../core/placement/recipe.ts';
import {
  fixtureMovedTo,
  heldReadings,
  keptByAll,
  missingSlots,
  opensSetUpOf,
  retakeAfter,
} from '../../../core/placement/setups.ts';
import { answerOf, deviationsOf } from './answers.ts';
import { CENTRE, inputOf, SLIDES, SQUARE } from './trueLayout.ts';

const recipe = defaultRecipe({ stations: [CENTRE, ...SLIDES] });
const input = inputOf(
  {
    ...SQUARE,
    slides: { west: { towardCarLeft: 550, sag: 0 }, east: { towardCarLeft: -550, sag: 0 } },
  },
  [CENTRE, ...SLIDES],
);
const heldIn = (setUps: SetUps): string[] => heldReadings(recipe, { ...input, setUps }).map(slotKey);

describe('readings and set-ups', () => {
  test('all hold while nothing has moved', () => {
    expect(heldIn({ car: 1, fixture: 1 })).toHaveLength(input.readings.length);
    expect(missingSlots(recipe, input.readings)).toEqual([]);
  });

  test('a fixture that moved takes its distances, height, tilts and slides with it; the car and the floor stay', () => {
    const held = heldIn({ car: 1, fixture: 2 });
    expect(held.filter((key) => /^(bar|target|fixture|slide)/.test(key))).toEqual([]);
    expect(held).toHaveLength(4 + 2 + 14 + 1 + 2);
    expect(held).toContain('floor.fixtureLeft');
  });

  test('a car that moved takes everything that knows it; tilts, height and floor stay', () => {
    const held = heldIn({ car: 2, fixture: 1 });
    expect(held.some((key) => /^(drop|base|ahead|behind|width|diagonal|face|toe|bar)/.test(key))).toBe(false);
    expect(held).toContain('fixture.pitch');
    expect(held).toContain('target.height');
    expect(held).toContain('floor.FL');
  });

  test('a reading of an older set-up leaves the solution, a new one takes its place', () => {
    const stale = input.readings.map((each) =>
      each.id.startsWith('bar.') ? { ...each, value: each.value + 100 } : each,
    );
    const again = input.readings
      .filter((each) => /^(bar|target|fixture|slide)/.test(each.id))
      .map((each) => ({ ...each, ref: `${each.ref}/2`, fixtureSetUp: 2 }));
    const answer = answerOf({ ...input, readings: [...stale, ...again], setUps: { car: 1, fixture: 2 } });
    expect(deviationsOf(answer).ahead).toBeCloseTo(0, 6);
    expect(answer.missing).toEqual([]);
  });

  test('guides never enter, and neither does a reading the recipe does not know', () => {
    const guided = input.readings.map((each) =>
      each.id === 'bar.sameL' ? { ...each, purpose: 'guide' as const } : each,
    );
    const answer = answerOf({
      ...input,
      readings: [
        ...guided,
        {
          ...input.readings[0],
          ref: 'x',
          id: 'unheard.of',
          purpose: 'proof',
          value: 1,
          carSetUp: 1,
          fixtureSetUp: 1,
        },
      ],
    });
    expect(answer.missing.map(slotKey)).toEqual(['bar.sameL', 'bar.sameL!control']);
  });
});

describe('what must be read again', () => {
  const retaken = (event: Parameters<typeof retakeAfter>[1]): string[] =>
    retakeAfter(recipe, event).map(slotKey);
  const FIXTURE = [
    'bar.sameL',
    'bar.diagLR',
    'bar.sameR',
    'bar.diagRL',
    'target.height',
    'fixture.pitch',
    'fixture.roll',
  ];

  test('after a move of the fixture, or a bump: its seven readings and the slides', () => {
    const all = [...FIXTURE, 'slide@west', 'target.height@west', 'slide@east', 'target.height@east'];
    expect(retaken({ kind: 'fixtureMoved' })).toEqual(all);
    expect(retaken({ kind: 'moveDone', move: 'turn' })).toEqual(all);
  });
  test('after the car moved: its fourteen readings and the four distances to the bar', () => {
    const list = retaken({ kind: 'carMoved' });
    expect(list).toHaveLength(18);
    expect(list).not.toContain('target.height');
    expect(list).not.toContain('face');
  });
  test('after setting the slide: nothing of the fixture, whose set-up goes on', () => {
    expect(retaken({ kind: 'moveDone', move: 'setSlide' })).toEqual([]);
    expect(opensSetUpOf({ kind: 'moveDone', move: 'setSlide' })).toBeUndefined();
    expect(opensSetUpOf({ kind: 'moveDone', move: 'raise' })).toBe('fixture');
    expect(opensSetUpOf({ kind: 'carMoved' })).toBe('car');
    expect(opensSetUpOf({ kind: 'fixtureMoved' })).toBe('fixture');
  });
  test('what is asked for after a move is exactly what stopped holding', () => {
    const lost = input.readings.filter((each) => !heldIn({ car: 1, fixture: 2 }).includes(slotKey(each)));
    const proofs = lost
      .filter((each) => each.purpose === 'proof')
      .map(slotKey)
      .sort();
    expect([...retaken({ kind: 'fixtureMoved' })].sort()).toEqual(proofs);
  });
});

describe('what a move left as it was', () => {
  const one: SetUps = { car: 1, fixture: 1 };
  const plan = ['bar.sameL', 'bar.diagLR', 'bar.sameR', 'bar.diagRL'];
  const held = (setUps: SetUps): string[] =>
    heldIn(setUps).filter((key) => fixturePartOf(key.replace(/[@!].*/, '')));

  test('after a raise: height and tilts are read again, the four distances and the slides stay', () => {
    const raise = { kind: 'moveDone', move: 'raise', keeps: ['plan', 'slide'] } as const;
    expect(retakeAfter(recipe, raise).map(slotKey)).toEqual([
      'target.height',
      'fixture.pitch',
      'fixture.roll',
      'target.height@west',
      'target.height@east',
    ]);
    const setUps = { ...one, ...fixtureMovedTo(one, 2, raise.keeps) };
    expect(setUps).toEqual({ car: 1, fixture: 2, fixtureSince: { plan: 1, slide: 1 } });
    expect(held(setUps).sort()).toEqual([...plan, 'bar.sameL!control', 'slide@east', 'slide@west'].sort());
  });
  test('after a turn of the adjuster: the distances and the tilts, not the height', () => {
    const keeps = ['height', 'slide'] as const;
    expect(retakeAfter(recipe, { kind: 'moveDone', move: 'turn', keeps }).map(slotKey)).toEqual([
      ...plan,
      'fixture.pitch',
      'fixture.roll',
    ]);
    expect(held({ ...one, ...fixtureMovedTo(one, 2, keeps) })).toContain('target.height');
  });
  test('what is kept goes on from where it held, and ends with the first move that does not keep it', () => {
    const two = { car: 1, ...fixtureMovedTo(one, 2, ['plan']) };
    const three = { car: 1, ...fixtureMovedTo(two, 3, ['plan', 'tilt']) };
    expect(three.fixtureSince).toEqual({ plan: 1, tilt: 2 });
    expect(held(three).sort()).toEqual([...plan, 'bar.sameL!control'].sort());
    const four = { car: 1, ...fixtureMovedTo(three, 4, ['tilt']) };
    expect(four.fixtureSince).toEqual({ tilt: 2 });
    expect(held(four)).toEqual([]);
    expect({ car: 1, ...fixtureMovedTo(four, 5) }).toEqual({ car: 1, fixture: 5 });
  });
  test('a reading of the set-up after it is not of the one before', () => {
    const later = input.readings.map((each) => ({ ...each, fixtureSetUp: 3 }));
    expect(heldReadings(recipe, { readings: later, setUps: one }).map((each) => each.id)).not.toContain(
      'bar.sameL',
    );
  });
  test('a car that moved takes the kept distances with it', () => {
    const kept = { car: 2, ...fixtureMovedTo(one, 2, ['plan', 'tilt']) };
    expect(held(kept)).toEqual(['fixture.pitch', 'fixture.roll']);
    expect(retakeAfter(recipe, { kind: 'carMoved' }).map(slotKey)).toContain('bar.sameL');
  });
  test('of several moves made together only what each of them leaves', () => {
    const of = (...keeps: ('plan' | 'height' | 'tilt' | 'slide')[]) => ({ keeps });
    expect(keptByAll([of('plan', 'slide'), of('plan', 'tilt')])).toEqual(['plan']);
    expect(keptByAll([of('plan'), {}])).toEqual([]);
    expect(keptByAll([])).toEqual([]);
  });
  test('the parts of the recipe are those its quantities are known by', () => {
    for (const spec of recipe) expect(spec.part, spec.id).toBe(fixturePartOf(spec.id));
  });

  test('a raise solved with kept distances gives what reading all of them again gives', () => {
    const raised = { ...SQUARE, target: { ...SQUARE.target, up: 1362 } };
    const before = inputOf(SQUARE);
    const after = inputOf(raised);
    const again = after.readings
      .filter((each) => ['target.height', 'fixture.pitch', 'fixture.roll'].includes(each.id))
      .map((each) => ({ ...each, ref: `${each.ref}/2`, fixtureSetUp: 2 }));
    const setUps = { car: 1, ...fixtureMovedTo(one, 2, ['plan', 'slide']) };
    const kept = answerOf({ ...before, readings: [...before.readings, ...again], setUps });
    expect(kept.missing).toEqual([]);
    const [mine, theirs] = [deviationsOf(kept), deviationsOf(answerOf(after))];
    expect(mine.up).toBeCloseTo(12, 6);
    for (const coordinate of ['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const) {
      expect(mine[coordinate]).toBeCloseTo(theirs[coordinate], 6);
    }
    // Without the word that the plan was kept, the four distances are asked for again.
    const all = answerOf({
      ...before,
      readings: [...before.readings, ...again],
      setUps: { car: 1, fixture: 2 },
    });
    expect(all.missing.map(slotKey)).toEqual(plan);
  });
});
