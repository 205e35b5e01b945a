import { describe, expect, test } from 'vitest';
import { consequenceOf } from '../../../core/placement/consequence.ts';
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
