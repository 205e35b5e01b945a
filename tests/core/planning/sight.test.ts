/** Lines of sight: what blocks the readings everybody would like to take, and that the recipe's own are free. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fewest } from '../../../core/planning/fewest.ts';
import { beyondThatPasses, blockedReadings, blockersBetween } from '../../../core/planning/lineOfSight.ts';
import { box, obstaclesOf, tyreOf, tyreSlices } from '../../../core/planning/obstacles.ts';
import { rankNext } from '../../../core/planning/rank.ts';
import { RECIPES, recipeById } from '../../../core/planning/recipes.ts';
import { blockedSentence } from '../../../core/planning/sentences.ts';
import { blockersOf, partInside, type SightLine } from '../../../core/planning/sightLine.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { EQUIPMENT } from '../placement/trueLayout.ts';
import { CAR, designFor, planWith, setUpOf } from './setUps.ts';

const line = (from: SightLine['from'], to: SightLine['to'], halfWidthMm = 0, aboveMm = 0): SightLine => ({
  from,
  to,
  halfWidthMm,
  aboveMm,
});
const cube = { name: 'body', outline: box(0, 10, 0, 10), fromMm: 0, toMm: 10 } as const;

describe('a line and a box', () => {
  test('through, past and ending before', () => {
    expect(partInside(line([-10, 5, 5], [30, 5, 5]), cube)).toEqual([0.25, 0.5]);
    expect(partInside(line([-10, 15, 5], [30, 15, 5]), cube)).toBeUndefined();
    expect(partInside(line([-10, 5, 5], [-1, 5, 5]), cube)).toBeUndefined();
    expect(partInside(line([2, 2, 5], [3, 3, 5]), cube)).toEqual([0, 1]);
  });

  test('over, under, and down through the top', () => {
    expect(partInside(line([-10, 5, 11], [30, 5, 11]), cube)).toBeUndefined();
    expect(partInside(line([-10, 5, -3], [30, 5, -3]), cube)).toBeUndefined();
    expect(partInside(line([-10, 5, -3], [30, 5, -3], 0, 4), cube)).toBeDefined();
    expect(partInside(line([5, 5, 20], [5, 5, 5]), cube)).toEqual([2 / 3, 1]);
  });

  test('needs its room beside it', () => {
    expect(partInside(line([-10, 12, 5], [30, 12, 5], 1.9), cube)).toBeUndefined();
    expect(partInside(line([-10, 12, 5], [30, 12, 5], 2.1), cube)).toBeDefined();
  });

  test('names are given once, in the order they are met', () => {
    const far = { ...cube, name: 'stand', outline: box(40, 50, 0, 10) } as const;
    const along = line([-10, 5, 5], [60, 5, 5]);
    expect(blockersOf(along, [far, cube, cube])).toEqual(['body', 'stand']);
    expect(blockersOf(line([60, 5, 5], [-10, 5, 5]), [cube, far])).toEqual(['stand', 'body']);
  });

  test('agrees with walking along the line in small steps, seed 31', () => {
    // Never on a face of the box, where it is a matter of taste whether a line is inside.
    const number = fc.integer({ min: -2000, max: 3000 }).map((n) => n / 100 + 0.003);
    const place = fc.tuple(number, number, number);
    fc.assert(
      fc.property(place, place, (from, to) => {
        fc.pre(Math.hypot(from[0] - to[0], from[1] - to[1], from[2] - to[2]) > 1);
        const part = partInside(line(from, to), cube);
        const inside = Array.from({ length: 201 }, (_none, i) => i / 200).filter((t) =>
          from.every((start, axis) => {
            const at = start + t * ((to[axis] ?? 0) - start);
            return at > 1e-9 && at < 10 - 1e-9;
          }),
        );
        const [first, last] = [inside[0], inside.at(-1)];
        if (first === undefined || last === undefined) {
          return part === undefined || part[1] - part[0] < 1 / 200 + 1e-9;
        }
        return part !== undefined && part[0] <= first && part[1] >= last && part[0] > first - 0.005 - 1e-9;
      }),
      { seed: 31, numRuns: 300 },
    );
  });
});

describe('a tyre', () => {
  const slices = tyreSlices('tyre.FL', [0, 0, 298], { widthMm: 205, diameterMm: 632 });

  test('stands on a contact patch, is longest at its middle and ends at its top', () => {
    const halfOf = (i: number) => slices[i]?.outline[1]?.[0] ?? 0;
    // At the floor: root(316^2 - 298^2) = 105 mm; the lowest slice is as long as its upper edge, 19 mm up.
    expect(halfOf(0)).toBeGreaterThan(105);
    expect(halfOf(0)).toBeLessThan(155);
    expect(Math.max(...slices.map((_, i) => halfOf(i)))).toBe(316);
    expect(slices.at(-1)?.toMm).toBeCloseTo(298 + 316, 9);
    expect(slices[0]?.fromMm).toBe(0);
  });

  test('no slice lets a line through the round tyre, seed 32', () => {
    const height = fc.double({ min: 1, max: 610, noNaN: true });
    const part = fc.double({ min: -0.999, max: 0.999, noNaN: true });
    fc.assert(
      fc.property(height, part, (z, share) => {
        const half = Math.sqrt(316 * 316 - (z - 298) * (z - 298));
        const across = line([share * half, -300, z], [share * half, 300, z]);
        return blockersOf(across, slices).length === 1;
      }),
      { seed: 32, numRuns: 300 },
    );
  });

  test('is as large as told, or as the height of its wheel centre says', () => {
    expect(tyreOf({ ...CAR, tyre: { widthMm: 245, diameterMm: 700 } })).toEqual({
      widthMm: 245,
      diameterMm: 700,
    });
    expect(tyreOf(CAR).diameterMm).toBeCloseTo(318 / 0.47, 9);
  });
});

describe('lines about a car', () => {
  const { laid } = designFor();

  test('the line between the two hubs of an axle runs through both tyres', () => {
    expect(blockersBetween(laid, 'hub.FL', 'hub.FR')).toEqual(['tyre.FL', 'body', 'tyre.FR']);
    expect(blockersBetween(laid, 'hub.RL', 'hub.RR')).toEqual(['tyre.RL', 'body', 'tyre.RR']);
    expect(blockersBetween(laid, 'mark.FL', 'mark.FR')).toEqual(['tyre.FL', 'tyre.FR']);
  });

  test('a diagonal from a front hub mark runs through its own tyre', () => {
    expect(blockersBetween(laid, 'mark.FL', 'barMark.carRight')).toEqual(['tyre.FL']);
    expect(blockersBetween(laid, 'mark.FR', 'barMark.carLeft')).toEqual(['tyre.FR']);
    expect(blockersBetween(laid, 'mark.FL', 'mark.RR')[0]).toBe('tyre.FL');
  });

  test.each(RECIPES.map(({ id }) => id))('every reading of the recipe %s is free', (id) => {
    expect(blockedReadings(designFor(setUpOf(), id).laid)).toEqual([]);
  });

  test('with lines of 1 m the diagonals still graze the tyres; the least that passes is found, and depends on the car', () => {
    const near = designFor(setUpOf({ beyondAheadMm: 1000, beyondBehindMm: 1000 })).laid;
    expect(blockedReadings(near)).toEqual([
      { key: 'diagonal.RL', by: ['tyre.RR', 'tyre.FL'] },
      { key: 'diagonal.LR', by: ['tyre.RL', 'tyre.FR'] },
    ]);
    const least = (wheelbaseMm: number) =>
      beyondThatPasses(
        setUpOf({ car: { ...CAR, wheelbaseMm, bodyFaceAheadMm: wheelbaseMm + 850 } }),
        recipeById('default'),
      );
    expect(least(2650)).toBeGreaterThan(1000);
    expect(least(2650)).toBeLessThanOrEqual(1200);
    expect(least(2900) ?? 0).toBeGreaterThan(least(2650) ?? 0);
  });

  test('arms too short to carry the bob past the tyre block drop, side line and base', () => {
    const sideArms = { left: { mm: 80, uMm: 0.3 }, right: { mm: 280, uMm: 0.3 } };
    const short = designFor(setUpOf({ equipment: { ...EQUIPMENT, sideArms } })).laid;
    const blocked = new Map(blockedReadings(short).map(({ key, by }) => [key, by]));
    expect(blocked.get('drop.FL')).toContain('tyre.FL');
    expect(blocked.get('base.L')).toEqual(['tyre.RL', 'tyre.FL']);
    expect(blocked.get('ahead.L')).toContain('tyre.FL');
    expect(blocked.has('drop.FR')).toBe(false);
  });

  test('a sill lower than the tape stops the diagonals under the car', () => {
    const body = { widthMm: 1800, behindMm: 900, undersideMm: 40, topMm: 1400 };
    const low = designFor(setUpOf({ car: { ...CAR, body } })).laid;
    expect(blockedReadings(low)).toEqual([
      { key: 'diagonal.RL', by: ['body'] },
      { key: 'diagonal.LR', by: ['body'] },
    ]);
  });

  test('a wide stand blocks the bar diagonals', () => {
    const standBase = { widthMm: 1800, towardCarMm: 600, awayMm: 300, heightMm: 200 };
    const blocked = blockedReadings(designFor(setUpOf({ standBase })).laid);
    expect(blocked.map(({ key }) => key)).toContain('bar.diagLR');
    expect(blocked.every(({ by }) => by.includes('stand'))).toBe(true);
  });

  test('the stand is turned with the face: its car side is toward the car on both sides of it', () => {
    const stand = obstaclesOf(laid.setUp, laid.layout).find(({ name }) => name === 'stand');
    const aheads = stand?.outline.map(([ahead]) => ahead) ?? [];
    // The bar stands 80 mm beyond the face at 5000; 250 mm of base toward the car, 350 mm away from it.
    expect(Math.min(...aheads)).toBeCloseTo(5080 - 250, 6);
    expect(Math.max(...aheads)).toBeCloseTo(5080 + 350, 6);
  });
});

describe('planning proposes only readings that pass', () => {
  const setUp = setUpOf({ beyondAheadMm: 1000, beyondBehindMm: 1000 });

  test('a blocked reading is no candidate', () => {
    const design = designFor(setUp);
    const ranking = rankNext(design, planWith(design));
    if (ranking.state !== 'ranked') throw new Error('nothing ranked');
    const keys = ranking.candidates.map(({ key }) => key);
    expect(keys).toContain('width.ahead');
    expect(keys).not.toContain('diagonal.LR');
    expect(keys).not.toContain('diagonal.RL');
  });

  test('where nothing replaces what is blocked, the search says so', () => {
    expect(fewest(designFor(setUp))).toEqual({
      outcome: 'blocked',
      readingIds: ['diagonal.RL', 'diagonal.LR'],
    });
  });

  test('the sentence names reading and obstacles', () => {
    const { laid } = designFor(setUp);
    const sentence = blockedSentence(laid, 'diagonal.RL', ['tyre.RR', 'tyre.FL']);
    expect(sentence).toBe(
      "car's-right point behind to car's-left point ahead: blocked by the car's right rear tyre and the car's left front tyre",
    );
    expect(wordFaults(sentence)).toEqual([]);
    expect(blockedSentence(laid, 'base.L', ['stand'])).toContain('blocked by the base of');
  });
});
