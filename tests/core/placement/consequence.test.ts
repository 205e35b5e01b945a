import { describe, expect, test } from 'vitest';
import { aimErrorOf, consequenceOf } from '../../../core/placement/consequence.ts';
import { answerOf, coordinateOf } from './answers.ts';
import { inputOf, SQUARE } from './trueLayout.ts';

const sensor = { aheadMm: 1800, leftMm: 0, upMm: 1300 };
const DEG = Math.PI / 180;

describe('what a deviation may mean down the road', () => {
  test('10 mm to the side of a target 3.2 m before the sensor: 0.179 degrees, 156 mm at 50 m', () => {
    const found = consequenceOf('left', 10, [5000, 0, 1300], sensor);
    expect((found?.aimRad ?? 0) / DEG).toBeCloseTo(0.179, 3);
    expect(found?.metresAt50).toBeCloseTo(0.15625, 6);
  });
  test('the side it deviates to makes no difference', () => {
    const target = [5000, 0, 1300] as const;
    expect(consequenceOf('left', -10, target, sensor)).toEqual(consequenceOf('left', 10, target, sensor));
  });
  test('a turn turns the aim by as much: 0.1 degrees is 87 mm at 50 m', () => {
    const found = consequenceOf('yaw', -0.1 * DEG, [5000, 0, 1300], sensor);
    expect(found?.metresAt50).toBeCloseTo(0.0873, 4);
  });
  test('a distance error of a target in the sensor line shifts nothing, of one 500 mm lower it does', () => {
    expect(consequenceOf('ahead', 20, [5000, 0, 1300], sensor)?.aimRad).toBeCloseTo(0, 12);
    const below = consequenceOf('ahead', 20, [5000, 0, 800], sensor)?.aimRad ?? 0;
    expect(below).toBeCloseTo(Math.atan(500 / 3200) - Math.atan(500 / 3220), 9);
  });
  test('it works for a sensor that looks behind', () => {
    const rear = { aheadMm: -800, leftMm: 0, upMm: 900 };
    expect(consequenceOf('left', 10, [-2800, 0, 900], rear)?.aimRad).toBeCloseTo(Math.atan(10 / 2000), 9);
  });
  test('without a sensor, or with one at the target, nothing is said', () => {
    expect(consequenceOf('left', 10, [5000, 0, 1300], undefined)).toBeUndefined();
    expect(consequenceOf('left', 10, [1800, 0, 1300], sensor)).toBeUndefined();
  });
  test('an answer carries it for every coordinate', () => {
    const answer = answerOf(inputOf({ ...SQUARE, target: { ...SQUARE.target, left: 10 } }));
    expect(coordinateOf(answer, 'left').consequence?.metresAt50).toBeCloseTo(50 * (10 / 3200), 6);
    expect(coordinateOf(answer, 'up').consequence?.metresAt50).toBeCloseTo(0, 6);
  });
});

describe('the aim error of a whole target, camera and radar', () => {
  const none = { ahead: 0, left: 0, up: 0, yaw: 0, pitch: 0, roll: 0 };
  const target = [5000, 0, 1300] as const;
  const aim = (
    source: Parameters<typeof aimErrorOf>[0],
    change: Partial<typeof none>,
    at: readonly [number, number, number] = target,
    from = sensor,
  ) => {
    const found = aimErrorOf(source, { ...none, ...change }, at, from);
    if (found === undefined) throw new Error('no aim');
    return found;
  };

  test('10 mm to the left and 8 mm up at 3.2 m: 0.179 and 0.143 degrees, 156 and 125 mm at 50 m', () => {
    const found = aim('camera', { left: 10, up: 8 });
    expect(found.sidewaysRad / DEG).toBeCloseTo(0.17905, 5);
    expect(found.sidewaysMetresAt50).toBeCloseTo(0.15625, 6);
    expect(found.upRad / DEG).toBeCloseTo(0.14324, 4);
    expect(found.upMetresAt50).toBeCloseTo(0.125, 4);
  });
  test('keeps its signs: to the right and down are less than nothing', () => {
    const found = aim('radarReflector', { left: -10, up: -8 });
    expect(found.sidewaysMetresAt50).toBeCloseTo(-0.15625, 6);
    expect(found.upMetresAt50).toBeCloseTo(-0.125, 4);
  });
  test('a radar before a plate takes its turn and lean, 0.5 degrees are 436 mm, and no place', () => {
    const moved = aim('radarPlate', { left: 40, up: 30, ahead: -20 });
    expect(Math.abs(moved.sidewaysRad) + Math.abs(moved.upRad)).toBe(0);
    const turned = aim('radarPlate', { yaw: 0.5 * DEG });
    expect(turned.sidewaysMetresAt50).toBeCloseTo(50 * Math.tan(0.5 * DEG), 9);
    expect(turned.sidewaysMetresAt50).toBeCloseTo(0.4363, 4);
    // Pitch is nose down: it points the normal's line, which the radar takes, down the road.
    expect(aim('radarPlate', { pitch: 0.5 * DEG }).upMetresAt50).toBeCloseTo(-0.4363, 4);
  });
  test('a radar before a reflector takes its place and no turn', () => {
    expect(aim('radarReflector', { yaw: 2 * DEG, pitch: 1 * DEG }).sidewaysRad).toBe(0);
  });
  test('a camera the larger of both, each way', () => {
    const found = aim('camera', { left: 10, yaw: -0.5 * DEG, up: 20, pitch: 0.1 * DEG });
    expect(found.sidewaysRad / DEG).toBeCloseTo(-0.5, 9);
    expect(found.upRad).toBeCloseTo(Math.atan(20 / Math.hypot(3200, 10)), 9);
  });
  test('of a corner target only what lies across the way to it turns the aim', () => {
    const corner = { aheadMm: -700, leftMm: 600, upMm: 600 };
    // The target stands 2 m away at 135 degrees; a push along the way turns nothing, one across it by 10 / 2000.
    const root = Math.SQRT1_2;
    const at = [-700 - 2000 * root, 600 + 2000 * root, 600] as const;
    expect(aim('radarReflector', { ahead: -10 * root, left: 10 * root }, at, corner).sidewaysRad).toBeCloseTo(
      0,
      9,
    );
    const across = aim('radarReflector', { ahead: -10 * root, left: -10 * root }, at, corner);
    expect(across.sidewaysRad).toBeCloseTo(Math.atan(10 / 2000), 9);
  });
  test('looking straight behind, a step across the half turn is no jump', () => {
    const rear = { aheadMm: -800, leftMm: 0, upMm: 900 };
    const found = aim('radarReflector', { left: -10 }, [-2800, 0.001, 900], rear);
    // To the car's right of one who looks behind is a turn to the left seen from above.
    expect(found.sidewaysRad).toBeCloseTo(Math.atan(10 / 2000), 6);
  });
  test('without a sensor, or with one at the target, nothing is said', () => {
    expect(aimErrorOf('camera', none, target, undefined)).toBeUndefined();
    expect(aimErrorOf('camera', none, [1800, 0, 1300], sensor)).toBeUndefined();
  });
});
