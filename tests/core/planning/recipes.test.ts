/** The recipes against each other: what each costs in uncertainty, and what the rear axle alone cannot know. */
import { describe, expect, test } from 'vitest';
import type { WorkClass } from '../../../core/placement/equipment.ts';
import { alternativesFor, whatWouldProve } from '../../../core/planning/alternatives.ts';
import { planDefaults } from '../../../core/planning/defaults.ts';
import { planDesign, predict } from '../../../core/planning/predict.ts';
import { whatItProves } from '../../../core/planning/proves.ts';
import { planOnce, RECIPES, recipeById } from '../../../core/planning/recipes.ts';
import { CENTRE, EQUIPMENT } from '../placement/trueLayout.ts';
import { CAR, designFor, planWith, predictedOf, setUpOf, stationWith } from './setUps.ts';

const THRUST = { ...CENTRE, left: { ...CENTRE.left, from: 'thrustLine' } } as const;
const WORKS: readonly WorkClass[] = ['typical', 'careful', 'best'];

const leftU = (recipe: Parameters<typeof designFor>[1], setUp = setUpOf()): number => {
  const design = designFor(setUp, recipe);
  return predictedOf(design, planWith(design), 'left').U;
};

describe('recipes', () => {
  test('the default recipe is six floor places and 21 readings without body face and toe, in walking order', () => {
    const keys = designFor().laid.slots.map(({ key }) => key);
    expect(keys).toHaveLength(27);
    expect(keys.slice(0, 7)).toEqual([
      'floor.FL',
      'floor.FR',
      'floor.RL',
      'floor.RR',
      'floor.fixtureLeft',
      'floor.fixtureRight',
      'drop.FL',
    ]);
    expect(keys.slice(-3)).toEqual(['target.height', 'fixture.pitch', 'fixture.roll']);
  });

  test('a station adds what it measures from: face, toe, slides', () => {
    const face = { ...CENTRE, ahead: { ...CENTRE.ahead, value: 1500, from: 'bodyFace' } } as const;
    const slide = { ...CENTRE, id: 'west', kind: 'slide', left: { ...CENTRE.left, value: 500 } } as const;
    const keys = designFor(setUpOf({ stations: [face, slide] })).laid.slots.map(({ key }) => key);
    expect(keys).toContain('face');
    expect(keys).toContain('slide@west');
    expect(keys).toContain('target.height@west');
    expect(designFor(setUpOf({ stations: [THRUST] })).laid.slots.map(({ key }) => key)).toContain('toe.RL');
  });

  test('one diagonal costs a little to the side, the other recipes stay as they are without a thrust line', () => {
    expect(leftU('oneDiagonal')).toBeGreaterThan(leftU('default'));
    expect(leftU('oneDiagonal')).toBeLessThan(1.2 * leftU('default'));
    expect(leftU('rimHeadings')).toBeCloseTo(leftU('default'), 9);
  });

  test('a leaner recipe is never better, in any coordinate', () => {
    const [all, lean] = [designFor(), designFor(setUpOf(), 'oneDiagonal')];
    for (const coordinate of ['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const) {
      const [a, b] = [
        predictedOf(all, planWith(all), coordinate),
        predictedOf(lean, planWith(lean), coordinate),
      ];
      expect(b.u).toBeGreaterThanOrEqual(a.u * (1 - 1e-9));
    }
  });
});

describe('the thrust line', () => {
  const centre = leftU('default');
  const added = (U: number): number => Math.sqrt(U * U - centre * centre);

  test('an alignment report of u 0.03 degrees a wheel adds 3.7 mm to U at 5 m', () => {
    // u of the thrust line is 0.03 / root 2 degrees; times 5 m, times 2.
    expect(added(leftU('default', setUpOf({ stations: [THRUST] })))).toBeCloseTo(3.7, 1);
  });

  test('rim readings add about 8 mm: gaps of u 0.45 mm over 406 mm', () => {
    const gap = Math.hypot(planDefaults.rimGapFixedMm, planDefaults.rimGapRepeatMm);
    const toeRad = (Math.SQRT2 * gap) / planDefaults.rimSpanMm / Math.SQRT2;
    const expected = 2 * 5000 * (toeRad / Math.SQRT2);
    expect(expected).toBeCloseTo(7.8, 1);
    const U = leftU('rimHeadings', setUpOf({ stations: [THRUST] }));
    // The rims are read against the marks: what the drops do to the centreline's heading no longer counts.
    expect(added(U)).toBeLessThan(expected);
    expect(added(U)).toBeGreaterThan(0.85 * expected);
    expect(U).toBeGreaterThan(1.3 * leftU('default', setUpOf({ stations: [THRUST] })));
  });

  test('more sets of rim gaps help until setting the rule is what remains', () => {
    const design = designFor(setUpOf({ stations: [THRUST] }), 'rimHeadings');
    const leftAfter = (times: number): number =>
      predictedOf(design, planWith(design, { 'rim.RL': times, 'rim.RR': times }), 'left').U;
    expect(leftAfter(2)).toBeLessThan(leftAfter(1));
    expect(leftAfter(1e6)).toBeGreaterThan(0.7 * leftAfter(1));
    expect(design.laid.slots.find(({ key }) => key === 'rim.RL')?.cost).toBe(4);
  });
});

describe('the rear axle alone', () => {
  test('knows how far ahead as well as four hubs do, but not how far to the side', () => {
    const [rear, all] = [designFor(setUpOf(), 'rearOnly'), designFor()];
    const ahead = predictedOf(rear, planWith(rear), 'ahead').U;
    expect(ahead / predictedOf(all, planWith(all), 'ahead').U).toBeCloseTo(1, 0);
    expect(leftU('rearOnly')).toBeGreaterThan(4 * leftU('default'));
  });

  test.each(WORKS)('%s work cannot prove 10 mm to the side five metres ahead, however often', (work) => {
    const design = designFor(setUpOf({ stations: [stationWith(10, 0.5)] }, work), 'rearOnly');
    const proof = whatItProves(design, planWith(design))?.find(({ coordinate }) => coordinate === 'left');
    expect(proof?.outcome).toBe('cannot');
    expect(proof?.limit.name).toBe('rearAxle');
    expect(proof?.bestU ?? 0).toBeGreaterThan(15);
  });

  test('is out of square by more than its two drops turn it: u by hand', () => {
    // Careful: two drops 2.11 m apart turn the axle by 0.69 mm root 2 / 2.11 m; square is known to 0.1 degrees; 5 m ahead.
    const drop = Math.hypot(0.5, 0.4, 0.8);
    const turned = (Math.SQRT2 * drop) / (CAR.trackRearMm + 560);
    const square = (0.1 * Math.PI) / 180;
    const expected = 5000 * Math.hypot(turned, square);
    const design = designFor(setUpOf(), 'rearOnly');
    const { u } = predictedOf(design, planWith(design), 'left');
    expect(u / expected).toBeGreaterThan(1);
    expect(u / expected).toBeLessThan(1.06);
  });

  test('what would: four hubs with typical work', () => {
    const setUp = setUpOf({ stations: [stationWith(10, 0.5)] });
    const would = whatWouldProve(setUp, { station: 'centre', coordinate: 'left' });
    expect(would).toMatchObject({ recipe: 'default', work: 'typical', proves: true });
    const all = alternativesFor(setUp, { station: 'centre', coordinate: 'left' });
    expect(all).toHaveLength(RECIPES.length * WORKS.length);
    expect(all.filter(({ recipe }) => recipe === 'rearOnly').some(({ proves }) => proves)).toBe(false);
  });

  test('has no front axle, body face or thrust line to measure from', () => {
    for (const station of [
      THRUST,
      { ...CENTRE, ahead: { ...CENTRE.ahead, from: 'frontAxle' } } as const,
      { ...CENTRE, ahead: { ...CENTRE.ahead, from: 'bodyFace' } } as const,
    ]) {
      const design = planDesign(setUpOf({ stations: [station] }), recipeById('rearOnly'));
      expect(design).toEqual({ ok: false, error: { code: 'planning/datumNotGiven', recipe: 'rearOnly' } });
    }
  });

  test('serves a target behind the car too', () => {
    const behind = {
      ...CENTRE,
      place: 'behind',
      ahead: { ...CENTRE.ahead, value: -2500 },
      yaw: { ...CENTRE.yaw, value: 0 },
    } as const;
    expect(leftU('rearOnly', setUpOf({ stations: [behind] }))).toBeLessThan(leftU('rearOnly'));
  });
});

describe('what makes no plan', () => {
  const causeOf = (change: Parameters<typeof setUpOf>[0]): unknown => {
    const design = planDesign(setUpOf(change), recipeById('default'));
    return design.ok ? undefined : design.error;
  };

  test.each([
    ['no station', { stations: [] }],
    ['a slide first', { stations: [{ ...CENTRE, kind: 'slide' as const }] }],
    ['a face across the car', { stations: [{ ...CENTRE, yaw: { ...CENTRE.yaw, value: Math.PI / 2 } }] }],
    ['no wheelbase', { car: { ...CAR, wheelbaseMm: 0 } }],
    ['a track that is no number', { car: { ...CAR, trackFrontMm: Number.NaN } }],
    ['a line that ends under the body', { beyondAheadMm: 500 }],
    [
      'a bar without length',
      { equipment: { ...EQUIPMENT, fixture: { ...EQUIPMENT.fixture, barLength: { mm: 0, uMm: 1 } } } },
    ],
  ])('%s', (_name, change) => {
    expect(causeOf(change)).toMatchObject({ code: 'planning/impossible' });
  });

  test('a plan without a needed reading names it, as does one with two lengths too few', () => {
    const design = designFor();
    const plan = planOnce(design.laid.slots);
    const without = (...keys: string[]) =>
      predict(design, new Map([...plan].filter(([key]) => !keys.includes(key))));
    expect(without('base.L', 'drop.RR')).toEqual({
      ok: false,
      error: { code: 'planning/undetermined', readingIds: ['base.L', 'drop.RR'] },
    });
    expect(without('bar.sameL', 'bar.diagRL')).toEqual({
      ok: false,
      error: { code: 'planning/undetermined', readingIds: ['bar.sameL', 'bar.diagRL'] },
    });
    expect(without('diagonal.LR').ok).toBe(true);
  });
});
