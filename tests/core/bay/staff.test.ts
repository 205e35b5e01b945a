import { describe, expect, test } from 'vitest';
import { floorFallMm, floorHeightMm, floorRiseMm } from '../../../core/bay/staff.ts';

describe('a staff under a level plane', () => {
  test('reads more where the floor is lower', () => {
    expect(floorHeightMm(1210)).toBeLessThan(floorHeightMm(1203));
  });
  test('1203 at the front and 1210 at the rear: the floor rises 7 mm to the front', () => {
    expect(floorRiseMm(1203, 1210)).toBe(7);
    expect(floorHeightMm(1203) - floorHeightMm(1210)).toBe(7);
  });
  test('the fall of several places is the largest reading less the smallest', () => {
    expect(floorFallMm([1203, 1210, 1199.5, 1206])).toBe(10.5);
    expect(floorFallMm([1203])).toBe(0);
    expect(floorFallMm([])).toBe(0);
  });
});
