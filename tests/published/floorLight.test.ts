/**
 * Floor flatness: heights of a US national laboratory's ASTM E1155M worksheet (2003), five lines at 300 mm; its bends q
 * are published, its final F-numbers were cut off and are recomputed here from formulas remembered. Light: EN 12464-1
 * uniformity and DIN 5032-7 classes. Toe: two published signs of the thrust angle.
 */
import { describe, expect, test } from 'vitest';
import { type FlatnessLine, flatnessOfLine } from '../../core/bay/flatness.ts';
import { illuminance, luxUncertainty } from '../../core/bay/light.ts';
import { radFromDeg } from '../../core/units.ts';
import { separationMm, thrustAngleRad, toeLengthMm, totalToeRad } from '../../core/vehicle/datum.ts';
import { axleHeadingRad, totalToeLengthMm } from '../../core/vehicle/toe.ts';

// biome-ignore format: heights in mm, line by line
const LINES = [
  [418.617, 419.938, 421.894, 423.748, 425.221, 424.739, 423.799, 424.307,
   425.425, 424.688, 423.164, 422.758, 420.472, 416.738],
  [418.592, 421.081, 422.072, 421.513, 420.040, 421.132, 420.675, 421.640,
   421.894, 421.538, 421.183, 421.894, 419.684, 420.040, 417.982],
  [418.338, 419.659, 419.227, 419.227, 418.668, 418.186, 418.973, 419.379,
   420.141, 419.532, 418.643, 418.719, 416.763, 414.782],
  [418.617, 418.973, 419.100, 420.878, 419.989, 419.227, 419.684, 420.751,
   420.065, 421.259, 421.386, 418.846, 419.887, 418.363],
  [418.846, 418.135, 418.998, 419.405, 420.294, 420.370, 421.640, 421.259,
   422.910, 423.926, 424.053, 423.164, 422.732, 422.834, 421.513],
] as const;

function line(index: number, edition: 'metric' | 'inch' = 'metric'): FlatnessLine {
  const result = flatnessOfLine(LINES[index] ?? [], edition);
  if (!result.ok) throw new Error(result.error.code);
  return result.value;
}

describe('ASTM E1155M worksheet', () => {
  // biome-ignore format: q2 to q13 as published
  const published = [
    [0, [0.635, -0.102, -0.381, -1.956, -0.457, 1.448, 0.610, -1.854, -0.787, 1.118, -1.880, -1.448]],
    [3, [-0.229, 1.651, -2.667, 0.127, 1.219, 0.610, -1.753, 1.880, -1.067, -2.667, 3.581, -2.565]],
  ] as const;

  test.each(published)('line %d: the published bends', (index, q) => {
    const found = line(index).bends.values;
    expect(found).toHaveLength(q.length);
    q.forEach((value, i) => {
      expect(Math.abs((found[i] ?? Number.NaN) - value), `q${i + 2}`).toBeLessThan(0.0011);
    });
  });

  const rows = [
    [0, -0.42125, 1.201188, 28.7715, 20.2097],
    [1, -0.349769, 1.776002, 20.3953, 45.98],
    [2, -0.275167, 1.025609, 34.5466, 39.5452],
    [3, -0.156667, 2.038992, 18.4582, 46.653],
    [4, -0.046923, 1.175276, 32.412, 37.2245],
  ] as const;

  test.each(rows)('line %d: mean bend %d, s %d, FF %d, FL %d (recomputed)', (index, q, s, ff, fl) => {
    const found = line(index);
    expect(found.bends.mean).toBeCloseTo(q, 5);
    expect(found.bends.s).toBeCloseTo(s, 5);
    expect(Math.abs(found.flatness - ff)).toBeLessThan(1e-3);
    expect(Math.abs(found.levelness - fl)).toBeLessThan(1e-3);
    // The inch edition's 4.57 in is 116.078 mm: the same floor has a slightly higher number.
    expect(line(index, 'inch').flatness / found.flatness).toBeCloseTo(116.078 / 115.8, 10);
    expect(line(index, 'inch').levelness).toBe(found.levelness);
  });
});

describe('light', () => {
  test('520, 480, 412, 600, 588 lx: mean 520, lowest 412, uniformity 0.792307692', () => {
    const found = illuminance([520, 480, 412, 600, 588]);
    expect(found.ok && found.value).toMatchObject({ mean: 520, lowest: 412, highest: 600, darkest: 2 });
    expect(found.ok && found.value.uniformity).toBeCloseTo(0.792307692, 9);
  });

  test('DIN 5032-7 class B, 10 %: 5.7735 % as u, 28.87 lx at 500', () => {
    expect(luxUncertainty(500, 'B')).toBeCloseTo(28.87, 2);
    expect(luxUncertainty(100, 'B')).toBeCloseTo(5.7735, 4);
    expect((['L', 'A', 'C'] as const).map((c) => luxUncertainty(Math.sqrt(3), c))).toEqual([
      expect.closeTo(0.03, 12),
      expect.closeTo(0.05, 12),
      expect.closeTo(0.2, 12),
    ]);
  });
});

describe('toe and thrust', () => {
  const axle = (left: number, right: number) => ({ leftRad: radFromDeg(left), rightRad: radFromDeg(right) });
  // left, right, total, positive to the right, positive to the left; degrees
  const rows = [
    [0.2, 0.1, 0.3, 0.05, -0.05],
    [0.1, -0.1, 0, 0.1, -0.1],
    [0.15, 0.15, 0.3, 0, 0],
    [-0.05, 0.25, 0.2, -0.15, 0.15],
  ] as const;

  test.each(rows)(
    'left %d, right %d: total %d, %d or %d by convention',
    (left, right, total, toRight, toLeft) => {
      const toe = axle(left, right);
      expect(totalToeRad(toe.leftRad, toe.rightRad)).toBeCloseTo(radFromDeg(total), 14);
      expect(axleHeadingRad(toe, 'positiveRight')).toBeCloseTo(radFromDeg(toRight), 14);
      expect(axleHeadingRad(toe, 'positiveLeft')).toBeCloseTo(radFromDeg(toLeft), 14);
      expect(thrustAngleRad(toe.leftRad, toe.rightRad)).toBeCloseTo(axleHeadingRad(toe, 'positiveLeft'), 14);
    },
  );

  test('toe as a length: 406.4 mm and 631.9 mm measuring diameter', () => {
    for (const [degrees, diameter, length] of [
      [0.05, 406.4, 0.3547],
      [0.1, 406.4, 0.7093],
      [0.25, 406.4, 1.7732],
      [0.1, 631.9, 1.1029],
    ] as const) {
      expect(Math.abs(toeLengthMm(radFromDeg(degrees), diameter) - length)).toBeLessThan(1e-4);
      expect(Math.abs(totalToeLengthMm(axle(degrees, degrees), diameter) - 2 * length)).toBeLessThan(2e-4);
    }
    expect(totalToeLengthMm(axle(0.1, -0.1), 406.4)).toBeCloseTo(0, 12);
  });

  test('a line off by 0.05, 0.10, 0.50 degrees, at 1, 1.5 and 3 m', () => {
    for (const [degrees, ...offsets] of [
      [0.05, 0.873, 1.309, 2.618],
      [0.1, 1.745, 2.618, 5.236],
      [0.5, 8.727, 13.09, 26.181],
    ] as const) {
      [1000, 1500, 3000].forEach((distance, i) => {
        expect(separationMm(radFromDeg(degrees), distance).toFixed(3)).toBe(offsets[i]?.toFixed(3));
      });
    }
  });
});
