import { describe, expect, test } from 'vitest';
import { networkSchema } from '../../../core/adjust/network.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { signedTilts } from '../../../core/placement/bodies/tilts.ts';
import { lineExtensionU } from '../../../core/placement/carNetwork.ts';
import { defaultUncertainties, hookUncertaintyMm, splitTapeClass } from '../../../core/placement/defaults.ts';
import type { PlacementInstrument } from '../../../core/placement/equipment.ts';
import { floorWeights } from '../../../core/placement/fixtureNetwork.ts';
import { placementNetwork } from '../../../core/placement/network.ts';
import type { PlacementInput } from '../../../core/placement/placementInput.ts';
import { slotValues } from '../../../core/placement/readings.ts';
import { meanOfRepeats, tapeDistance } from '../../../core/placement/tape.ts';
import { CENTRE, EQUIPMENT, inputOf, SLIDES, SQUARE } from './trueLayout.ts';

const build = (input: PlacementInput) => {
  const built = placementNetwork(input, slotValues(input.readings, input));
  if (!built.ok) throw new Error(built.error.code);
  return built.value;
};

describe('the network', () => {
  const slides = { west: { towardCarLeft: 550, sag: 0 }, east: { towardCarLeft: -550, sag: 0 } };
  const input = inputOf({ ...SQUARE, slides }, [CENTRE, ...SLIDES]);

  test('is a document the adjuster accepts from outside as well', () => {
    const { network } = build(input);
    const parsed = networkSchema.safeParse(JSON.parse(JSON.stringify(network)));
    expect(parsed.success).toBe(true);
  });
  test('holds exactly the freedoms a bay has, so that nothing measured is bent by its frame', () => {
    const solved = solve(build(input).network);
    expect(solved.ok && solved.value.gauge).toEqual([]);
    const { network } = build(input);
    const fixed = network.points
      .flatMap((point) => [point.x, point.y, point.z])
      .filter((each) => each.state === 'fixed');
    expect(fixed).toHaveLength(3);
  });
  test('keeps hub, mark and bar end as different points', () => {
    const { network } = build(input);
    const ids = network.points.map((point) => point.id);
    for (const id of ['@hub.FL', '@mark.FL', '@floorUnder.carLeft']) expect(ids).toContain(id);
    expect(network.bodies[0]?.points.map((point) => point.id)).toEqual([
      '@barEnd.carLeft',
      '@barEnd.carRight',
      '@target',
    ]);
  });
  test('starts where faultless readings put everything: the first step of the adjustment is small', () => {
    const solved = solve(build(input).network);
    expect(solved.ok && solved.value.iterations).toBeLessThanOrEqual(4);
    expect(solved.ok && solved.value.stopReason).toBe('converged');
  });
  test('declares the sides of distances instead of inferring them', () => {
    const { network } = build(input);
    expect(network.sides.map(({ point, side }) => `${point} ${side}`)).toEqual([
      '@mark.FR right',
      '@mark.RR right',
      '@floorUnder.carLeft right',
      '@floorUnder.carRight right',
    ]);
  });
  test('leaves the side open where a station wants the bar on the very line of the points ahead', () => {
    const there = { ...CENTRE, ahead: { value: 3650, from: 'rearAxle' as const } };
    const { network } = build({ ...input, stations: [there] });
    expect(network.sides.map((each) => each.point)).toEqual(['@mark.FR', '@mark.RR']);
  });
});

