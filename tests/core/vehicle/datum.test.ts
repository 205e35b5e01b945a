import { describe, expect, test } from 'vitest';
import {
  leftOfCentrelineMm,
  linesDiffer,
  offsetFromLineMm,
  separationMm,
  thrustAngleRad,
  thrustSide,
  toeLengthMm,
  totalToeRad,
} from '../../../core/vehicle/datum.ts';

const DEG = Math.PI / 180;

describe('thrust line from rear toe', () => {
  test('toe of 0.20 left and 0.10 right gives -0.05 degrees, to the car\u2019s right (ISO 8855 sign)', () => {
    expect(thrustAngleRad(0.2 * DEG, 0.1 * DEG) / DEG).toBeCloseTo(-0.05, 12);
    expect(thrustSide(thrustAngleRad(0.2 * DEG, 0.1 * DEG))).toBe('carRight');
  });
  test('equal toes leave the thrust line on the centreline', () => {
    expect(thrustAngleRad(0.17 * DEG, 0.17 * DEG)).toBe(0);
    expect(thrustSide(0)).toBe('none');
  });
  test('toe-in on the left and as much toe-out on the right: no total toe, the whole angle to the car\u2019s right', () => {
    expect(totalToeRad(0.1 * DEG, -0.1 * DEG)).toBeCloseTo(0, 12);
    expect(thrustAngleRad(0.1 * DEG, -0.1 * DEG) / DEG).toBeCloseTo(-0.1, 12);
  });
  test('total toe is the sum of both sides', () => {
    expect(totalToeRad(0.2 * DEG, 0.1 * DEG) / DEG).toBeCloseTo(0.3, 12);
  });
});

describe('lines and offsets', () => {
  test('from the centreline the offset is what lies left', () => {
    expect(offsetFromLineMm(5000, 123, 0)).toBe(123);
  });
  test('from a line that runs to the left a place on the centreline lies to the right: negative', () => {
    expect(offsetFromLineMm(5000, 0, 0.1 * DEG)).toBeCloseTo(-8.7266, 3);
  });
  test('the place with a given offset has that offset', () => {
    for (const [ahead, offset, line] of [
      [5000, 0, 0.002],
      [-2600, 550, -0.004],
      [4200, -550, 0.01],
    ] as const) {
      const left = leftOfCentrelineMm(ahead, offset, line);
      expect(offsetFromLineMm(ahead, left, line)).toBeCloseTo(offset, 9);
    }
  });
  test.each([
    [0.05, 1000, 0.873],
    [0.05, 1500, 1.309],
    [0.05, 3000, 2.618],
    [0.1, 3000, 5.236],
    [0.5, 3000, 26.181],
    [0.1, 5000, 8.727],
  ])('lines %f degrees apart are apart at %f mm by %f mm', (angle, at, apart) => {
    expect(separationMm(angle * DEG, at)).toBeCloseTo(apart, 3);
    expect(separationMm(-angle * DEG, at)).toBeCloseTo(apart, 3);
  });
  test.each([
    [0.05, 406.4, 0.3547],
    [0.1, 406.4, 0.7093],
    [0.25, 406.4, 1.7732],
    [0.1, 631.9, 1.1029],
  ])('toe of %f degrees at a diameter of %f mm is %f mm', (toe, diameter, lengthMm) => {
    expect(toeLengthMm(toe * DEG, diameter)).toBeCloseTo(lengthMm, 4);
  });
  test('lines differ when their angle exceeds its U, either way', () => {
    expect(linesDiffer(0.06 * DEG, 0.05 * DEG)).toBe(true);
    expect(linesDiffer(-0.06 * DEG, 0.05 * DEG)).toBe(true);
    expect(linesDiffer(0.04 * DEG, 0.05 * DEG)).toBe(false);
  });
});
