import { describe, expect, test } from 'vitest';
import { type AtWheels, atWheels } from '../../../core/bay/wheels.ts';
import { radFromDeg } from '../../../core/units.ts';
import {
  attitudeFromRideHeights,
  type BodyAttitude,
  bodyAttitude,
  effectAtSensor,
} from '../../../core/vehicle/bodyAttitude.ts';
import {
  loadedRadii,
  loadedRadiusOfSize,
  radiusChangeByPressure,
  type TyreMismatch,
  tyreMismatch,
} from '../../../core/vehicle/loadedRadius.ts';
import { parseTyreSize } from '../../../core/vehicle/tyre.ts';

/** Corners of a body: 2600 apart along, 1500 across; how much each is raised, front left first. */
function raised(mm: readonly [number, number, number, number], uMm = 1): BodyAttitude {
  const found = bodyAttitude(
    atWheels((wheel, i) => ({
      aheadMm: i < 2 ? 2600 : 0,
      leftMm: wheel === 'FL' || wheel === 'RL' ? 750 : -750,
      raisedMm: mm[i] ?? 0,
      uMm,
    })),
  );
  if (!found.ok) throw new Error(found.error.code);
  return found.value;
}

describe('how the body lies over the contact plane', () => {
  test('nose 13 mm down: pitch plus 5 mm/m; left side 15 mm up: roll plus 10 mm/m (ISO 8855 signs)', () => {
    const nose = raised([-13, -13, 0, 0]);
    expect(nose.pitch.rad).toBeCloseTo(Math.atan(0.005), 12);
    expect(nose.roll.rad).toBeCloseTo(0, 12);
    const left = raised([7.5, -7.5, 7.5, -7.5]);
    expect(left.roll.rad).toBeCloseTo(Math.atan(0.01), 12);
    expect(left.pitch.rad).toBeCloseTo(0, 12);
    expect(left.heave.mm).toBeCloseTo(0, 12);
  });

  test('u by hand: 1 mm at each corner: 1/2600 in pitch, 1/1500 in roll, 0.5 mm in heave', () => {
    const { pitch, roll, heave, twist } = raised([0, 0, 0, 0]);
    expect(pitch.uRad).toBeCloseTo(1 / 2600, 12);
    expect(roll.uRad).toBeCloseTo(1 / 1500, 12);
    expect(heave.uMm).toBeCloseTo(0.5, 12);
    expect(twist.uMm).toBeCloseTo(2, 12);
  });

  test('one corner 8 mm up: 2 mm of heave, and 8 mm of twist that no rigid body has', () => {
    const { heave, twist, pitch, roll } = raised([8, 0, 0, 0]);
    expect(heave.mm).toBeCloseTo(2, 12);
    expect(twist.mm).toBe(8);
    expect(pitch.rad).toBeCloseTo(-Math.atan(4 / 2600), 12);
    expect(roll.rad).toBeCloseTo(Math.atan(4 / 1500), 12);
    expect(raised([0, 0, 5, 5]).twist.mm).toBe(0);
  });

  test('ride heights: read minus stated, with both u', () => {
    const found = attitudeFromRideHeights(
      atWheels((wheel, i) => ({
        aheadMm: i < 2 ? 2600 : 0,
        leftMm: wheel === 'FL' || wheel === 'RL' ? 750 : -750,
        readMm: i < 2 ? 652 : 671,
        statedMm: i < 2 ? 665 : 671,
        uReadMm: 0.6,
        uStatedMm: 0.8,
      })),
    );
    expect(found.ok && found.value.pitch.rad).toBeCloseTo(Math.atan(13 / 2600), 12);
    expect(found.ok && found.value.heave.uMm).toBeCloseTo(0.5, 12);
  });

  test('corners at one place', () => {
    const same = { aheadMm: 0, leftMm: 0, raisedMm: 0, uMm: 1 };
    expect(bodyAttitude(atWheels(() => same))).toEqual({
      ok: false,
      error: { code: 'vehicle/cornersNotApart' },
    });
  });
});

describe('what it does at the sensor', () => {
  test('nose 13 mm down: a camera 1.6 m ahead sits lower and looks 0.29 deg down, a quarter of a metre at 50 m', () => {
    const effect = effectAtSensor(raised([-13, -13, 0, 0]), { aheadMm: 1600, leftMm: 0 }, 50);
    expect(effect.raised.mm).toBeCloseTo(-8, 9);
    // At the middle 0.5, at 300 mm from it 300/2600 more.
    expect(effect.raised.uMm).toBeCloseTo(Math.hypot(0.5, 300 / 2600), 9);
    expect(effect.aimUp.rad).toBeCloseTo(-0.005, 6);
    expect(effect.higherMetres).toBeCloseTo(-0.25 - 0.008, 6);
  });

  test('left side up: the picture turns, the aim does not, a sensor at the side rises', () => {
    const effect = effectAtSensor(raised([7.5, -7.5, 7.5, -7.5]), { aheadMm: 3500, leftMm: 600 }, 50);
    expect(effect.turned.rad).toBeCloseTo(Math.atan(0.01), 12);
    expect(effect.aimUp.rad).toBeCloseTo(0, 12);
    expect(effect.raised.mm).toBeCloseTo(6, 9);
    expect(() => effectAtSensor(raised([0, 0, 0, 0]), { aheadMm: 0, leftMm: 0 }, 0)).toThrow(/down the road/);
  });
});

