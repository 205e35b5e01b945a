import { describe, expect, test } from 'vitest';
import { parseQuantity } from '../../../core/entry/index.ts';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import type { PlacementReading } from '../../../core/placement/placementReading.ts';
import { defaultRecipe, slotKey } from '../../../core/placement/recipe.ts';
import { solvePlacement } from '../../../core/placement/solvePlacement.ts';
import {
  draggedBy,
  movedAsAsked,
  type RehearsalState,
  requiredPose,
  shownText,
  simulatedReading,
  startState,
} from '../../../core/rehearsal/index.ts';
import { CENTRE, EQUIPMENT, SLIDES } from '../placement/trueLayout.ts';

const STATIONS = [CENTRE, ...SLIDES];
const RECIPE = defaultRecipe({ stations: STATIONS });
const DEG = Math.PI / 180;

function work(fixtureSetUp = 1) {
  return { equipment: EQUIPMENT, stations: STATIONS, fixtureSetUp, carSetUp: 1 };
}

/** Takes every reading of the recipe as a person would: seen, typed, read by the parser. */
function lap(state: RehearsalState, fixtureSetUp: number): readonly PlacementReading[] {
  return RECIPE.flatMap((spec) => {
    const seen = simulatedReading(state, work(fixtureSetUp), spec, 0);
    if (seen === undefined) return [];
    const kind = spec.unit === 'deg' ? 'angle' : 'length';
    const entry = { kind, numbersIn: spec.unit } as const;
    const typed = parseQuantity(shownText(seen.value, spec, entry), entry);
    if (!typed.ok) throw new Error(`${slotKey(spec)}: ${typed.error.key}`);
    return [
      {
        ref: `${fixtureSetUp} ${slotKey(spec)}`,
        id: spec.id,
        purpose: spec.purpose,
        value: typed.value.value,
        carSetUp: 1,
        fixtureSetUp,
        ...(spec.station === undefined ? {} : { station: spec.station }),
        ...(seen.direction === undefined ? {} : { direction: seen.direction }),
      } satisfies PlacementReading,
    ];
  });
}

function solved(readings: readonly PlacementReading[], fixtureSetUp: number): PlacementAnswer {
  const answer = solvePlacement({
    readings,
    setUps: { car: 1, fixture: fixtureSetUp },
    equipment: EQUIPMENT,
    stations: STATIONS,
    decisionRule: 'guarded',
  });
  if (!answer.ok) throw new Error(answer.error.code);
  return answer.value;
}

/** Follows the screen until nothing is to be moved; answers how often the fixture was moved and where it ended. */
function rehearsed(seed: number, mostRounds = 8) {
  let state = startState(CENTRE, seed);
  for (let round = 1; round <= mostRounds; round += 1) {
    const answer = solved(lap(state, round), round);
    const moves = answer.moves.filter((move) => move.kind !== 'setSlide');
    if (moves.length === 0) return { moved: round - 1, state, answer };
    state = movedAsAsked(state, moves, round);
  }
  throw new Error(`seed ${seed}: still moving after ${mostRounds} rounds`);
}

describe('the bay', () => {
  test('is the same for the same seed and another for another', () => {
    expect(startState(CENTRE, 7)).toEqual(startState(CENTRE, 7));
    expect(startState(CENTRE, 7)).not.toEqual(startState(CENTRE, 8));
  });

  test('has every reading of the recipe, within what the form takes for plausible', () => {
    for (const spec of RECIPE) {
      const seen = simulatedReading(startState(CENTRE, 11), work(), spec, 0);
      expect(seen, slotKey(spec)).toBeDefined();
      const value = spec.unit === 'deg' ? (seen?.value ?? 0) / DEG : (seen?.value ?? 0);
      expect(value, slotKey(spec)).toBeGreaterThanOrEqual(spec.limits.min);
      expect(value, slotKey(spec)).toBeLessThanOrEqual(spec.limits.max);
      expect(seen?.direction === undefined, slotKey(spec)).toBe(spec.directions === undefined);
    }
  });

  test('a repeat of a tape reading errs anew, by about what careful work is stated to', () => {
    const spec = RECIPE.find((each) => each.id === 'bar.sameL');
    if (spec === undefined) throw new Error('no such reading');
    const state = startState(CENTRE, 3);
    const values = Array.from(
      { length: 400 },
      (_none, n) => simulatedReading(state, work(), spec, n)?.value ?? 0,
    );
    const mean = values.reduce((sum, each) => sum + each, 0) / values.length;
    const s = Math.sqrt(values.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (values.length - 1));
    expect(new Set(values).size).toBe(values.length);
    // u of setting and repeatability together: root of 0.4 squared twice.
    expect(s).toBeGreaterThan(0.5);
    expect(s).toBeLessThan(0.63);
  });

  test('the bar ends are dropped anew in each set-up, the marks of the car are not', () => {
    const state = startState(CENTRE, 5);
    const of = (id: string, setUp: number) => {
      const spec = RECIPE.find((each) => each.id === id);
      if (spec === undefined) throw new Error(id);
      // The error of the reading itself is drawn per set-up too; many repeats leave only where the marks lie.
      const values = Array.from(
        { length: 200 },
        (_none, n) => simulatedReading(state, work(setUp), spec, n)?.value ?? 0,
      );
      return values.reduce((sum, each) => sum + each, 0) / values.length;
    };
    const spread = (id: string) => {
      const means = [1, 2, 3, 4, 5].map((setUp) => of(id, setUp));
      return Math.max(...means) - Math.min(...means);
    };
    expect(spread('base.L')).toBeLessThan(0.25);
    expect(spread('bar.diagLR')).toBeGreaterThan(0.5);
  });
});

