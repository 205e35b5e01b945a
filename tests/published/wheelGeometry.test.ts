/**
 * Wheel angles and slopes against values from outside. Two signs of the thrust angle are in print: one vehicle maker's service
 * description has (left - right) / 2, positive to the right; another maker's manual has (right - left) / 2, whose sign is the
 * yaw of ISO 8855. Small angles and cosine error: arithmetic, recomputed. Axes: ISO 8855:2011 (X ahead, Y left, Z up; yaw
 * positive to the left).
 */
import { describe, expect, test } from 'vitest';
import { contactPlane } from '../../core/bay/contactPlane.ts';
import { slopesOf } from '../../core/bay/weightedPlane.ts';
import { atWheels } from '../../core/bay/wheels.ts';
import { degFromRad, radFromDeg } from '../../core/units.ts';
import { bodyAttitude } from '../../core/vehicle/bodyAttitude.ts';
import { sideKnowledge, thrustLineFromHeadings } from '../../core/vehicle/datumLine.ts';
import { independentPlaces } from '../../core/vehicle/knownPlaces.ts';
import { differenceAtMm, lineDifference } from '../../core/vehicle/lineDifference.ts';
import { axleGeometry, type WheelReadings } from '../../core/vehicle/wheelGeometry.ts';

const EXACT = { uToeRad: 0, uCamberRad: 0, dof: 1, uLineRad: 0, overRad: 0, runOutLimitRad: 0 };

/** A wheel read twice half a turn apart, with a run-out that must drop out. */
const wheel = (toeDeg: number, runOutDeg: number): WheelReadings => ({
  toe: { firstRad: radFromDeg(toeDeg + runOutDeg), secondRad: radFromDeg(toeDeg - runOutDeg) },
});

describe('toe and thrust in the two printed conventions', () => {
  // left, right, total, positive to the right, positive to the left; degrees
  test.each([
    [0.2, 0.1, 0.3, 0.05, -0.05],
    [0.1, -0.1, 0, 0.1, -0.1],
    [0.15, 0.15, 0.3, 0, 0],
  ])('left %d, right %d: total %d, thrust %d or %d', (left, right, total, toRight, toLeft) => {
    const found = axleGeometry(wheel(left, 0.31), wheel(right, -0.17), EXACT);
    expect(degFromRad(found.totalToe.rad)).toBeCloseTo(total, 12);
    expect(degFromRad(found.thrustPositiveRight.rad)).toBeCloseTo(toRight, 12);
    expect(degFromRad(found.thrust.rad)).toBeCloseTo(toLeft, 12);
  });

  test('the thrust line turns to the left for a positive angle, as yaw does, and carries the side position with it', () => {
    const { thrust } = axleGeometry(wheel(-0.1, 0), wheel(0.1, 0), EXACT);
    const place = (yMm: number) => ({ xMm: 0, yMm, uXMm: 0, uYMm: 0 });
    const hubs = independentPlaces(['RL', 'RR'], { RL: place(750), RR: place(-750) });
    const line = thrustLineFromHeadings(hubs, { headingRad: thrust.rad, uRad: radFromDeg(0.1), dof: 50 });
    expect(line.ok && degFromRad(line.value.headingRad)).toBeCloseTo(0.1, 12);
    // u of 0.1 deg at 5 m: 8.727 mm as an arc.
    expect(line.ok && sideKnowledge(line.value, 5000).u).toBeCloseTo(8.7266, 3);
  });
});

describe('a line off by an angle, at a distance', () => {
  test.each([
    [0.05, 0.873, 1.309, 2.618],
    [0.1, 1.745, 2.618, 5.236],
    [0.5, 8.727, 13.09, 26.181],
  ])('%d deg at 1, 1.5 and 3 m', (degrees, ...offsets) => {
    const exact = (headingRad: number) => ({ headingRad, uRad: 0, dof: 1 });
    const difference = lineDifference(exact(0), exact(radFromDeg(degrees)));
    [1000, 1500, 3000].forEach((distance, i) => {
      expect(differenceAtMm(difference, distance).toFixed(3)).toBe(offsets[i]?.toFixed(3));
    });
  });
});

describe('slopes as angles', () => {
  // mm/m, degrees
  const rows = [
    [1, 0.057296],
    [2, 0.114591],
    [5, 0.286477],
    [10, 0.572939],
  ] as const;

  test.each(rows)('%d mm/m is %d deg: of the contact plane, and of the body over it', (slope, degrees) => {
    const at = (i: number) => ({ x: i < 2 ? 2600 : 0, y: i % 2 === 0 ? 750 : -750 });
    const rise = (i: number): number => (slope / 1000) * at(i).x;
    const contact = contactPlane(atWheels((_, i) => ({ xMm: at(i).x, yMm: at(i).y, zMm: rise(i), uMm: 0 })));
    const along = contact.ok ? slopesOf(contact.value.plane, 0).along.value : Number.NaN;
    expect(degFromRad(Math.atan(along))).toBeCloseTo(degrees, 6);
    const body = bodyAttitude(
      atWheels((_, i) => ({ aheadMm: at(i).x, leftMm: at(i).y, raisedMm: rise(i), uMm: 0 })),
    );
    // Rising ahead is nose up, which ISO 8855 counts as negative pitch.
    expect(body.ok && degFromRad(body.value.pitch.rad)).toBeCloseTo(-degrees, 6);
  });
});
