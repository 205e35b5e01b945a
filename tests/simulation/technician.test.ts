/** The simulated people themselves: what they are said to do is what they do. */
import { describe, expect, test } from 'vitest';
import { plannedFor } from '../bench/placementSimulation.ts';
import { SQUARE } from '../core/placement/trueLayout.ts';
import { HABITS, placeClassically } from './classicalWay.ts';
import { drawsFrom } from './draws.ts';
import { placeGuided, putUp } from './guidedLooks.ts';
import { placeByProofSets } from './proofSetsOnly.ts';
import {
  bayFor,
  type Cell,
  CLUMSINESS,
  MOST_ROUNDS,
  madeOf,
  quickPlacement,
  START,
  startPose,
  stationFor,
  trueDeviation,
  trulyWithin,
} from './technician.ts';

const CAREFUL: Cell = { toleranceMm: 10, rule: 'guarded', work: 'careful' };

function spread(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);
}

describe('a simulated technician', () => {
  test('starts within 300 mm and 5 degrees, anywhere in it', () => {
    const draws = drawsFrom(1);
    const found = Array.from({ length: 500 }, () => trueDeviation(startPose(draws)));
    const most = (value: (d: (typeof found)[number]) => number) =>
      Math.max(...found.map((d) => Math.abs(value(d))));
    for (const length of [most((d) => d.ahead), most((d) => d.left), most((d) => d.up)]) {
      expect(length).toBeGreaterThan(0.95 * START.mm);
      expect(length).toBeLessThanOrEqual(START.mm);
    }
    expect(most((d) => d.yaw)).toBeLessThanOrEqual(START.rad);
  });

  test('makes of a move what 5 % and 2 mm leave of it', () => {
    const draws = drawsFrom(2);
    const off = (mm: number) => spread(Array.from({ length: 4000 }, () => madeOf(mm, draws) - mm));
    expect(off(0)).toBeCloseTo(CLUMSINESS.mm, 0);
    expect(Math.abs(off(100) / Math.hypot(5, 2) - 1)).toBeLessThan(0.05);
  });

  test('two readings bring the target to a few centimetres: ahead and the turn by tape, the rest by eye', () => {
    const found = Array.from({ length: 60 }, (_, i) => {
      const draws = drawsFrom(100 + i);
      const bay = bayFor('careful', draws);
      return trueDeviation(quickPlacement(bay, startPose(draws), draws));
    });
    expect(spread(found.map((d) => d.ahead))).toBeLessThan(40);
    expect(spread(found.map((d) => d.left))).toBeLessThan(30);
    expect(spread(found.map((d) => d.yaw))).toBeLessThan(0.03);
    expect(spread(found.map((d) => d.left))).toBeGreaterThan(10);
  });

  test('places a target at 10 mm in few rounds and truly within, and the same way for the same seed', () => {
    const once = (seed: number) => {
      const draws = drawsFrom(seed);
      const bay = bayFor('careful', draws);
      return placeGuided(bay, CAREFUL, startPose(draws), draws);
    };
    const outcomes = Array.from({ length: 12 }, (_, i) => once(500 + i));
    // Readings of the car that contradict each other cost a few rounds: about one placement in twenty.
    expect(outcomes.filter(({ rounds }) => rounds === 1).length).toBeGreaterThanOrEqual(8);
    expect(outcomes.filter(({ rounds }) => (rounds ?? MOST_ROUNDS) <= 2).length).toBeGreaterThanOrEqual(10);
    expect(outcomes.every(({ looks, readings }) => looks >= 3 && readings >= 2 * looks + 7)).toBe(true);
    expect(outcomes.every(({ rounds }) => rounds !== undefined)).toBe(true);
    expect(outcomes.filter(({ within }) => within).length).toBeGreaterThanOrEqual(11);
    expect(once(500)).toEqual(outcomes[0]);
  });

  test('without looks needs more proof sets for the same fixtures', () => {
    const rounds = (way: 'looks' | 'proofSets', seed: number): number => {
      const draws = drawsFrom(seed);
      const bay = bayFor('careful', draws);
      const start = startPose(draws);
      const quick = quickPlacement(bay, start, draws);
      const out =
        way === 'looks'
          ? placeGuided(bay, CAREFUL, start, draws)
          : placeByProofSets(bay, CAREFUL, quick, draws);
      return out.rounds ?? MOST_ROUNDS;
    };
    const sum = (way: 'looks' | 'proofSets'): number =>
      Array.from({ length: 12 }, (_, i) => rounds(way, 700 + i)).reduce((a, b) => a + b, 0);
    expect(sum('looks')).toBeLessThan(0.8 * sum('proofSets'));
  });

  test('puts the fixture up by eye: what is set by sight is near, what is rolled in stays as it was', () => {
    const draws = drawsFrom(3);
    const start = startPose(draws);
    const up = putUp(start, draws);
    expect(up.ahead).toBe(start.ahead);
    expect(up.yaw).toBe(start.yaw);
    expect(Math.abs(up.left - SQUARE.target.left)).toBeLessThan(80);
    expect(Math.abs(up.pitch)).toBeLessThan(0.03);
  });

  test('never proves 3 mm to the left with careful work, as planning says before any reading', () => {
    const cell = { ...CAREFUL, toleranceMm: 3 };
    expect(plannedFor(cell)).toMatchObject({ provable: false, hindered: ['left'] });
    const draws = drawsFrom(9);
    const bay = bayFor('careful', draws);
    expect(placeGuided(bay, cell, SQUARE.target, draws).rounds).toBeUndefined();
  });
});

describe('the classical way', () => {
  test('ends when all looks right, which here it truly is', () => {
    const draws = drawsFrom(11);
    const bay = bayFor('best', draws);
    const quick = quickPlacement(bay, startPose(draws), draws);
    // Surely out of place, however well the quick placement went.
    const start = { ...quick, ahead: SQUARE.target.ahead + 40 };
    expect(trulyWithin(start, stationFor(10))).toBe(false);
    const { rounds, within } = placeClassically(bay, { ...CAREFUL, work: 'best' }, start, draws);
    expect(rounds).toBeGreaterThan(1);
    expect(within).toBe(true);
  });

  test('content with the tolerance itself he is done sooner and right less often; the tape held changes his turns', () => {
    const all = (habit: keyof typeof HABITS) =>
      Array.from({ length: 40 }, (_, i) => {
        const draws = drawsFrom(800 + i);
        const bay = bayFor('careful', draws);
        const quick = quickPlacement(bay, startPose(draws), draws);
        return placeClassically(bay, CAREFUL, quick, drawsFrom(900 + i), HABITS[habit]);
      });
    const passes = (habit: keyof typeof HABITS): number =>
      all(habit).reduce((sum, { rounds }) => sum + (rounds ?? 30), 0);
    const right = (habit: keyof typeof HABITS): number => all(habit).filter(({ within }) => within).length;
    expect(passes('byEyeWide')).toBeLessThan(passes('byEye'));
    expect(right('byEyeWide')).toBeLessThan(right('byEye'));
    expect(all('held')).not.toEqual(all('byEye'));
  });

  test('a target that stands right already needs one pass', () => {
    const draws = drawsFrom(12);
    const bay = bayFor('best', draws);
    const cell = { ...CAREFUL, work: 'best', toleranceMm: 20 } as const;
    expect(placeClassically(bay, cell, SQUARE.target, draws).rounds).toBe(1);
  });
});
