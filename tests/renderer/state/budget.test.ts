import { describe, expect, test } from 'vitest';
import { defaultRecipe } from '../../../core/placement/recipe.ts';
import { entryContext } from '../../../renderer/state/expectation.ts';
import { placementView } from '../../../renderer/state/placementView.ts';
import { instrumentsFor, readReading } from '../../../renderer/state/readingEntry.ts';
import { nextSlot, slotsOf } from '../../../renderer/state/readings.ts';
import { cameraOf, heldAfter, readingIndex, SENSOR, script } from '../demoHeld.ts';

/** The most readings of Datum and Placement for a forward camera, and the most acts beside digits for each. */
const MOST_READINGS = 22;

/** Readings of the demo job's forward camera in the order they are typed, up to the first move. */
const typed = script.steps.flatMap((step, index) =>
  step.do === 'reading' &&
  step.station === null &&
  step.purpose === 'proof' &&
  !step.quantity.startsWith('floor.')
    ? [{ step, index }]
    : [],
);
const firstMove = script.steps.findIndex((step) => step.do === 'moved');
const lap = typed.filter(({ index }) => index < firstMove);

describe('what a forward camera costs with the default recipe', () => {
  test('at most 22 readings from the first hub to the last tilt', () => {
    const procedure = cameraOf(heldAfter(readingIndex('drop.FL'))).procedure;
    const view = placementView(
      heldAfter(readingIndex('drop.FL')).job,
      cameraOf(heldAfter(readingIndex('drop.FL'))),
    );
    const needed = defaultRecipe({ stations: view.stations }).filter(
      (spec) => !spec.optional && spec.purpose === 'proof' && ['datum', 'placement'].includes(spec.stage),
    );
    console.log(`${procedure?.title}: ${needed.length} readings, of at most ${MOST_READINGS}`);
    expect(needed.length).toBeLessThanOrEqual(MOST_READINGS);
    expect(lap.length).toBe(needed.length);
  });

  test('each opens by itself and is plain: digits and one Enter; only a tilt asks for its way as well', () => {
    let ways = 0;
    for (const { step, index } of lap) {
      const held = heldAfter(index);
      const view = placementView(held.job, cameraOf(held));
      const stage = view.recipe.find((spec) => spec.id === step.quantity)?.stage ?? 'datum';
      const slots = slotsOf(held.job, SENSOR, view.recipe, stage);
      const next = nextSlot(slots);
      expect(next?.spec.id).toBe(step.quantity);
      if (next === undefined) continue;
      const [instrument] = instrumentsFor(next.spec, view.sensor.equipment);
      const read = readReading(step.text, next.spec, instrument, entryContext(next, slots, view));
      expect(read.ok && read.value.question, step.quantity).toBeUndefined();
      if (next.spec.directions !== undefined) ways += 1;
    }
    console.log(`${lap.length} Enters, ${ways} ways of a tilt`);
    expect(ways).toBe(2);
  });
});
