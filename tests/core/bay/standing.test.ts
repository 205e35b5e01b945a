import { describe, expect, test } from 'vitest';
import { type SurveyedFloor, surveyedFloor } from '../../../core/bay/floorSurvey.ts';
import { type FloorSpot, type Standing, standingOn } from '../../../core/bay/standing.ts';
import { atWheels } from '../../../core/bay/wheels.ts';
import { entry } from '../../../core/linalg/matrix.ts';
import { fixtureSetting } from '../../../core/vehicle/fixtureSetting.ts';

/** A floor of 8 by 4 m read every metre, rising 4 mm/m along and 1 mm/m across. */
function floor(uTilt = 0): SurveyedFloor {
  const xsMm = Array.from({ length: 9 }, (_, i) => 1000 * i);
  const ysMm = Array.from({ length: 5 }, (_, i) => 1000 * i);
  const heightsMm = ysMm.map((y) => xsMm.map((x) => 0.004 * x + 0.001 * y));
  const found = surveyedFloor({ xsMm, ysMm, heightsMm, uHeightMm: 0.4, uTilt });
  if (!found.ok) throw new Error(found.error.code);
  return found.value;
}

const wheels = atWheels((_, i): FloorSpot => ({ xMm: i < 2 ? 3600 : 1000, yMm: i % 2 === 0 ? 2750 : 1250 }));

function standing(foot: FloorSpot = { xMm: 6000, yMm: 2000 }): Standing {
  const found = standingOn(floor(1e-4), wheels, foot);
  if (!found.ok) throw new Error(found.error.code);
  return found.value;
}

describe('car and fixture on a surveyed floor', () => {
  test('heights and u where they stand', () => {
    const { contacts, foot, uTilt } = standing();
    expect(contacts.FL.zMm).toBeCloseTo(0.004 * 3600 + 0.001 * 2750, 9);
    expect(foot).toEqual({ xMm: 6000, yMm: 2000, zMm: expect.closeTo(26, 9), uMm: expect.closeTo(0.4, 9) });
    // On a grid line, a quarter of the way between two readings: 0.4 sqrt(1/16 + 9/16).
    expect(contacts.RL.uMm).toBeCloseTo(0.4 * Math.sqrt(10 / 16), 9);
    expect(uTilt).toBe(1e-4);
  });

  test('a foot in the same cell as a wheel shares its readings', () => {
    const { covariance } = standing({ xMm: 3400, yMm: 2250 });
    expect(entry(covariance, 0, 4)).toBeGreaterThan(0.02);
    expect(entry(covariance, 2, 4)).toBe(0);
  });

  test('a wheel or the fixture off the survey is named', () => {
    expect(standingOn(floor(), wheels, { xMm: 8200, yMm: 2000 })).toEqual({
      ok: false,
      error: { code: 'bay/outsideSurvey', place: 'fixture', byMm: 200 },
    });
    const off = { ...wheels, RR: { xMm: 1000, yMm: -50 } };
    expect(standingOn(floor(), off, { xMm: 6000, yMm: 2000 })).toMatchObject({
      error: { place: 'RR', byMm: 50 },
    });
  });

  test('the setting from a survey: one plane under both, so the number is the level one; what is shared counts', () => {
    const set = (foot: FloorSpot, withShared: boolean) => {
      const { contacts, foot: under, covariance, uTilt } = standing(foot);
      const found = fixtureSetting({
        hubs: atWheels(
          (wheel) => [contacts[wheel].xMm, contacts[wheel].yMm, contacts[wheel].zMm + 300] as const,
        ),
        contacts,
        foot: under,
        ...(withShared ? { covariance } : {}),
        uTilt,
        required: {
          aheadMm: foot.xMm - 1000,
          leftMm: 0,
          upMm: 1300,
          yawRad: Math.PI,
          pitchRad: 0,
          rollRad: 0,
        },
        zeroAboveFootMm: 0,
        uZeroMm: 0,
      });
      if (!found.ok) throw new Error(found.error.code);
      return found.value;
    };
    const far = { xMm: 6000, yMm: 2000 };
    expect(set(far, true).overLevelMm).toBeCloseTo(0, 1);
    // The wheels of an axle share readings of the grid line between them: they err together, which counting apart hides.
    expect(set(far, true).scale.u).toBeGreaterThan(set(far, false).scale.u + 0.01);
    // A foot in the cell of the front left wheel: its height moves with the plane's.
    const near = { xMm: 3400, yMm: 2250 };
    expect(set(near, true).scale.u).toBeLessThan(set(near, false).scale.u - 0.005);
  });
});
