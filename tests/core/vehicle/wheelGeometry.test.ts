import { describe, expect, test } from 'vitest';
import { radFromDeg } from '../../../core/units.ts';
import {
  axleGeometry,
  axleHeading,
  type RimQuality,
  type WheelReadings,
} from '../../../core/vehicle/wheelGeometry.ts';

/** 0.5 mm in each gap over 406.4 mm is 0.0997 deg; a line laid out to 0.02 deg; half a turn exactly met. */
const QUALITY: RimQuality = {
  uToeRad: radFromDeg(0.1),
  uCamberRad: radFromDeg(0.08),
  dof: 20,
  uLineRad: radFromDeg(0.02),
  overRad: 0,
  runOutLimitRad: 0,
};

const wheel = (toe: readonly [number, number], camber?: readonly [number, number]): WheelReadings => ({
  toe: { firstRad: radFromDeg(toe[0]), secondRad: radFromDeg(toe[1]) },
  ...(camber === undefined
    ? {}
    : { camber: { firstRad: radFromDeg(camber[0]), secondRad: radFromDeg(camber[1]) } }),
});

describe('an axle from rim readings', () => {
  test('run-out removed from each wheel; toe, total, thrust in either sign', () => {
    // True toes 0.20 and 0.10 deg; run-outs 0.35 and 0.15.
    const found = axleGeometry(wheel([0.55, -0.15]), wheel([0.25, -0.05]), QUALITY);
    expect(found.toeLeft.rad).toBeCloseTo(radFromDeg(0.2), 14);
    expect(found.toeRight.rad).toBeCloseTo(radFromDeg(0.1), 14);
    expect(found.totalToe.rad).toBeCloseTo(radFromDeg(0.3), 14);
    expect(found.thrust.rad).toBeCloseTo(radFromDeg(-0.05), 14);
    expect(found.thrustPositiveRight.rad).toBeCloseTo(radFromDeg(0.05), 14);
    expect(found.runOutLeftRad).toBeCloseTo(radFromDeg(0.35), 14);
    expect(found.runOutRightRad).toBeCloseTo(radFromDeg(0.1 + 0.05), 14);
  });

  test('u by hand: the line turns the thrust and each toe, and leaves the total', () => {
    const { toeLeft, totalToe, thrust } = axleGeometry(wheel([0.2, 0.2]), wheel([0.1, 0.1]), QUALITY);
    // One wheel: 0.1 / sqrt 2 = 0.07071. With the line 0.02: 0.07348. Total: 0.1. Thrust: 0.05 with 0.02: 0.05385.
    expect(toeLeft.uRad).toBeCloseTo(radFromDeg(0.0734847), 8);
    expect(totalToe.uRad).toBeCloseTo(radFromDeg(0.1), 12);
    expect(thrust.uRad).toBeCloseTo(radFromDeg(0.0538516), 8);
    // Two wheels of 20 dof alike: 40 for the total.
    expect(totalToe.dof).toBeCloseTo(40, 9);
    expect(thrust.dof).toBeGreaterThan(40);
  });

  test('ten degrees past half a turn leave up to 8.7 % of the run-out; the stated limit counts when more', () => {
    const over = { ...QUALITY, overRad: radFromDeg(10) };
    const left = axleGeometry(wheel([0.55, -0.15]), wheel([0.1, 0.1]), over).toeLeft;
    const rest = (0.35 * Math.sin(radFromDeg(5))) / Math.sqrt(3);
    expect(left.uRad).toBeCloseTo(radFromDeg(Math.hypot(0.0734847, rest)), 8);
    const rough = { ...over, runOutLimitRad: radFromDeg(1) };
    const more = axleGeometry(wheel([0.55, -0.15]), wheel([0.1, 0.1]), rough).toeLeft;
    const limit = Math.sin(radFromDeg(5)) / Math.sqrt(3);
    expect(more.uRad).toBeCloseTo(radFromDeg(Math.hypot(0.0734847, limit)), 8);
  });

  test('camber: each side, their difference, its u; absent where it was not read', () => {
    const found = axleGeometry(wheel([0, 0], [-1.1, -1.3]), wheel([0, 0], [-0.8, -0.8]), QUALITY);
    expect(found.camberLeft?.rad).toBeCloseTo(radFromDeg(-1.2), 14);
    expect(found.crossCamber?.rad).toBeCloseTo(radFromDeg(-0.4), 14);
    expect(found.camberLeft?.uRad).toBeCloseTo(radFromDeg(0.08 / Math.SQRT2), 12);
    expect(found.crossCamber?.uRad).toBeCloseTo(radFromDeg(0.08), 12);
    const without = axleGeometry(wheel([0, 0], [1, 1]), wheel([0, 0]), QUALITY);
    expect(without.camberLeft).toBeDefined();
    expect(without.camberRight).toBeUndefined();
    expect(without.crossCamber).toBeUndefined();
  });

  test('as a heading of the bay: the lines plus the thrust, across half a turn too', () => {
    const found = axleGeometry(wheel([-0.1, -0.1]), wheel([0.1, 0.1]), QUALITY);
    const heading = axleHeading(found, radFromDeg(179.95));
    expect(heading.headingRad).toBeCloseTo(radFromDeg(-179.95), 12);
    expect(heading).toMatchObject({ uRad: found.thrust.uRad, dof: found.thrust.dof });
  });
});
