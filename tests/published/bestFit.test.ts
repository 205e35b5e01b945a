/** Best-fit planes, lines and rigid motions against published examples. */
import { describe, expect, test } from 'vitest';
import { alignVectors } from '../../core/geometry/alignment.ts';
import { lineFit } from '../../core/geometry/lineFit.ts';
import { planeFit } from '../../core/geometry/plane.ts';
import { planFit } from '../../core/geometry/planFit.ts';
import { rigidFit } from '../../core/geometry/rigidFit.ts';
import type { Vec3 } from '../../core/geometry/vector.ts';
import { determinant3 } from '../../core/linalg/matrix.ts';

function close(values: Iterable<number>, expected: readonly number[], digits = 9): void {
  const list = [...values];
  expect(list).toHaveLength(expected.length);
  list.forEach((value, i) => {
    expect(value).toBeCloseTo(expected[i] ?? Number.NaN, digits);
  });
}

describe('plane through points (values of scikit-spatial, Plane.best_fit; recomputed)', () => {
  test('four corners of a tetrahedron', () => {
    const fit = planeFit([
      [0, 0, 0],
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ]);
    if (!fit.ok) throw new Error(fit.error.code);
    close(fit.value.centre, [0.25, 0.25, 0.25]);
    close(fit.value.normal.map(Math.abs), [0.577350269, 0.577350269, 0.577350269]);
    close(fit.value.singular, [1, 1, 0.5]);
    expect(fit.value.residualSquares).toBeCloseTo(0.25, 12);
  });

  test('a flat square', () => {
    const fit = planeFit([
      [0, 0, 0],
      [1, 0, 0],
      [0, 1, 0],
      [1, 1, 0],
    ]);
    if (!fit.ok) throw new Error(fit.error.code);
    close(fit.value.centre, [0.5, 0.5, 0]);
    close(fit.value.normal, [0, 0, 1]);
    expect(fit.value.residualSquares).toBeCloseTo(0, 12);
  });

  test('points on one line, or two points, are no plane', () => {
    const line: readonly Vec3[] = [0, 1, 2, 3].map((t) => [t, 2 * t, -t]);
    expect(planeFit(line)).toEqual({ ok: false, error: { code: 'geometry/collinear' } });
    expect(planeFit(line.slice(0, 2))).toEqual({ ok: false, error: { code: 'geometry/tooFewPoints' } });
  });
});

describe('line through points (scikit-spatial, Line.best_fit)', () => {
  test('five points in the plane', () => {
    const fit = lineFit([
      [0, 0, 0],
      [1, 2, 0],
      [2, 1, 0],
      [2, 3, 0],
      [3, 2, 0],
    ]);
    if (!fit.ok) throw new Error(fit.error.code);
    close(fit.value.centre, [1.6, 1.6, 0]);
    close(fit.value.direction, [Math.SQRT1_2, Math.SQRT1_2, 0]);
  });
});

describe('Umeyama 1991 (IEEE PAMI 13(4), 376-380): the worked example in the plane', () => {
  const x = [
    [0, 0],
    [1, 0],
    [0, 2],
  ] as const;
  const mirrored = [
    [0, 0],
    [-1, 0],
    [0, 2],
  ] as const;

  test('with scale: rotation by -33.690 degrees, shift (-0.8, 0.4), scale 0.7211; printed 0.832, 0.555, -0.800, 0.400, 0.721', () => {
    const fit = planFit(x, mirrored, true);
    if (!fit.ok) throw new Error(fit.error.code);
    expect(Math.cos(fit.value.turnRad)).toBeCloseTo(3 / Math.sqrt(13), 12);
    expect(-Math.sin(fit.value.turnRad)).toBeCloseTo(2 / Math.sqrt(13), 12);
    expect((fit.value.turnRad * 180) / Math.PI).toBeCloseTo(-33.690067526, 8);
    close(fit.value.shift, [-0.8, 0.4], 12);
    expect(fit.value.scale).toBeCloseTo(0.721110255093, 12);
    // Recomputed; the printed error value was not confirmed.
    expect(fit.value.meanSquare).toBeCloseTo(0.533333333333, 11);
  });

  test('without scale: the same rotation, another shift (recomputed)', () => {
    const fit = planFit(x, mirrored);
    if (!fit.ok) throw new Error(fit.error.code);
    expect((fit.value.turnRad * 180) / Math.PI).toBeCloseTo(-33.690067526, 8);
    close(fit.value.shift, [-0.980483562, 0.296866536]);
    expect(fit.value.meanSquare).toBeCloseTo(0.619754989, 9);
  });
});

describe("Wahba's problem (example of SciPy's Rotation.align_vectors)", () => {
  test('three pairs that do not fit exactly: root of the squares 0.141421356', () => {
    const to: readonly Vec3[] = [
      [0, 1, 0],
      [0, 1, 1],
      [0, 1, 1],
    ];
    const from: readonly Vec3[] = [
      [1, 0, 0],
      [1, 1.1, 0],
      [1, 0.9, 0],
    ];
    const { rotation, residualSquares, unique } = alignVectors(from, to);
    close(rotation.data, [0, 0, 1, 1, 0, 0, 0, 1, 0]);
    expect(Math.sqrt(residualSquares)).toBeCloseTo(0.141421356237308, 9);
    expect(unique).toBe(true);
  });

  test('one pair leaves a turn open: the smallest rotation is given and said not to be unique', () => {
    const { rotation, unique } = alignVectors([[0, 1, 0]], [[1, 0, 0]]);
    close(rotation.data, [0, 1, 0, -1, 0, 0, 0, 0, 1]);
    expect(unique).toBe(false);
  });

  test('a mirrored set is met as well as a proper rotation can, never by reflection', () => {
    const corners: readonly Vec3[] = [
      [1, 0, 0],
      [0, 2, 0],
      [0, 0, 3],
      [0, 0, 0],
    ];
    const fit = rigidFit(
      corners,
      corners.map(([x, y, z]) => [-x, y, z]),
    );
    if (!fit.ok) throw new Error(fit.error.code);
    expect(determinant3(fit.value.rotation)).toBeCloseTo(1, 12);
    expect(fit.value.residualSquares).toBeGreaterThan(0.1);
  });
});
