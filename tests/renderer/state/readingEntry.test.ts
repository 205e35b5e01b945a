import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../../core/job/equipment.ts';
import { invariant } from '../../../core/result.ts';
import { expectedMm } from '../../../renderer/state/expectation.ts';
import { placementView, previewAnswer } from '../../../renderer/state/placementView.ts';
import {
  contextOf,
  isFreshSlip,
  previewReading,
  readingEntryToSend,
  readingText,
  readReading,
  SLIP_WINDOW_MS,
} from '../../../renderer/state/readingEntry.ts';
import { slotsOf } from '../../../renderer/state/readings.ts';
import { opened, typedKey } from '../../../renderer/state/typedEntry.ts';
import { directionKey, typedPreviews } from '../../../renderer/state/typedPreviews.ts';
import { cameraOf, heldAfter, readingIndex, SENSOR, shop } from '../demoHeld.ts';

const tape: Instrument = {
  id: 't',
  name: 'tape',
  serial: '',
  certificate: '',
  dueOn: '2027-01-01',
  kind: 'tape',
  accuracyClass: 'II',
  resolution: 1,
  startsAt: 'zero',
  numbersIn: 'mm',
};

function deskBefore(quantity: string, stage: 'bay' | 'datum' | 'placement' = 'placement') {
  const held = heldAfter(readingIndex(quantity));
  const view = placementView(held.job, cameraOf(held));
  const slots = slotsOf(held.job, SENSOR, view.recipe, stage);
  const slot = slots.find((each) => each.spec.id === quantity);
  invariant(slot !== undefined, quantity);
  return { held, view, slots, slot };
}

/** Reads a text for a reading of the demo job, with everything that is known before it. */
function read(
  quantity: string,
  text: string,
  instrument = tape,
  stage: 'bay' | 'datum' | 'placement' = 'placement',
) {
  const { view, slots, slot } = deskBefore(quantity, stage);
  return readReading(text, slot.spec, instrument, contextOf(slot, slots, expectedMm(slot, view)));
}

describe('reading a typed length', () => {
  test.each([
    ['1467,0', 'zero', 'mm', 1467],
    ['1467.0', 'zero', 'mm', 1467],
    ['146,7 cm', 'zero', 'mm', 1467],
    ['146,7', 'zero', 'cm', 1467],
    ['1567', 'hundred', 'mm', 1467],
    ['57 3/4 in', 'zero', 'mm', 1466.85],
    ['1467', 'hook', 'mm', 1467],
  ] as const)(
    '%s on a tape that starts at %s with numbers in %s is %f mm',
    (text, startsAt, numbersIn, value) => {
      const answer = read('bar.sameR', text, { ...tape, startsAt, numbersIn });
      expect(answer).toMatchObject({ ok: true, value: { question: undefined } });
      expect(answer.ok && answer.value.value).toBeCloseTo(value, 9);
    },
  );

  test.each([
    ['14670', 'slip.tenTimesTooBig', 1467],
    ['146.7', 'slip.tenTimesTooSmall', 1467],
    ['57.75', 'slip.inchesAsMm', 1466.85],
  ])('%s is questioned with %s and cured to %f mm', (text, key, cured) => {
    const answer = read('bar.sameR', text);
    invariant(answer.ok, 'it has a value');
    expect(answer.value.question?.key).toBe(key);
    expect(answer.value.question?.cures[0]?.value).toBeCloseTo(cured, 6);
    expect(answer.value.question?.cures.at(-1)).toMatchObject({ key: 'cure.keep' });
  });

  test('1,350 asks whether the sign groups', () => {
    const answer = read('target.height', '1,350');
    expect(answer).toMatchObject({ ok: true, value: { question: { key: 'slip.grouped' } } });
  });

  test('a minus is questioned, a word is refused', () => {
    expect(read('bar.sameR', '-1467')).toMatchObject({ value: { question: { key: 'slip.negative' } } });
    expect(read('bar.sameR', 'about one metre')).toMatchObject({
      ok: false,
      error: { code: 'entry/unreadable' },
    });
  });

  test('a repeat is held against what stands: 100 mm off is a question of the tape', () => {
    const held = heldAfter(readingIndex('bar.diagLR'));
    const view = placementView(held.job, cameraOf(held));
    const slots = slotsOf(held.job, SENSOR, view.recipe, 'placement');
    const [slot] = slots;
    invariant(slot !== undefined, 'first slot');
    const answer = readReading('1541', slot.spec, tape, contextOf(slot, slots, undefined));
    expect(answer).toMatchObject({ value: { question: { key: 'slip.hundredTooMuch' } } });
  });

  test('two distances typed at each other’s side are recognised where the two must differ', () => {
    const { slots, slot } = deskBefore('bar.diagLR', 'placement');
    const [left] = slots;
    const [standing] = left?.standing ?? [];
    invariant(left !== undefined && standing !== undefined, 'the car-left distance is read');
    const right = slots.find(({ spec }) => spec.id === 'bar.sameR');
    invariant(right !== undefined && slot !== undefined, 'its partner');
    // The points ahead stand so that the car's left must read 400 mm more; it was read as 1441.
    const context = contextOf(right, slots, 1440, 1840);
    expect(readReading('1842', right.spec, tape, context)).toMatchObject({
      value: {
        question: {
          key: 'slip.swappedSides',
          cures: [{ key: 'cure.exchange', value: standing.value, pairValue: 1842 }, { key: 'cure.keep' }],
        },
      },
    });
    expect(readReading('1442', right.spec, tape, context)).toMatchObject({ value: { question: undefined } });
  });

  test('a hub drop is held against its partner on the other side', () => {
    expect(read('drop.FR', '418', tape, 'datum')).toMatchObject({
      value: { question: { key: 'slip.hundredTooMuch' } },
    });
    expect(read('drop.FR', '318', tape, 'datum')).toMatchObject({ value: { question: undefined } });
  });
});

