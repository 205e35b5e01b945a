/** Properties of placement over seeded random bays: fast-check with the seed in the name, 100 runs unless said otherwise. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlacementReading } from '../../core/placement/placementReading.ts';
import type { StationRequirement } from '../../core/placement/requirement.ts';
import { solvePlacement } from '../../core/placement/solvePlacement.ts';
import type { TrueLayout } from '../../core/rehearsal/trueBay.ts';
import { answerOf, deviationsOf, stationOf } from '../core/placement/answers.ts';
import { CENTRE, EQUIPMENT, inputOf, SQUARE } from '../core/placement/trueLayout.ts';

const SEED = 20261125;
const DEG = Math.PI / 180;
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Bays as they may really be: slopes to 2 %, cars from 2.2 to 3.6 m wheelbase, fixtures put down by eye. */
const layouts: fc.Arbitrary<TrueLayout> = fc
  .record({
    carAt: fc.tuple(between(-5000, 5000), between(-5000, 5000)),
    carHeading: between(-Math.PI, Math.PI),
    floorSlope: fc.tuple(between(-0.02, 0.02), between(-0.02, 0.02)),
    wheelbase: between(2200, 3600),
    half: fc.tuple(between(700, 850), between(700, 850)),
    skew: between(-8, 8),
    hubUp: between(280, 380),
    armLeft: between(220, 320),
    armRight: between(220, 320),
    beyondAhead: between(800, 1300),
    beyondBehind: between(700, 1300),
    off: fc.record({
      ahead: between(-80, 80),
      left: between(-80, 80),
      up: between(-60, 60),
      yaw: between(-3 * DEG, 3 * DEG),
      pitch: between(-2 * DEG, 2 * DEG),
      roll: between(-2 * DEG, 2 * DEG),
    }),
  })
  .map(({ wheelbase, half, skew, hubUp, off, ...rest }) => ({
    ...SQUARE,
    ...rest,
    hubs: {
      FL: [wheelbase + skew, half[0], hubUp],
      FR: [wheelbase - skew, -half[0], hubUp + 3],
      RL: [-skew / 2, half[1], hubUp - 2],
      RR: [skew / 2, -half[1], hubUp],
    },
    target: {
      ahead: 2350 + wheelbase + off.ahead,
      left: off.left,
      up: 1350 + off.up,
      yaw: Math.PI + off.yaw,
      pitch: off.pitch,
      roll: off.roll,
    },
  }));

/** The station that wants the target 2350 mm before the front axle, and the equipment with the layout's arms. */
const station: StationRequirement = { ...CENTRE, ahead: { value: 2350, from: 'frontAxle' } };
const armed = (layout: TrueLayout) => ({
  ...EQUIPMENT,
  sideArms: { left: { mm: layout.armLeft, uMm: 0.3 }, right: { mm: layout.armRight, uMm: 0.3 } },
});
const readIn = (layout: TrueLayout) => inputOf(layout, [station], { equipment: armed(layout) });

/** The mirror image of a layout in the car's middle plane. */
function mirrored(layout: TrueLayout): TrueLayout {
  const flip = ([a, l, u]: readonly [number, number, number]) => [a, -l, u] as const;
  return {
    ...layout,
    carAt: [layout.carAt[0], -layout.carAt[1]],
    carHeading: -layout.carHeading,
    floorSlope: [layout.floorSlope[0], -layout.floorSlope[1]],
    hubs: {
      FL: flip(layout.hubs.FR),
      FR: flip(layout.hubs.FL),
      RL: flip(layout.hubs.RR),
      RR: flip(layout.hubs.RL),
    },
    armLeft: layout.armRight,
    armRight: layout.armLeft,
    target: {
      ...layout.target,
      left: -layout.target.left,
      yaw: 2 * Math.PI - layout.target.yaw,
      roll: -layout.target.roll,
    },
  };
}

const run = { seed: SEED, numRuns: 100 };