describe('uncertainty of readings', () => {
  test('a class II tape over 5 m: 1.3 mm over root 3 in all, 0.115 mm a metre of it shared', () => {
    const { scale, ownMm } = splitTapeClass('II', 5000);
    expect(scale * 1000).toBeCloseTo(0.2 / Math.sqrt(3), 12);
    expect(Math.hypot(scale * 5000, ownMm)).toBeCloseTo(0.750555, 6);
  });
  test('a class I tape is better, a class III tape worse, and neither own part is ever imaginary', () => {
    for (let lengthMm = 50; lengthMm < 12000; lengthMm += 49) {
      for (const tapeClass of ['I', 'II', 'III'] as const) {
        expect(splitTapeClass(tapeClass, lengthMm).ownMm).toBeGreaterThan(0);
      }
    }
    expect(splitTapeClass('I', 3000).ownMm).toBeLessThan(splitTapeClass('II', 3000).ownMm);
  });
  test('a hook of class II: 0.2 over root 3', () => {
    expect(hookUncertaintyMm('II')).toBeCloseTo(0.2 / Math.sqrt(3), 12);
  });
  test('a hooked tape shares its hook, a plain one does not', () => {
    const instrument: PlacementInstrument = {
      id: 'T1',
      kind: 'tape',
      resolution: 0.5,
      accuracyClass: 'I',
      hook: true,
    };
    const value = { slot: { id: 'base.L', purpose: 'proof' as const }, value: 2650, count: 1 };
    const work = defaultUncertainties.byWork.best;
    const hooked = tapeDistance('base.L', { ...value, instrument }, 'a', 'b', work);
    expect(hooked).toMatchObject({ scale: 'tape:T1:scale', zero: 'tape:T1:hook' });
    expect(tapeDistance('base.L', value, 'a', 'b', work)).not.toHaveProperty('zero');
  });
  test('repeats lower only what repeats, and a pooled repeatability has 20 degrees of freedom', () => {
    expect(meanOfRepeats([3], 4, 1).u).toBe(5);
    expect(meanOfRepeats([3], 4, 4).u).toBeCloseTo(Math.hypot(3, 2), 12);
    expect(meanOfRepeats([], 4, 1).dof).toBeCloseTo(20, 9);
    // JCGM 100 G.4: 20 x (5 / 4)^4.
    expect(meanOfRepeats([3], 4, 1).dof).toBeCloseTo(20 * (5 / 4) ** 4, 9);
  });
  test('a point on the extension of a line is the worse the farther it lies beyond its mark', () => {
    const work = defaultUncertainties.byWork.careful;
    expect(lineExtensionU(work, 2650, 1)).toBeCloseTo(work.markMm * Math.SQRT2, 3);
    // As far beyond as the marks are apart: root(2^2 + 1^2) of the mark's u, its own mark, and the bend.
    const expected = Math.hypot(work.markMm * Math.sqrt(5), work.markMm, work.linePerMetreMm * 2.65);
    expect(lineExtensionU(work, 2650, 2650)).toBeCloseTo(expected, 9);
  });
});

describe('the fixture in its own frame', () => {
  const values = (pitch: 'towardCar' | 'awayFromCar', roll: 'carLeftLow' | 'carRightLow') => {
    const input = inputOf(SQUARE);
    const readings = input.readings.map((each) => {
      if (each.id === 'fixture.pitch') return { ...each, value: 0.01, direction: pitch };
      if (each.id === 'fixture.roll') return { ...each, value: 0.02, direction: roll };
      return each;
    });
    return slotValues(readings, input);
  };
  test("ahead of the car its Y is the car's right: car's-left end low lifts Y, roll +", () => {
    expect(signedTilts(values('towardCar', 'carLeftLow'), Math.PI)).toEqual({
      ok: true,
      value: { pitchRad: 0.01, rollRad: 0.02 },
    });
  });
  test("behind the car its Y is the car's left: car's-left end low is roll -", () => {
    expect(signedTilts(values('awayFromCar', 'carLeftLow'), 0)).toEqual({
      ok: true,
      value: { pitchRad: -0.01, rollRad: -0.02 },
    });
  });
  test('the floor under the target lies between the bar ends in proportion', () => {
    expect(floorWeights(2000, 0)).toEqual({ carLeft: 0.5, carRight: 0.5 });
    expect(floorWeights(2000, 500)).toEqual({ carLeft: 0.75, carRight: 0.25 });
    expect(floorWeights(2000, -1000)).toEqual({ carLeft: 0, carRight: 1 });
  });
  test('exact side arms and an exact bar are constraints, not endless weights', () => {
    const exact = {
      ...EQUIPMENT,
      sideArms: { left: { mm: 280, uMm: 0 }, right: { mm: 280, uMm: 0 } },
      fixture: { barLength: { mm: 2000, uMm: 0 }, face: { ...EQUIPMENT.fixture.face, uMm: 0 } },
    };
    const solved = solve(build(inputOf(SQUARE, [CENTRE], { equipment: exact })).network);
    expect(solved.ok).toBe(true);
  });
});
