import { describe, expect, test } from 'vitest';
import * as units from '../../core/units.ts';

/**
 * Small angles and slopes as any table of tangents gives them (computed independently, printed digits typed by
 * hand); tolerance is half a unit of the last digit.
 */
describe('slope to angle', () => {
  test.each([
    [0.1, 0.00573, 0.3438, 20.63],
    [0.2, 0.011459, 0.6875, 41.25],
    [0.3, 0.017189, 1.0313, 61.88],
    [0.5, 0.028648, 1.7189, 103.13],
    [1, 0.057296, 3.4377, 206.26],
    [2, 0.114591, 6.8755, 412.53],
    [3, 0.171887, 10.3132, 618.79],
    [5, 0.286477, 17.1886, 1031.32],
    [10, 0.572939, 34.3763, 2062.58],
  ])('%f mm/m is %f degrees, %f minutes, %f seconds', (slope, degrees, minutes, seconds) => {
    const angle = units.degFromRad(units.radFromMmPerM(slope));
    expect(Math.abs(angle - degrees)).toBeLessThan(0.6e-6);
    expect(Math.abs(angle * 60 - minutes)).toBeLessThan(0.6e-4);
    expect(Math.abs(angle * 3600 - seconds)).toBeLessThan(0.6e-2);
    expect(units.mmPerMFromRad(units.radFromArcminutes(minutes))).toBeCloseTo(slope, 4);
  });
});

describe('angle to slope', () => {
  test.each([
    [0.01, 0.174533],
    [0.05, 0.872665],
    [0.1, 1.745331],
    [0.2, 3.490673],
    [0.25, 4.363351],
    [0.5, 8.726868],
    [1, 17.455065],
    [2, 34.920769],
    [3, 52.407779],
  ])('%f degrees is %f mm/m', (degrees, slope) => {
    expect(Math.abs(units.mmPerMFromRad(units.radFromDeg(degrees)) - slope)).toBeLessThan(0.6e-6);
  });

  test('one per cent is 10 mm/m and 0.572939 degrees', () => {
    expect(units.radFromPercent(1)).toBe(units.radFromMmPerM(10));
    expect(units.degFromRad(units.radFromPercent(1))).toBeCloseTo(0.572939, 6);
  });

  test('one milliradian is 0.0572957795 degrees or 206.264806 seconds', () => {
    expect(units.degFromRad(0.001)).toBeCloseTo(0.0572957795, 9);
    expect(units.degFromRad(0.001) * 3600).toBeCloseTo(206.264806, 5);
  });

  // Lateral offset of a line at a distance: 0.05 deg 0.873 mm at 1 m; 0.10 deg 5.236 at 3 m; 0.50 deg 13.090 at 1.5 m.
  test.each([
    [0.05, 1, 0.873],
    [0.05, 3, 2.618],
    [0.1, 1.5, 2.618],
    [0.1, 3, 5.236],
    [0.5, 1, 8.727],
    [0.5, 1.5, 13.09],
    [0.5, 3, 26.181],
  ])('%f degrees over %f m is %f mm', (degrees, metres, offset) => {
    expect(units.mmPerMFromRad(units.radFromDeg(degrees)) * metres).toBeCloseTo(offset, 2);
  });
});