describe(`placement over random bays, seed ${SEED}`, () => {
  test('every bay comes back from its readings within 1e-6 mm and 1e-9 rad', () => {
    fc.assert(
      fc.property(layouts, (layout) => {
        const { target } = stationOf(answerOf(readIn(layout)));
        expect(Math.abs(target.aheadMm - layout.target.ahead)).toBeLessThan(1e-6);
        expect(Math.abs(target.leftMm - layout.target.left)).toBeLessThan(1e-6);
        expect(Math.abs(target.upMm - layout.target.up)).toBeLessThan(1e-6);
        expect(Math.abs(Math.sin(target.yawRad - layout.target.yaw))).toBeLessThan(1e-9);
        expect(Math.abs(target.pitchRad - layout.target.pitch)).toBeLessThan(1e-9);
        expect(Math.abs(target.rollRad - layout.target.roll)).toBeLessThan(1e-9);
      }),
      run,
    );
  });

  test('the mirror image of a bay has mirrored deviations, and no more or less uncertainty', () => {
    fc.assert(
      fc.property(layouts, (layout) => {
        const [here, there] = [answerOf(readIn(layout)), answerOf(readIn(mirrored(layout)))];
        const [a, b] = [deviationsOf(here), deviationsOf(there)];
        for (const coordinate of ['ahead', 'up', 'pitch'] as const) {
          expect(b[coordinate]).toBeCloseTo(a[coordinate], 6);
        }
        for (const coordinate of ['left', 'yaw', 'roll'] as const) {
          expect(b[coordinate]).toBeCloseTo(-a[coordinate], 6);
        }
        stationOf(here).coordinates.forEach(({ u }, i) => {
          expect((stationOf(there).coordinates[i]?.u ?? 0) / u).toBeCloseTo(1, 5);
        });
      }),
      { ...run, numRuns: 50 },
    );
  });

  test('where the car is parked and which way the floor mark lies changes nothing', () => {
    fc.assert(
      fc.property(layouts, between(-3, 3), (layout, turn) => {
        // Turned with its slope, so that the same bay is only looked at from elsewhere.
        const [c, s] = [Math.cos(turn), Math.sin(turn)];
        const elsewhere: TrueLayout = {
          ...layout,
          carAt: [c * layout.carAt[0] - s * layout.carAt[1], s * layout.carAt[0] + c * layout.carAt[1]],
          carHeading: layout.carHeading + turn,
          floorSlope: [
            c * layout.floorSlope[0] - s * layout.floorSlope[1],
            s * layout.floorSlope[0] + c * layout.floorSlope[1],
          ],
        };
        const [a, b] = [deviationsOf(answerOf(readIn(layout))), deviationsOf(answerOf(readIn(elsewhere)))];
        for (const coordinate of ['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const) {
          expect(b[coordinate]).toBeCloseTo(a[coordinate], 6);
        }
      }),
      { ...run, numRuns: 50 },
    );
  });

  test('covariances are symmetric and positive on the diagonal, shares add up to one', () => {
    fc.assert(
      fc.property(layouts, (layout) => {
        const { covariance, coordinates } = stationOf(answerOf(readIn(layout)));
        covariance.forEach((row, i) => {
          expect(row[i]).toBeGreaterThan(0);
          row.forEach((value, j) => {
            expect(value).toBeCloseTo(covariance[j]?.[i] ?? Number.NaN, 9);
          });
        });
        for (const { shares } of coordinates) {
          expect(shares.reduce((sum, each) => sum + each.share, 0)).toBeCloseTo(1, 9);
        }
      }),
      { ...run, numRuns: 50 },
    );
  });

  test('whatever is typed, there is an answer or a typed error, and every number in it is finite', () => {
    const typed = fc.oneof(between(0, 6000), fc.constantFrom(0, 1, 25.4, 1e5, 1e-9));
    const slip = fc.record({ at: fc.nat(26), value: typed });
    const whole = inputOf(SQUARE);
    fc.assert(
      fc.property(fc.array(slip, { minLength: 1, maxLength: 8 }), fc.nat(20), (slips, leftOut) => {
        const readings: PlacementReading[] = whole.readings
          .map((each, i) => {
            const changed = slips.find((one) => one.at === i);
            return changed === undefined ? each : { ...each, value: changed.value };
          })
          .filter((_each, i) => i !== leftOut);
        const answer = solvePlacement({ ...whole, readings });
        if (!answer.ok) {
          expect(answer.error.code).toMatch(/^placement\//);
          return;
        }
        for (const each of answer.value.stations.flatMap((one) => one.coordinates)) {
          expect(Number.isFinite(each.deviation), each.coordinate).toBe(true);
          expect(each.u).toBeGreaterThan(0);
        }
        for (const move of answer.value.moves) expect(move.amountMm).toBeGreaterThanOrEqual(0);
        expect(answer.value.nextAction.wordKey).toMatch(/^(next|move)\./);
      }),
      { ...run, numRuns: 300 },
    );
  });
});
