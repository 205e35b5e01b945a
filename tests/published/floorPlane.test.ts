/**
 * Floors against values from outside: the heights of the ASTM E1155M worksheet of a US national laboratory (2003) as a survey,
 * and a best-fit plane that is public (scikit-spatial's documentation: four points of a square fit z = 0 without error).
 */
import { describe, expect, test } from 'vitest';
import { combinedFNumber, flatnessOfLine } from '../../core/bay/flatness.ts';
import { surveyedFloor } from '../../core/bay/floorSurvey.ts';
import { largestGap } from '../../core/bay/straightedge.ts';
import { knownPlane } from '../../core/bay/weightedPlane.ts';

// biome-ignore format: heights in mm at 300 mm, lines 0 and 3 of the worksheet
const LINES = [
  [418.617, 419.938, 421.894, 423.748, 425.221, 424.739, 423.799, 424.307,
   425.425, 424.688, 423.164, 422.758, 420.472, 416.738],
  [418.617, 418.973, 419.100, 420.878, 419.989, 419.227, 419.684, 420.751,
   420.065, 421.259, 421.386, 418.846, 419.887, 418.363],
] as const;

// q2 to q13 as published
const BENDS = [
  [0.635, -0.102, -0.381, -1.956, -0.457, 1.448, 0.61, -1.854, -0.787, 1.118, -1.88, -1.448],
  [-0.229, 1.651, -2.667, 0.127, 1.219, 0.61, -1.753, 1.88, -1.067, -2.667, 3.581, -2.565],
] as const;

describe('ASTM E1155M worksheet under a straightedge', () => {
  test.each([0, 1])(
    'line %d: an edge of two steps on three places shows half the published bend where the floor dips',
    (k) => {
      const heights = LINES[k] ?? [];
      BENDS[k]?.forEach((bend, i) => {
        const three = heights.slice(i, i + 3).map((heightMm, j) => ({ alongMm: 300 * j, heightMm }));
        // Cut finer, so that the edge has four steps under it; the broken line stays what it was.
        const [a, b, c] = three;
        if (a === undefined || b === undefined || c === undefined) throw new Error('three heights');
        const half = (p: typeof a, q: typeof a) => ({
          alongMm: (p.alongMm + q.alongMm) / 2,
          heightMm: (p.heightMm + q.heightMm) / 2,
        });
        const found = largestGap([a, half(a, b), b, half(b, c), c], 600, 0);
        expect(found.ok && Math.abs(found.value.gapMm - Math.max(0, bend / 2))).toBeLessThan(6e-4);
      });
    },
  );

  test('the two lines side by side as a survey: ends level to 1.9 mm, its steepest residual the hump of line 0', () => {
    const floor = surveyedFloor({
      xsMm: LINES[0].map((_, i) => 300 * i),
      ysMm: [0, 900],
      heightsMm: LINES,
      uHeightMm: 0.2,
      uTilt: 0,
    });
    if (!floor.ok) throw new Error(floor.error.code);
    const { highest, lowest } = floor.value.residuals;
    expect([highest.index, lowest.index]).toEqual([8, 13]);
  });

  test('two lines as one F-number: between the two, nearer to the worse one; equal lines keep theirs (from memory)', () => {
    const numbers = LINES.map((line) => {
      const found = flatnessOfLine(line);
      if (!found.ok) throw new Error(found.error.code);
      return { number: found.value.flatness, count: found.value.bends.values.length };
    });
    // 28.7715 and 18.4582, recomputed from the published heights: 1 / sqrt((1/28.77^2 + 1/18.46^2) / 2).
    const expected = 1 / Math.sqrt((1 / (28.7715 * 28.7715) + 1 / (18.4582 * 18.4582)) / 2);
    expect(combinedFNumber(numbers)).toBeCloseTo(expected, 3);
    expect(
      combinedFNumber([
        { number: 30, count: 5 },
        { number: 30, count: 50 },
      ]),
    ).toBeCloseTo(30, 12);
  });
});

describe('a public best-fit plane', () => {
  test('a square of one: z = 0, no error, centre (0.5, 0.5)', () => {
    const square = [
      [0, 0],
      [1, 0],
      [0, 1],
      [1, 1],
    ] as const;
    const plane = knownPlane(
      square.map(([xMm, yMm]) => ({ xMm, yMm, zMm: 0, uMm: 0 })),
      [1, 1, 1, 1],
    );
    expect(plane).toMatchObject({
      ok: true,
      value: { centreXMm: 0.5, centreYMm: 0.5, slopeX: 0, slopeY: 0, z0Mm: 0 },
    });
  });
});
