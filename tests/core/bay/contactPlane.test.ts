import { describe, expect, test } from 'vitest';
import { type ContactPlane, contactPlane } from '../../../core/bay/contactPlane.ts';
import { type KnownHeight, slopeToward } from '../../../core/bay/weightedPlane.ts';
import type { AtWheels } from '../../../core/bay/wheels.ts';

/** Contacts of a car with a wheelbase of 2600 and tracks of 1500 mm, its rear axle at x = 0. */
function contacts(FL: number, FR: number, RL: number, RR: number, u = 0.4): AtWheels<KnownHeight> {
  const at = (xMm: number, yMm: number, zMm: number): KnownHeight => ({ xMm, yMm, zMm, uMm: u });
  return { FL: at(2600, 750, FL), FR: at(2600, -750, FR), RL: at(0, 750, RL), RR: at(0, -750, RR) };
}

function found(four: AtWheels<KnownHeight>, uTilt = 0): ContactPlane {
  const plane = contactPlane(four, uTilt);
  if (!plane.ok) throw new Error(plane.error.code);
  return plane.value;
}

describe('the plane of the contact patches', () => {
  test('four on one plane: no rock, nothing open', () => {
    const { plane, rock, aboveMm, slopeSpreadX } = found(contacts(13 + 7.5, 13 - 7.5, 7.5, -7.5));
    expect(plane.slopeX).toBeCloseTo(0.005, 12);
    expect(plane.slopeY).toBeCloseTo(0.01, 12);
    expect(rock.value).toBeCloseTo(0, 9);
    expect(Object.values(aboveMm).every((mm) => Math.abs(mm) < 1e-9)).toBe(true);
    expect(slopeSpreadX).toBeCloseTo(0, 12);
  });

  test('the front left patch 4 mm up: 4 mm of rock, shared out as 1 mm up and down', () => {
    const { plane, rock, aboveMm } = found(contacts(4, 0, 0, 0));
    expect(rock.value).toBeCloseTo(4, 9);
    // Four heights of 0.4 mm with weights 1, 1, 1, 1.
    expect(rock.u).toBeCloseTo(0.8, 9);
    expect(aboveMm.FL).toBeCloseTo(1, 9);
    expect(aboveMm.FR).toBeCloseTo(-1, 9);
    expect(aboveMm.RL).toBeCloseTo(-1, 9);
    expect(aboveMm.RR).toBeCloseTo(1, 9);
    expect(plane.slopeX).toBeCloseTo(2 / 2600, 12);
    expect(plane.slopeY).toBeCloseTo(2 / 1500, 12);
  });

  test('what the rock leaves open: half of it over the wheelbase and over the track, either way', () => {
    const { slopeSpreadX, slopeSpreadY, uDefinitionX } = found(contacts(4, 0, 0, 0));
    expect(slopeSpreadX).toBeCloseTo(2 / 2600, 12);
    expect(slopeSpreadY).toBeCloseTo(2 / 1500, 12);
    expect(uDefinitionX).toBeCloseTo(2 / 2600 / Math.sqrt(3), 12);
  });

  test('the sign of the rock: the other diagonal high is negative; a wheel low at the rear right is like front left low', () => {
    expect(found(contacts(0, 3, 0, 0)).rock.value).toBeCloseTo(-3, 9);
    expect(found(contacts(0, 0, 3, 0)).rock.value).toBeCloseTo(-3, 9);
    expect(found(contacts(0, 0, 0, -2)).rock.value).toBeCloseTo(-2, 9);
  });

  test('unequal tracks: the rock is the front left over the plane of the other three, worked by that plane', () => {
    const at = (xMm: number, yMm: number, zMm: number): KnownHeight => ({ xMm, yMm, zMm, uMm: 0.4 });
    const four = { FL: at(2600, 760, 9), FR: at(2600, -760, 2), RL: at(0, 740, 1), RR: at(0, -740, 3) };
    // Through FR, RL, RR: across (1 - 3) / 1480 = -1/740 a mm; RR to FR: 2600 along and -20 across, from 3 to 2.
    const across = -2 / 1480;
    const along = (2 - 3 - across * -20) / 2600;
    const expected = 9 - (3 + along * 2600 + across * (760 + 740));
    expect(found(four).rock.value).toBeCloseTo(expected, 9);
  });

  test('the tilt of the level plane moves the slopes and not the rock', () => {
    const level = found(contacts(4, 0, 0, 0));
    const tilted = found(contacts(4, 0, 0, 0), 2e-4);
    expect(tilted.rock).toEqual(level.rock);
    const uAlong = slopeToward(level.plane, 0).u;
    expect(slopeToward(tilted.plane, 0).u).toBeCloseTo(Math.hypot(uAlong, 2e-4), 12);
  });

  test('three wheels in a line, or all four, are no car', () => {
    const at = (xMm: number, yMm: number): KnownHeight => ({ xMm, yMm, zMm: 0, uMm: 0.4 });
    const three = { FL: at(2600, 750), FR: at(1300, 750), RL: at(0, 750), RR: at(0, -750) };
    expect(contactPlane(three)).toEqual({ ok: false, error: { code: 'bay/wheelsNotApart' } });
    const four = { FL: at(3, 0), FR: at(2, 0), RL: at(1, 0), RR: at(0, 0) };
    expect(contactPlane(four)).toEqual({ ok: false, error: { code: 'bay/heightsInLine' } });
  });
});
