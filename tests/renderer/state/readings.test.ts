import { describe, expect, test } from 'vitest';
import type { StageId } from '../../../core/job/stages/index.ts';
import { defaultRecipe } from '../../../core/placement/recipe.ts';
import { placementView } from '../../../renderer/state/placementView.ts';
import { nextSlot, sensorOfSlot, slotsOf } from '../../../renderer/state/readings.ts';
import { cameraOf, heldAfter, movedIndex, readingIndex, SENSOR, script } from '../demoHeld.ts';

function slotsAfter(count: number, stage: StageId) {
  const held = heldAfter(count);
  return slotsOf(held.job, SENSOR, placementView(held.job, cameraOf(held)).recipe, stage);
}

describe('the slots of a stage', () => {
  test('are the recipe of that stage in walking order, all of them to be read at first', () => {
    const slots = slotsAfter(readingIndex('floor.FL'), 'bay');
    expect(slots.map((slot) => slot.spec.id)).toEqual([
      'floor.FL',
      'floor.FR',
      'floor.RL',
      'floor.RR',
      'floor.fixtureLeft',
      'floor.fixtureRight',
    ]);
    expect(new Set(slots.map((slot) => slot.state))).toEqual(new Set(['missing']));
  });

  test('floor and car belong to the whole job, the fixture to its sensor', () => {
    for (const spec of defaultRecipe()) {
      const owner = spec.stage === 'placement' ? SENSOR : null;
      expect(sensorOfSlot(spec, SENSOR), spec.id).toBe(owner);
    }
  });

  test('a recorded reading stands; the next one opens in walking order and starts over at the end', () => {
    const slots = slotsAfter(readingIndex('bar.diagLR'), 'placement');
    expect(slots[0]).toMatchObject({ state: 'recorded', standing: [{ quantity: 'bar.sameL' }] });
    expect(nextSlot(slots)?.key).toBe('bar.diagLR');
    expect(nextSlot(slots, 'fixture.roll')?.key).toBe('bar.diagLR');
    expect(nextSlot(slots, 'bar.diagLR')?.key).toBe('bar.sameR');
  });

  test('a moved fixture leaves its readings in sight as past, and asks for all of them again', () => {
    const slots = slotsAfter(movedIndex + 1, 'placement');
    for (const slot of slots) {
      expect(slot).toMatchObject({ state: 'earlier', standing: [] });
      expect(slot.past).toHaveLength(1);
    }
    const car = slotsAfter(movedIndex + 1, 'datum').filter((slot) => !slot.spec.optional);
    expect(new Set(car.map((slot) => slot.state))).toEqual(new Set(['recorded']));
  });

  test('a struck reading is to be read again and stays in sight', () => {
    const held = heldAfter(readingIndex('bar.diagLR'));
    const struckAt = { seq: 99, utcMs: 0, offsetMin: 0, person: 'mira' };
    const readings = held.job.readings.map((each) =>
      each.quantity === 'bar.sameL'
        ? { ...each, struck: { reason: 'wrongPoint' as const, words: '', stamp: struckAt } }
        : each,
    );
    const recipe = placementView(held.job, cameraOf(held)).recipe;
    const [slot] = slotsOf({ ...held.job, readings }, SENSOR, recipe, 'placement');
    expect(slot).toMatchObject({ state: 'missing', standing: [], past: [{ quantity: 'bar.sameL' }] });
  });

  test('a slide is one slot per station, a control is another slot than what it repeats', () => {
    const slots = slotsAfter(script.steps.length, 'stations');
    expect(slots.map((slot) => slot.key)).toEqual([
      'slide@carLeft550',
      'target.height@carLeft550',
      'slide@carRight550',
      'target.height@carRight550',
      'bar.sameL!control',
    ]);
    expect(new Set(slots.map((slot) => slot.draft)).size).toBe(slots.length);
    expect(nextSlot(slots)).toBeUndefined();
  });
});
