import { describe, expect, test } from 'vitest';
import { defaultRecipe, slotKey } from '../../../core/placement/recipe.ts';
import { heldReadings, missingSlots, opensSetUpOf, retakeAfter } from '../../../core/placement/setups.ts';
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
const heldIn = (setUps: { car: number; fixture: number }): string[] =>
  heldReadings(recipe, { ...input, setUps }).map(slotKey);

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
