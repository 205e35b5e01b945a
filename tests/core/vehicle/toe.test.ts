import { describe, expect, test } from 'vitest';
import { radFromDeg } from '../../../core/units.ts';
import { camberFromRimRad, crossCamberRad } from '../../../core/vehicle/camber.ts';
import { rearHeading, runOutLeftRad, withoutRunOut } from '../../../core/vehicle/runOut.ts';
import {
  axleHeadingRad,
  headingFromToeRad,
  toeFromRimRad,
  toeFromRimUncertaintyRad,
  totalToeLengthMm,
} from '../../../core/vehicle/toe.ts';

/** Gap between an outside line and a point of a rim of this radius, the wheel turned in by `toe`, at `angle` along it. */
function gapMm(toeRad: number, radiusMm: number, ahead: boolean): number {
  return 200 + (ahead ? 1 : -1) * radiusMm * Math.sin(toeRad);
}

describe('toe from rim readings', () => {
  test('a wheel turned in: its front is farther from the outside line, and the angle comes back exactly', () => {
    for (const degrees of [0.05, 0.3, -0.2, 4]) {
      const toe = radFromDeg(degrees);
      const found = toeFromRimRad(gapMm(toe, 203.2, true), gapMm(toe, 203.2, false), 406.4);
      expect(found).toBeCloseTo(toe, 13);
    }
  });

  test('half a millimetre in each gap over 406.4 mm is 0.1 degrees of u', () => {
    expect(toeFromRimUncertaintyRad(0.5, 406.4)).toBeCloseTo(radFromDeg(0.0997), 6);
  });

  test('gaps that no rim can have are bugs', () => {
    expect(() => toeFromRimRad(700, 200, 406.4)).toThrow(/gaps/);
    expect(() => toeFromRimRad(1, 1, 0)).toThrow(/gaps/);
  });

  test('toe-in turns the left wheel to the right and the right wheel to the left; the mean is the thrust', () => {
    const toe = { leftRad: radFromDeg(0.2), rightRad: radFromDeg(0.1) };
    const left = headingFromToeRad(toe.leftRad, 'left');
    const right = headingFromToeRad(toe.rightRad, 'right');
    expect(left).toBeLessThan(0);
    expect(right).toBeGreaterThan(0);
    expect((left + right) / 2).toBeCloseTo(axleHeadingRad(toe, 'positiveLeft'), 14);
  });

  test('mirroring the car swaps the toes, keeps their total and turns the thrust round', () => {
    const toe = { leftRad: 0.004, rightRad: -0.001 };
    const mirrored = { leftRad: toe.rightRad, rightRad: toe.leftRad };
    expect(totalToeLengthMm(mirrored, 400)).toBeCloseTo(totalToeLengthMm(toe, 400), 14);
    for (const convention of ['positiveLeft', 'positiveRight'] as const) {
      expect(axleHeadingRad(mirrored, convention)).toBeCloseTo(-axleHeadingRad(toe, convention), 14);
    }
  });
});

describe('run-out', () => {
  test('two readings half a turn apart: the mean is free of it, half the difference is it', () => {
    const [true_, runOut] = [radFromDeg(0.12), radFromDeg(0.35)];
    const found = withoutRunOut({ firstRad: true_ + runOut, secondRad: true_ - runOut }, radFromDeg(0.1));
    expect(found.angleRad).toBeCloseTo(true_, 14);
    expect(found.runOutRad).toBeCloseTo(runOut, 14);
    expect(found.uRad).toBeCloseTo(radFromDeg(0.0707106781), 10);
  });

  test('whatever the wheel stood at first, half a turn on removes a run-out that turns with it', () => {
    const [true_, runOut] = [0.002, 0.006];
    for (const phase of [0, 0.4, 1.9, 3.3, 5]) {
      const at = (turn: number): number => true_ + runOut * Math.cos(phase + turn);
      const half = withoutRunOut({ firstRad: at(0), secondRad: at(Math.PI) }, 0);
      expect(half.angleRad).toBeCloseTo(true_, 14);
      // Ten degrees past half a turn: never more left than is said.
      const over = radFromDeg(10);
      const past = withoutRunOut({ firstRad: at(0), secondRad: at(Math.PI + over) }, 0);
      expect(Math.abs(past.angleRad - true_)).toBeLessThanOrEqual(runOutLeftRad(runOut, over) + 1e-15);
    }
    expect(runOutLeftRad(1, radFromDeg(10))).toBeCloseTo(0.0872, 4);
    expect(runOutLeftRad(1, 0)).toBe(0);
  });

  test('the rear axle: heading to the left, total toe, and their u', () => {
    const left = withoutRunOut({ firstRad: 0.004, secondRad: 0.002 }, 0.001);
    const right = withoutRunOut({ firstRad: 0.002, secondRad: 0 }, 0.001);
    const found = rearHeading(left, right);
    expect(found.headingRad).toBeCloseTo(-0.001, 14);
    expect(found.totalToeRad).toBeCloseTo(0.004, 14);
    // Four readings of 0.001 each: the mean heading has half of one, the total toe one.
    expect(found.uRad).toBeCloseTo(0.0005, 14);
    expect(found.totalToeURad).toBeCloseTo(0.001, 14);
  });
});

describe('camber', () => {
  test('top nearer the upright leans outward: positive, and exact', () => {
    const camber = radFromDeg(-1.2);
    const reach = 200 * Math.sin(camber);
    expect(camberFromRimRad(150 - reach, 150 + reach, 400)).toBeCloseTo(camber, 13);
    expect(camberFromRimRad(148, 152, 400)).toBeGreaterThan(0);
  });

  test('a floor falling to this side leans the wheel outward without camber', () => {
    const fall = radFromDeg(0.5);
    const reach = 200 * Math.sin(fall);
    expect(camberFromRimRad(150 - reach, 150 + reach, 400, fall)).toBeCloseTo(0, 13);
  });

  test('the difference of the sides, and gaps no rim can have', () => {
    expect(crossCamberRad(0.01, 0.004)).toBeCloseTo(0.006, 14);
    expect(() => camberFromRimRad(0, 500, 400)).toThrow(/gaps/);
  });
});
