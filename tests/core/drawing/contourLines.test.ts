import { describe, expect, test } from 'vitest';
import { contourLines, contourStep, type HeightGrid } from '../../../core/drawing/contourLines.ts';

const xsMm = [0, 1000, 2500, 4000];
const ysMm = [0, 800, 2000];
const grid = (height: (x: number, y: number) => number | undefined): HeightGrid => ({
  xsMm,
  ysMm,
  heightsMm: ysMm.map((y) => xsMm.map((x) => height(x, y))),
});

describe('contour lines of a plane', () => {
  // z = 2 mm/m along x and 3 mm/m along y: linear interpolation is exact, also on an uneven grid.
  const plane = (x: number, y: number): number => 0.002 * x + 0.003 * y;
  const lines = contourLines(grid(plane), 2);

  test('lie at their own height', () => {
    expect(lines.length).toBeGreaterThan(3);
    for (const { heightMm, points } of lines) {
      for (const { xMm, yMm } of points) expect(plane(xMm, yMm)).toBeCloseTo(heightMm, 9);
    }
  });

  test('are the multiples of the step between the lowest and the highest place, each once', () => {
    expect(lines.map((line) => line.heightMm).sort((a, b) => a - b)).toEqual([2, 4, 6, 8, 10, 12]);
  });

  test('end on the rim and never run along it', () => {
    for (const { points } of lines) {
      for (const end of [points[0], points[points.length - 1]]) {
        const onRim = end?.xMm === 0 || end?.xMm === 4000 || end?.yMm === 0 || end?.yMm === 2000;
        expect(onRim).toBe(true);
      }
      points.slice(1).forEach((point, i) => {
        const before = points[i];
        expect(before?.xMm === point.xMm && (point.xMm === 0 || point.xMm === 4000)).toBe(false);
        expect(before?.yMm === point.yMm && (point.yMm === 0 || point.yMm === 2000)).toBe(false);
      });
    }
  });
});

test('a bump inside the floor has a closed line about it', () => {
  const bump = contourLines(
    grid((x, y) => (x === 1000 && y === 800 ? 4 : 0)),
    3,
  );
  expect(bump).toHaveLength(1);
  const points = bump[0]?.points ?? [];
  expect(points[0]).toEqual(points[points.length - 1]);
});

test('a level floor has none, nor has one of which too little is known', () => {
  expect(
    contourLines(
      grid(() => 5),
      1,
    ),
  ).toEqual([]);
  expect(
    contourLines(
      grid((x, y) => (x === 0 && y === 0 ? 1 : undefined)),
      1,
    ),
  ).toEqual([]);
});

test.each([
  [0, 0.5],
  [3.9, 0.5],
  [8, 1],
  [9, 2],
  [30, 5],
  [41, 10],
])('a fall of %d mm is drawn every %d mm', (fall, step) => {
  expect(contourStep(fall)).toBe(step);
});
