import { describe, expect, test } from 'vitest';
import { atWheels } from '../../../core/bay/wheels.ts';
import { degFromRad, mmPerMFromRad, radFromDeg } from '../../../core/units.ts';
import {
  type FixtureSetting,
  type FixtureSettingInput,
  fixtureSetting,
} from '../../../core/vehicle/fixtureSetting.ts';
import { settingSentences } from '../../../core/vehicle/lineWords.ts';
import { say, wordFaults } from '../../../core/words/index.ts';

/** A car on a floor of the given height, and a target 5 m ahead of its rear axle, 1300 up, looking at the car. */
function input(
  floor: (x: number, y: number) => number,
  over: Partial<FixtureSettingInput> = {},
): FixtureSettingInput {
  const x = (i: number): number => (i < 2 ? 2600 : 0);
  const y = (i: number): number => (i % 2 === 0 ? 750 : -750);
  return {
    hubs: atWheels((_, i) => [x(i), y(i), floor(x(i), y(i)) + 300] as const),
    contacts: atWheels((_, i) => ({ xMm: x(i), yMm: y(i), zMm: floor(x(i), y(i)), uMm: 0.4 })),
    foot: { xMm: 5000, yMm: 0, zMm: floor(5000, 0), uMm: 0.4 },
    uTilt: 0,
    required: { aheadMm: 5000, leftMm: 0, upMm: 1300, yawRad: Math.PI, pitchRad: 0, rollRad: 0 },
    zeroAboveFootMm: 0,
    uZeroMm: 0,
    ...over,
  };
}

function setting(of: FixtureSettingInput): FixtureSetting {
  const found = fixtureSetting(of);
  if (!found.ok) throw new Error(found.error.code);
  return found.value;
}

describe('the number to set on the fixture', () => {
  test("a level floor: the procedure's own number, upright", () => {
    const { scale, pitch, roll, overLevelMm } = setting(input(() => 40));
    expect(scale.value).toBeCloseTo(1300, 9);
    expect(pitch.value).toBeCloseTo(0, 12);
    expect(roll.value).toBeCloseTo(0, 12);
    expect(overLevelMm).toBeCloseTo(0, 9);
  });

  test('one plane under car and fixture: the number is nearly the same, the face leans with the floor', () => {
    // The floor falls 5 mm/m ahead: a car nose down. Its up leans ahead, away from where the target looks.
    const { scale, pitch, faceCentre } = setting(input((x) => -0.005 * x));
    const cosine = 1 / Math.hypot(1, 0.005);
    // From the origin 5000 along the plane and 1300 along its normal, which leans ahead.
    const sine = 0.005 * cosine;
    // The rear midpoint's foot on the plane: from (0, 300 up) back along the normal.
    const originX = -300 * cosine * sine;
    const originZ = -0.005 * originX;
    const x = originX + 5000 * cosine + 1300 * sine;
    const z = originZ - 5000 * sine + 1300 * cosine;
    expect(faceCentre[0]).toBeCloseTo(x, 6);
    expect(scale.value).toBeCloseTo(z + 25, 6);
    // Looking at the car, its face square to the car's plane looks up the slope: top away from the car.
    expect(mmPerMFromRad(pitch.value)).toBeCloseTo(-5, 6);
  });

  test('a fixture on a step 8 mm lower than the plane of the wheels reads 8 mm more', () => {
    const { scale, overLevelMm } = setting(input((x) => (x > 4000 ? -8 : 0)));
    expect(scale.value).toBeCloseTo(1308, 9);
    expect(overLevelMm).toBeCloseTo(8, 9);
  });

  test('car nose down by 5 mm/m on a ramp, fixture on level floor at the height of the rear axle: 25 mm less', () => {
    const { scale } = setting(input((x) => (x > 4000 ? 0 : -0.005 * x)));
    // 1300 - 25, less what the lean of the normal takes: under 0.02 mm.
    expect(scale.value).toBeCloseTo(1275, 1);
  });

  test('a scale that starts 220 mm over the floor shows 220 less', () => {
    const { scale, overLevelMm } = setting(input(() => 40, { zeroAboveFootMm: 220, uZeroMm: 0.3 }));
    expect(scale.value).toBeCloseTo(1080, 9);
    expect(overLevelMm).toBeCloseTo(0, 9);
    expect(scale.lines.find((l) => l.input.id === 'scale zero')?.u).toBeCloseTo(0.3, 9);
  });

  test('a floor that rises to the left of the car by 10 mm/m: the bar follows, its car-left end up', () => {
    const { roll } = setting(input((_, y) => 0.01 * y));
    // Facing the car, the fixture's own left is the car's right, which is the low side: roll negative.
    expect(mmPerMFromRad(roll.value)).toBeCloseTo(-10, 3);
  });

  test('a required lean of its own is kept, over the slope', () => {
    const required = { ...input(() => 0).required, pitchRad: radFromDeg(2) };
    const level = setting(input(() => 0, { required }));
    expect(degFromRad(level.pitch.value)).toBeCloseTo(2, 9);
    const sloped = setting(input((x) => -0.005 * x, { required }));
    expect(degFromRad(sloped.pitch.value)).toBeCloseTo(2 - degFromRad(Math.atan(0.005)), 6);
  });
});