describe('reading a typed tilt', () => {
  test('degrees, arc minutes and mm/m all become radians', () => {
    const values = ['0,50', "30'", '8.7269 mm/m'].map((text) => read('fixture.pitch', text));
    for (const answer of values) {
      expect(answer.ok && answer.value.value).toBeCloseTo((0.5 * Math.PI) / 180, 6);
    }
  });

  test('more than the fixture can lean is asked about', () => {
    expect(read('fixture.pitch', '50')).toMatchObject({ ok: true, value: { question: expect.anything() } });
  });
});

describe('the fact of a reading', () => {
  test('holds text, instrument, set-ups and place as they are now', () => {
    const { held, slot } = deskBefore('bar.sameR');
    const fact = readingEntryToSend(held.job, slot, {
      reading: 'r-1',
      value: 1467,
      text: '1467,0',
      direction: null,
      instrument: 'tape-1',
    });
    expect(fact).toEqual({
      type: 'readingRecorded',
      v: 1,
      payload: {
        reading: 'r-1',
        quantity: 'bar.sameR',
        sensor: SENSOR,
        station: null,
        value: 1467,
        unit: 'mm',
        direction: null,
        text: '1467,0',
        instrument: 'tape-1',
        purpose: 'proof',
        carSetUp: 1,
        fixtureSetUp: 1,
      },
    });
  });

  test('is shown with its unit and its instrument’s places', () => {
    expect(readingText(1467, { unit: 'mm', decimals: 1 })).toBe('1467.0 mm');
    expect(readingText(Math.PI / 360, { unit: 'deg', decimals: 2 })).toBe('0.50°');
  });
});

describe('the preview', () => {
  const { held, view, slots, slot } = deskBefore('fixture.roll');
  const typedAs = (text: string, way?: string) => ({
    [typedKey(held.job.id, slot.draft)]: opened(held.job.id, slot.draft, text, 'c'),
    ...(way === undefined
      ? {}
      : { [typedKey(held.job.id, directionKey(slot))]: opened(held.job.id, directionKey(slot), way, 'd') }),
  });

  test('solves with the typed reading that the record still lacks', () => {
    const previews = typedPreviews(held.job, view, slots, typedAs('0,10', 'carLeftLow'));
    expect(previews).toHaveLength(1);
    const shown = previewAnswer(held.job, view, previews);
    expect(view.answer.ok && view.answer.value.stage).not.toBe('fixture');
    expect(shown).toMatchObject({ preview: true, answer: { stage: 'fixture' } });
  });

  test.each([
    ['', undefined],
    ['0,10', undefined],
    ['rather level', 'carLeftLow'],
    ['50', 'carLeftLow'],
  ])('"%s" with the way %s takes no part', (text, way) => {
    expect(typedPreviews(held.job, view, slots, typedAs(text, way))).toEqual([]);
  });

  test('a preview is never the record: without typed text the recorded answer stands', () => {
    expect(previewAnswer(held.job, view, [])).toEqual({
      answer: view.answer.ok ? view.answer.value : undefined,
      preview: false,
    });
    const reading = previewReading(held.job, slot, 0.001, 'carLeftLow');
    expect(held.job.readings.some((each) => each.reading === reading.ref)).toBe(false);
  });
});

describe('a slip put right in one tap', () => {
  const reading = { stamp: { utcMs: 1_000_000, person: 'mira' } };
  test.each([
    ['mira', 0, true],
    ['mira', SLIP_WINDOW_MS, true],
    ['mira', SLIP_WINDOW_MS + 1, false],
    ['tobias', 1000, false],
    [null, 1000, false],
    ['mira', -1, false],
  ])('%s after %d ms: %s', (person, after, expected) => {
    expect(isFreshSlip(reading, person, reading.stamp.utcMs + after)).toBe(expected);
  });
});

test('every reading of the demo job passes without a question, so that nobody is asked for nothing', () => {
  const asked = shop.instruments.length;
  expect(asked).toBeGreaterThan(0);
  for (const [quantity, stage, text] of [
    ['bar.sameL', 'placement', '1441,0'],
    ['bar.diagLR', 'placement', '2499,5'],
    ['bar.diagRL', 'placement', '2499,5'],
    ['target.height', 'placement', '1346,5'],
    ['ahead.R', 'datum', '1000,5'],
    ['base.R', 'datum', '2708,0'],
    ['diagonal.LR', 'datum', '5140,5'],
    ['width.ahead', 'datum', '2063,5'],
    ['floor.RR', 'bay', '1245,0'],
  ] as const) {
    expect(read(quantity, text, tape, stage), quantity).toMatchObject({
      ok: true,
      value: { question: undefined },
    });
  }
});