describe('a whole rehearsal', () => {
  const seeds = [1, 2, 3, 5, 8, 13, 21, 34];

  test.each(seeds)(
    'seed %d: the fixture starts wrong, is brought to its place by the moves asked for',
    (seed) => {
      const start = startState(CENTRE, seed);
      const goal = requiredPose(CENTRE, seed);
      expect(Math.abs(start.pose.ahead - goal.ahead)).toBeGreaterThan(50);
      const { moved, state, answer } = rehearsed(seed);
      expect(moved).toBeGreaterThanOrEqual(1);
      // The true place: within the tolerance of 10 mm and half a degree, less what careful work cannot see.
      expect(Math.abs(state.pose.ahead - goal.ahead)).toBeLessThan(10);
      expect(Math.abs(state.pose.yaw - goal.yaw)).toBeLessThan(0.5 * DEG);
      expect(['proven', 'within']).toContain(answer.stations[0]?.worst);
    },
  );

  test('a fixture bumped after the readings is found by the control', () => {
    const { state, moved } = rehearsed(2);
    const setUp = moved + 1;
    const control = RECIPE.find((each) => each.id === 'bar.sameL' && each.purpose === 'control');
    if (control === undefined) throw new Error('no control');
    const still = simulatedReading(state, work(setUp), control, 0)?.value ?? 0;
    const bumped = simulatedReading(draggedBy(state, { aheadMm: 12 }), work(setUp), control, 0)?.value ?? 0;
    expect(bumped - still).toBeGreaterThan(10);
  });
});

describe('what hands do', () => {
  test('a drag moves only what it names', () => {
    const state = startState(CENTRE, 1);
    const { pose } = draggedBy(state, { leftMm: -25 });
    expect(pose).toEqual({ ...state.pose, left: state.pose.left - 25 });
  });

  test('a move asked for is made nearly, and differently each time', () => {
    const state = startState(CENTRE, 4);
    const { moves } = solved(lap(state, 1), 1);
    const ends = [1, 2, 3].map((round) => movedAsAsked(state, moves, round).pose.ahead);
    expect(new Set(ends).size).toBe(3);
    const goal = requiredPose(CENTRE, 4);
    for (const end of ends) {
      expect(Math.abs(end - goal.ahead)).toBeLessThan(Math.abs(state.pose.ahead - goal.ahead) / 2);
    }
  });
});

describe('what is read off and typed', () => {
  const length = { unit: 'mm' } as const;
  test.each([
    [1234.26, { kind: 'length', numbersIn: 'mm' }, '1234.5'],
    [1234.26, { kind: 'length', numbersIn: 'mm', startsAt: 'hundred' }, '1334.5'],
    [1234.26, { kind: 'length', numbersIn: 'cm' }, '123.45'],
    [1234.44, { kind: 'length', numbersIn: 'in' }, '48.60'],
  ] as const)('%d with %j is %s', (value, entry, text) => {
    expect(shownText(value, length, entry)).toBe(text);
    const back = parseQuantity(text, entry);
    expect(back.ok && Math.abs(back.value.value - value)).toBeLessThan(0.3);
  });

  test('an angle in degrees with two decimals', () => {
    expect(shownText(0.123 * DEG, { unit: 'deg' }, { kind: 'angle', numbersIn: 'deg' })).toBe('0.12');
  });
});
