/** Every sentence a person at the fixture can get: one action, at most twelve words, no sign, no side without its car. */
import { describe, expect, test } from 'vitest';
import { knownWordKey, shareName } from '../../../core/placement/names.ts';
import { nextAction, readingName } from '../../../core/placement/nextAction.ts';
import { defaultRecipe, slotKey } from '../../../core/placement/recipe.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import { say, slotsOf, wordFaults } from '../../../core/words/index.ts';
import { PLACEMENT_WORDS, type PlacementWordKey } from '../../../core/words/placement.ts';
import { RECIPE_WORDS } from '../../../core/words/recipe.ts';
import { answerOf } from './answers.ts';
import { CENTRE, inputOf, SLIDES, SQUARE } from './trueLayout.ts';

const behind: StationRequirement = { ...CENTRE, place: 'behind', ahead: { value: -2600, from: 'rearAxle' } };
const behindSlide: StationRequirement = { ...behind, id: 'aside', kind: 'slide' };
const recipes = [
  defaultRecipe({ stations: [CENTRE, ...SLIDES] }),
  defaultRecipe({ stations: [behind, behindSlide] }),
];
const names = [
  ...recipes.flatMap((recipe) => recipe.map((spec) => readingName(recipe, slotKey(spec)))),
  ...Object.entries(RECIPE_WORDS).flatMap(([key, words]) => (key.startsWith('known.') ? [words] : [])),
];
/** The longest text a slot of a move can get. */
const LONGEST: Readonly<Record<string, string>> = {
  amount: '1234.5 mm',
  reads: '1234 mm',
  turns: '12 3/4 turns',
  station: 'Low plate, car laden',
};
const filled = (slots: readonly string[], texts: Readonly<Record<string, string>>) =>
  Object.fromEntries(slots.map((slot) => [slot, texts[slot] ?? '']));
const wordCount = (text: string): number => text.split(/\s+/).length;

describe('names of readings', () => {
  test('have at most eight words and break no rule of words', () => {
    expect(names.length).toBeGreaterThan(70);
    for (const name of names) {
      expect(wordCount(name), name).toBeLessThanOrEqual(8);
      expect(wordFaults(name), name).toEqual([]);
    }
  });
  test('every label of either recipe is a sentence part of its own: no key shows through', () => {
    for (const name of names) expect(name).not.toMatch(/^[a-z]+\.[A-Za-z]/);
  });
});

describe('the line that says what to do next', () => {
  const lines = (Object.keys(PLACEMENT_WORDS) as PlacementWordKey[]).filter((key) =>
    /^(move|next|quick)\./.test(key),
  );

  test.each(lines)('%s stays within twelve words whatever it names', (key) => {
    const slots = slotsOf(PLACEMENT_WORDS[key]);
    const texts = slots.includes('reading')
      ? names.map((reading) => say(key, filled(slots, { ...LONGEST, reading })))
      : [say(key, filled(slots, LONGEST))];
    for (const text of texts) {
      expect(wordCount(text), text).toBeLessThanOrEqual(12);
      expect(wordFaults(text), text).toEqual([]);
    }
  });

  test('a move is said as it is made', () => {
    const off = { ...SQUARE, target: { ...SQUARE.target, left: -30 } };
    const { nextAction: next } = answerOf(inputOf(off));
    expect(say(next.wordKey, next.values)).toBe("Shift the fixture 30 mm to the car's left, then read again");
  });

  test('what is impossible comes before what is missing, and both before any move', () => {
    const nothing = { problems: [], missing: [], suspects: [], controls: [], moves: [], stations: [] };
    const [recipe = []] = recipes;
    const impossible = nextAction({
      ...nothing,
      recipe,
      problems: [{ code: 'placement/impossible', readingIds: ['width.ahead', 'diagonal.LR'] }],
      missing: [{ id: 'bar.sameL', purpose: 'proof' }],
    });
    expect(say(impossible.wordKey, impossible.values)).toBe('Read again: width between the two points ahead');
    const missing = nextAction({ ...nothing, recipe, missing: [{ id: 'bar.sameL', purpose: 'proof' }] });
    expect(say(missing.wordKey, missing.values)).toBe("Read: car's-left point ahead to car's-left bar end");
    const suspects = [
      {
        readingIds: ['base.L', 'base.R'],
        estimatedBlunder: 9,
        standardisedResidual: 4,
        separatedBy: 'base.R',
      },
    ];
    const oneOfThese = nextAction({ ...nothing, recipe, suspects });
    expect(say(oneOfThese.wordKey, oneOfThese.values)).toBe(
      "One does not fit: car's right, rear mark to front mark",
    );
  });
});

describe('what shares of the variance are called', () => {
  test('sources of the network lead to readings or to known things', () => {
    expect(shareName('drop.FL')).toBe('drop.FL');
    expect(shareName('drop.FL:height')).toBe('drop.FL');
    expect(shareName('tape:T-7:scale')).toBe('tape.scale');
    expect(shareName('tape:T-7:hook')).toBe('tape.hook');
    expect(shareName('@barEnd.carLeft')).toBe('fixture.bar');
    expect(shareName('@target')).toBe('fixture.face');
    expect(shareName('plumb.barEnd.carRight')).toBe('plumb.barEnd');
    expect(shareName('line.ahead.L')).toBe('line.ahead.L');
    expect(shareName('bodyFace.side')).toBe('bodyFace');
    expect(shareName('slide@west')).toBe('slide@west');
    expect(shareName('slideTilt@west')).toBe('slide.tilt');
  });
  test('every share of a full answer has words', () => {
    const slides = { west: { towardCarLeft: 550, sag: 0 }, east: { towardCarLeft: -550, sag: 0 } };
    const stations = [CENTRE, ...SLIDES].map((each) => ({
      ...each,
      ahead: { value: each.ahead.value - 3500, from: 'bodyFace' as const },
      left: { ...each.left, from: 'thrustLine' as const },
    }));
    const recipe = defaultRecipe({ stations });
    const answer = answerOf(inputOf({ ...SQUARE, slides }, stations));
    const shares = answer.stations.flatMap((each) => each.coordinates.flatMap((one) => one.shares));
    expect(shares.length).toBeGreaterThan(100);
    for (const { readingId } of shares) {
      expect(readingName(recipe, readingId), readingId).not.toBe(readingId);
    }
    expect(shares.some((share) => knownWordKey(share.readingId) === 'known.slide.tilt')).toBe(true);
  });
});