describe('tyres under load', () => {
  const SIZE = parseTyreSize('205/55 R16 91V');
  const size = () => {
    if (!SIZE.ok) throw new Error('a tyre size');
    return SIZE.value;
  };

  test('by the size alone: 0.47 of 631.9, known to 1 % of it', () => {
    const { mm, uMm } = loadedRadiusOfSize(size());
    expect(mm).toBeCloseTo(296.993, 3);
    expect(uMm).toBeCloseTo(6.319 / Math.sqrt(3), 6);
  });

  test('as measured: hub over contact, both u', () => {
    const level = (zMm: number, uMm: number) => atWheels(() => ({ xMm: 0, yMm: 0, zMm, uMm }));
    expect(loadedRadii(level(311, 0.8), level(14, 0.6)).RR).toEqual({ mm: 297, uMm: expect.closeTo(1, 12) });
  });

  test('from 250 to 220 kPa: 18.95 mm of flattening grow by 2.58; back again the other way', () => {
    const softer = radiusChangeByPressure(631.9, 297, 250, 220);
    expect(softer.ok && softer.value.mm).toBeCloseTo(-18.95 * (30 / 220), 9);
    expect(softer.ok && softer.value.uMm).toBeCloseTo((0.3 * 18.95 * 30) / 220 / Math.sqrt(3), 9);
    const harder = radiusChangeByPressure(631.9, 297, 220, 250);
    expect(harder.ok && harder.value.mm).toBeGreaterThan(0);
    const same = radiusChangeByPressure(631.9, 297, 250, 250);
    expect(same.ok && same.value).toEqual({ mm: 0, uMm: 0 });
  });

  test('radii and pressures no car has', () => {
    expect(radiusChangeByPressure(631.9, 320, 250, 220)).toMatchObject({
      error: { code: 'vehicle/radiusImplausible', radiusMm: 320 },
    });
    expect(radiusChangeByPressure(631.9, 200, 250, 220).ok).toBe(false);
    expect(radiusChangeByPressure(631.9, 297, 250, 2.2)).toMatchObject({
      error: { code: 'vehicle/pressureImplausible', pressureKPa: 2.2 },
    });
  });

  const PLACES = { wheelbaseMm: 2600, trackFrontMm: 1500, trackRearMm: 1500 };
  const four = (mm: readonly [number, number, number, number]): AtWheels<{ mm: number; uMm: number }> =>
    atWheels((_, i) => ({ mm: mm[i] ?? 0, uMm: 0.5 }));
  const mismatch = (mm: readonly [number, number, number, number]): TyreMismatch => {
    const found = tyreMismatch(
      four(mm),
      atWheels(() => 297),
      PLACES,
    );
    if (!found.ok) throw new Error(found.error.code);
    return found.value;
  };

  test('both left tyres 3 mm larger: 3 mm across, 0.11 deg of roll, left side up', () => {
    const found = mismatch([300, 297, 300, 297]);
    expect(found.front).toEqual({ mm: 3, uMm: expect.closeTo(0.5 * Math.SQRT2, 12) });
    expect(found.rear.mm).toBe(3);
    expect(found.frontOverRear).toEqual({ mm: 0, uMm: expect.closeTo(0.5, 12) });
    expect(found.attitude.roll.rad).toBeCloseTo(radFromDeg(0.1146), 6);
    expect(found.attitude.pitch.rad).toBeCloseTo(0, 12);
  });

  test('both front tyres 5.2 mm smaller: nose down by 2 mm/m', () => {
    const found = mismatch([291.8, 291.8, 297, 297]);
    expect(found.frontOverRear.mm).toBeCloseTo(-5.2, 9);
    expect(found.attitude.pitch.rad).toBeCloseTo(Math.atan(0.002), 9);
  });

  test('wheels that all stand at one place have no attitude', () => {
    const nowhere = { wheelbaseMm: 0, trackFrontMm: 1500, trackRearMm: 1500 };
    expect(
      tyreMismatch(
        four([1, 1, 1, 1]),
        atWheels(() => 1),
        nowhere,
      ).ok,
    ).toBe(false);
  });
});
