import { describe, expect, test } from 'vitest';
import {
  defaultRecipe,
  nearPoints,
  type ReadingSpec,
  slotKey,
  specOf,
} from '../../../core/placement/recipe.ts';
import { say, templateOf } from '../../../core/words/index.ts';
import { CENTRE, SLIDES } from './trueLayout.ts';

const ids = (recipe: readonly ReadingSpec[]): string[] => recipe.map((spec) => spec.id);
const of = (recipe: readonly ReadingSpec[], stage: ReadingSpec['stage']): readonly ReadingSpec[] =>
  recipe.filter((spec) => spec.stage === stage);

describe('the default recipe', () => {
  const recipe = defaultRecipe();

  test('needs at most 22 readings for datum and placement, 21 without the body face', () => {
    const needed = recipe.filter(
      (spec) => (spec.stage === 'datum' || spec.stage === 'placement') && !spec.optional,
    );
    expect(needed).toHaveLength(21);
    const withFace = defaultRecipe({ bodyFace: true }).filter(
      (spec) => (spec.stage === 'datum' || spec.stage === 'placement') && !spec.optional,
    );
    expect(withFace).toHaveLength(22);
  });

  test('has the fixed ids', () => {
    expect(ids(of(recipe, 'bay'))).toEqual([
      'floor.FL',
      'floor.FR',
      'floor.RL',
      'floor.RR',
      'floor.fixtureLeft',
      'floor.fixtureRight',
    ]);
    expect([...ids(of(recipe, 'datum'))].sort()).toEqual(
      [
        'drop.FL',
        'drop.FR',
        'drop.RR',
        'drop.RL',
        'base.L',
        'base.R',
        'ahead.L',
        'ahead.R',
        'behind.L',
        'behind.R',
        'width.ahead',
        'width.behind',
        'diagonal.LR',
        'diagonal.RL',
        'face',
        'toe.RL',
        'toe.RR',
      ].sort(),
    );
    expect([...ids(of(recipe, 'placement'))].sort()).toEqual(
      [
        'bar.sameL',
        'bar.sameR',
        'bar.diagLR',
        'bar.diagRL',
        'target.height',
        'fixture.pitch',
        'fixture.roll',
      ].sort(),
    );
  });

  test('is one lap: each tape or drop of the lap begins or ends where the one before it was, or at the next corner', () => {
    const lap = of(recipe, 'datum').filter((spec) => spec.kind === 'drop' || spec.kind === 'distance');
    const sideOf = (spec: ReadingSpec): string => spec.points.map((point) => point.at(-1)).join('');
    // All of the car's left comes before what crosses behind, and that before all of the car's right.
    const sides = lap
      .map(sideOf)
      .map((ends) => (/^[L]+$/.test(ends) ? 'L' : /^[R]+$/.test(ends) ? 'R' : 'X'));
    expect(sides.join('')).toMatch(/^L+X+R+X+$/);
  });

  test('gives every reading a label in the catalogue, plausible limits, decimals and an instrument', () => {
    for (const spec of defaultRecipe({ stations: [CENTRE, ...SLIDES] })) {
      expect(templateOf(spec.label), spec.label).toBeDefined();
      expect(spec.limits.min).toBeLessThan(spec.limits.max);
      expect(spec.limits.min).toBeGreaterThanOrEqual(0);
      expect(spec.decimals).toBe(spec.unit === 'deg' ? 2 : 1);
      expect(spec.dependsOn.length).toBeGreaterThan(0);
      expect(spec.points.length).toBeGreaterThan(0);
    }
  });

  test('names in both directions which reading is the same at the other side of the car', () => {
    for (const spec of recipe) {
      if (spec.pairId === undefined) continue;
      const partner = recipe.find((each) => each.id === spec.pairId);
      expect(partner?.pairId, spec.id).toBe(spec.id);
    }
    const paired = recipe.filter((spec) => spec.pairId !== undefined).map((spec) => spec.id);
    expect(paired).toContain('diagonal.LR');
    expect(paired).not.toContain('width.ahead');
  });

  test('asks the way of every reading that can go two ways, and of no other', () => {
    const twoWays = recipe.filter((spec) => spec.directions !== undefined).map((spec) => spec.id);
    expect(twoWays).toEqual(['toe.RL', 'toe.RR', 'fixture.pitch', 'fixture.roll']);
    for (const spec of recipe) {
      for (const direction of spec.directions ?? []) expect(templateOf(`tilt.${direction}`)).toBeDefined();
    }
  });

  test('knows which set-ups a reading rests on', () => {
    const on = (id: string): readonly string[] => recipe.find((spec) => spec.id === id)?.dependsOn ?? [];
    expect(on('floor.FL')).toEqual(['floor']);
    expect(on('drop.RR')).toEqual(['car']);
    expect(on('bar.diagRL')).toEqual(['car', 'fixture']);
    expect(on('fixture.roll')).toEqual(['fixture']);
  });
});