describe('its uncertainty', () => {
  test('by hand on a level floor: the plane carried to the target, and the foot', () => {
    const { scale, pitch } = setting(input(() => 0));
    // Plane at its middle 0.2, slope 0.4 / 2600, target 3700 beyond the middle; foot 0.4.
    const plane = Math.hypot(0.2, (3700 * 0.4) / 2600);
    expect(scale.u).toBeCloseTo(Math.hypot(plane, 0.4), 3);
    expect(pitch.u).toBeCloseTo(0.4 / 2600, 6);
    expect(scale.U).toBeCloseTo(2 * scale.u, 4);
  });

  test('the tilt of the level plane drops out of the number and stays in the lean', () => {
    const level = setting(input(() => 0));
    const tilted = setting(input(() => 0, { uTilt: 3e-4 }));
    // 0.3 mm/m over 5 m would be 1.5 mm if it counted; what is left comes from the hubs' and the target's own height.
    expect(Math.abs(tilted.scale.u - level.scale.u)).toBeLessThan(1e-3);
    expect(tilted.pitch.u).toBeCloseTo(Math.hypot(level.pitch.u, 3e-4), 7);
    expect(tilted.roll.u).toBeCloseTo(Math.hypot(level.roll.u, 3e-4), 7);
  });

  test('a car that rocks by 6 mm leaves its plane open: the rock is in the budget', () => {
    const rocking = setting(input((x, y) => (x === 2600 && y > 0 ? 6 : 0)));
    const uAlong = 3 / 2600 / Math.sqrt(3);
    expect(rocking.pitch.u).toBeCloseTo(Math.hypot(0.4 / 2600, uAlong), 5);
    expect(rocking.scale.lines[0]?.input.id).toBe('rock along x');
  });

  test('three wheels in a line, or axles at one place', () => {
    const flat = input(() => 0);
    const line = { ...flat.contacts, FR: { ...flat.contacts.FR, xMm: 1300, yMm: 750 } };
    expect(fixtureSetting({ ...flat, contacts: line })).toMatchObject({
      error: { code: 'bay/wheelsNotApart' },
    });
    const short = { ...flat, hubs: { ...flat.hubs, FL: flat.hubs.RL, FR: flat.hubs.RR } };
    expect(fixtureSetting(short)).toMatchObject({ error: { code: 'vehicle/axlesCoincide' } });
  });
});

describe('in words', () => {
  const said = (floor: (x: number) => number): readonly string[] =>
    settingSentences(setting(input(floor))).map(({ key, values }) => say(key, values));

  test('level: the number and upright; no reason needed', () => {
    expect(said(() => 0)).toEqual([
      "Set the fixture's scale to 1300 mm",
      'Set the target upright, by inclinometer',
    ]);
  });

  test('nose down: less, and the top away from the car; nose up: the top toward it', () => {
    const down = said((x) => (x > 4000 ? 0 : -0.005 * x));
    expect(down[0]).toBe("Set the fixture's scale to 1275 mm");
    expect(down[1]).toBe('Lean the top 0.29° away from the car, by inclinometer');
    expect(down[2]).toMatch(/^That is 25 mm less than on level ground/);
    const up = said((x) => (x > 4000 ? 0 : 0.005 * x));
    expect(up[1]).toMatch(/toward the car/);
    expect(up[2]).toMatch(/^That is 25 mm more/);
    expect([...down, ...up].flatMap((text) => wordFaults(text))).toEqual([]);
  });
});