describe('a recipe for stations', () => {
  test('every slide adds its slide and the height again, and one control ends them', () => {
    const recipe = defaultRecipe({ stations: [CENTRE, ...SLIDES] });
    expect(of(recipe, 'stations').map(slotKey)).toEqual([
      'slide@west',
      'target.height@west',
      'slide@east',
      'target.height@east',
      'bar.sameL!control',
    ]);
  });
  test('a station measured from the body face needs the face, one measured from the thrust line needs rear toe', () => {
    const optional = (recipe: readonly ReadingSpec[]): string[] =>
      ids(recipe.filter((spec) => spec.optional));
    expect(optional(defaultRecipe({ stations: [CENTRE] }))).toEqual(['face', 'toe.RL', 'toe.RR']);
    const fromFace = { ...CENTRE, ahead: { value: 1500, from: 'bodyFace' } } as const;
    expect(optional(defaultRecipe({ stations: [fromFace] }))).toEqual(['toe.RL', 'toe.RR']);
    const toThrust = { ...CENTRE, yaw: { ...CENTRE.yaw, from: 'thrustLine' } } as const;
    expect(optional(defaultRecipe({ stations: [toThrust] }))).toEqual(['face']);
  });
  test('a target behind the car is measured from the points behind, and its labels say so', () => {
    const behind = { ...CENTRE, place: 'behind', ahead: { value: -2600, from: 'rearAxle' } } as const;
    expect(nearPoints([behind])).toBe('behind');
    expect(nearPoints([CENTRE])).toBe('ahead');
    const spec = defaultRecipe({ stations: [behind] }).find((each) => each.id === 'bar.sameL');
    expect(spec?.points).toEqual(['behind.L', 'barEnd.carLeft']);
    expect(spec?.label).toBe('reading.behind.bar.sameL');
    expect(say('reading.behind.bar.sameL')).toContain('point behind');
    const slid = { ...behind, id: 'slid', kind: 'slide' } as const;
    const control = defaultRecipe({ stations: [behind, slid] }).find((each) => each.purpose === 'control');
    expect(control?.label).toBe('reading.control.behind.bar.sameL');
  });
  test('slots are told apart by station and purpose', () => {
    const recipe = defaultRecipe({ stations: [CENTRE, ...SLIDES] });
    expect(new Set(recipe.map(slotKey)).size).toBe(recipe.length);
    expect(specOf(recipe, { id: 'bar.sameL', purpose: 'control' })?.stage).toBe('stations');
    expect(specOf(recipe, { id: 'bar.sameL', purpose: 'proof' })?.stage).toBe('placement');
    expect(specOf(recipe, { id: 'target.height', station: 'east', purpose: 'proof' })?.stage).toBe(
      'stations',
    );
    expect(specOf(recipe, { id: 'target.height', station: 'nowhere', purpose: 'proof' })).toBeUndefined();
  });
});
