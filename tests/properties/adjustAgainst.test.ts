/**
 * The adjuster against programs that are not ours, on five hundred random layouts: estimates to 1e-6 mm against
 * ml-levenberg-marquardt with its own differences and one step of ml-matrix after it, and covariances to 1e-6 of the uncertainties against a numeric Jacobian
 * of a model written a second time (plainModel.ts) and inverted by ml-matrix. Correlated rows are whitened by ml-matrix.
 */
import fc from 'fast-check';
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { CholeskyDecomposition, inverse, Matrix } from 'ml-matrix';
import { describe, expect, test, vi } from 'vitest';
import { readingModels } from '../../core/adjust/models/table.ts';
import type { Network } from '../../core/adjust/network.ts';
import { solve } from '../../core/adjust/solve.ts';
import { randomFrom } from '../../core/uncertainty/random.ts';
import { demoNetwork } from '../bench/demoNetwork.ts';
import { fixedPoint, freePoint, level, network, side, solved } from '../core/adjust/networks.ts';
import { type PlainProblem, plainJacobian, plainProblem } from '../core/adjust/plainModel.ts';
import { type Chance, mixedLayout } from './mixedLayout.ts';
import { withDatum, withErrors } from './placementErrors.ts';

// Hundreds of adjustments by three programs each: seconds on a free machine, far more beside other work.
vi.setConfig({ testTimeout: 180_000 });

const SEED = 20261127;
/** Mixed layouts and trilaterations, together five hundred. */
const MIXED = 150;
const TRILATERATIONS = 350;

/** Points spread over a bay, every distance between them read with an error, two corners fixed. */
const trilateration = fc
  .record({
    spots: fc.array(
      fc.tuple(
        fc.double({ min: 800, max: 6000, noNaN: true }),
        fc.double({ min: 300, max: 4000, noNaN: true }),
      ),
      { minLength: 2, maxLength: 5 },
    ),
    errors: fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: 30, maxLength: 30 }),
  })
  .filter(({ spots }) =>
    spots.every((p, i) => spots.slice(i + 1).every((q) => Math.hypot(p[0] - q[0], p[1] - q[1]) > 300)),
  )
  .map(({ spots, errors: list }) => {
    const at = new Map<string, readonly [number, number]>([
      ['A', [0, 0]],
      ['B', [7000, 0]],
      ...spots.map((spot, i) => [`P${i}`, spot] as const),
    ]);
    const ids = [...at.keys()];
    const readings = ids.flatMap((from, i) =>
      ids.slice(i + 1).flatMap((to, j) => {
        const [p, q] = [at.get(from) ?? [0, 0], at.get(to) ?? [0, 0]];
        const error = list[(7 * i + j) % list.length] ?? 0;
        return from === 'A' && to === 'B'
          ? []
          : [level(from, to, Math.hypot(p[0] - q[0], p[1] - q[1]) + error, 0.5 + ((i + j) % 3))];
      }),
    );
    return network({
      points: [fixedPoint('A', 0, 0), fixedPoint('B', 7000, 0), ...spots.map((_, i) => freePoint(`P${i}`))],
      readings,
      sides: spots.map((_, i) => side(`P${i}`, 'A', 'B', 'left')),
    });
  });

/** Turns rows into independent ones of unit variance: over their u, and groups by the inverse of their Cholesky factor. */
function whitener({ u, groups }: PlainProblem): (rows: Matrix) => Matrix {
  const inverses = groups.map(({ rows, covariance }) => {
    const factor = new CholeskyDecomposition(new Matrix(covariance.map((row) => [...row])))
      .lowerTriangularMatrix;
    return { rows: [...rows], by: inverse(factor) };
  });
  const scales = u.map((one) => [1 / one]);
  return (values) => {
    const white = values.clone().mulColumnVector(scales.map(([scale = 1]) => scale));
    for (const { rows, by } of inverses) {
      const turned = by.mmul(values.subMatrixRow(rows, 0, values.columns - 1));
      for (const [k, row] of rows.entries()) white.setRow(row, turned.getRow(k));
    }
    return white;
  };
}

/** Unknowns in units that move a metre by about a millimetre. */
function unitsOf(plain: PlainProblem): number[] {
  return plain.names.map((name) => (/(yaw|pitch|roll|scale\/value)$/.test(name) ? 1e-3 : 1));
}

/** The same problem by ml-levenberg-marquardt, with its own differences. */
function byLevenbergMarquardt(plain: PlainProblem, start: readonly number[]): number[] {
  const units = unitsOf(plain);
  const white = whitener(plain);
  const data = {
    x: plain.observed.map((_, i) => i),
    y: white(Matrix.columnVector([...plain.observed])).to1DArray(),
  };
  const model = (parameters: readonly number[]) => {
    const values = plain.compute(parameters.map((value, i) => value * (units[i] ?? 1)));
    const rows = white(Matrix.columnVector(values)).to1DArray();
    return (row: number) => rows[row] ?? Number.NaN;
  };
  const { parameterValues } = levenbergMarquardt(data, model, {
    initialValues: start.map((value, i) => value / (units[i] ?? 1)),
    damping: 1e-3,
    maxIterations: 8,
    gradientDifference: 1e-2,
    centralDifference: true,
    errorTolerance: 1e-13,
  });
  return parameterValues.map((value, i) => value * (units[i] ?? 1));
}

/**
 * One Gauss-Newton step by ml-matrix from where the other program came to. It judges by the sum of squares, in which
 * rounding (1e-12 of a reading's u) hides changes of the unknowns below 1e-6 of theirs; the gradient still shows them.
 */
function refined(plain: PlainProblem, x: readonly number[]): number[] {
  const white = whitener(plain);
  const computed = plain.compute(x);
  const rest = white(
    Matrix.columnVector(plain.observed.map((value, i) => value - (computed[i] ?? Number.NaN))),
  );
  const gradient = white(new Matrix(plainJacobian(plain, x)))
    .transpose()
    .mmul(rest);
  const step = numericCovariance(plain, x).mmul(gradient);
  return x.map((value, i) => value + step.get(i, 0));
}

/** Covariance by a numeric Jacobian and a general matrix inverse. */
function numericCovariance(plain: PlainProblem, x: readonly number[]): Matrix {
  const units = unitsOf(plain);
  const weighted = whitener(plain)(new Matrix(plainJacobian(plain, x))).mulRowVector(units);
  const normal = weighted.transpose().mmul(weighted);
  // Unit diagonal before inverting.
  const size = normal.diagonal().map((value) => 1 / Math.sqrt(value));
  const inverted = inverse(normal.mulColumnVector(size).mulRowVector(size));
  return inverted.mulColumnVector(size).mulRowVector(size).mulColumnVector(units).mulRowVector(units);
}

/** 1e-6 mm; of an angle or a ratio what moves a metre by as much. */
const SAME = { mm: 1e-6, rad: 1e-9, ratio: 1e-9 } as const;

function expectAgreement(document: Network): void {
  const solution = solved(solve(document));
  const plain = plainProblem(document);
  expect(plain.names).toEqual(solution.unknowns.map(({ id }) => id));
  const values = solution.unknowns.map(({ value }) => value);
  const start = solution.unknowns.map(
    ({ value, unit }, i) => value + Math.sin(i + 1) * (unit === 'mm' ? 2 : unit === 'rad' ? 1e-3 : 0),
  );
  const arrived = byLevenbergMarquardt(plain, start);
  const theirs = refined(plain, arrived);
  const covariance = numericCovariance(plain, values);
  const n = values.length;
  let worst = 0;
  solution.unknowns.forEach(({ id, value, u, unit }, i) => {
    expect(Math.abs((arrived[i] ?? Number.NaN) - value) / u, `${id} before the last step`).toBeLessThan(1e-5);
    expect(Math.abs((theirs[i] ?? Number.NaN) - value), id).toBeLessThan(SAME[unit]);
    solution.unknowns.forEach((other, j) => {
      const gap = (solution.covariance[i * n + j] ?? Number.NaN) - covariance.get(i, j);
      worst = Math.max(worst, Math.abs(gap) / (u * other.u));
    });
  });
  expect(worst).toBeLessThan(1e-6);
}

/** Normal numbers by Box and Muller's method from the seeded stream. */
function chanceOf(seed: number): Chance {
  const { uniform } = randomFrom(seed);
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}

describe(`the same estimates and covariance as programs that are not ours (seed ${SEED})`, () => {
  test(`${TRILATERATIONS} random trilaterations`, () => {
    fc.assert(fc.property(trilateration, expectAgreement), { seed: SEED, numRuns: TRILATERATIONS });
  });

  test('the demo placement with five sets of errors', () => {
    for (let k = 0; k < 5; k++) {
      const { normal } = chanceOf(SEED + k);
      expectAgreement(withDatum(withErrors(demoNetwork(), Array.from({ length: 80 }, normal))));
    }
  });

  test(`${MIXED} layouts in space with every kind of reading, bodies, poses and correlated readings`, () => {
    const kinds = new Set<string>();
    let groups = 0;
    for (let k = 0; k < MIXED; k++) {
      const document = mixedLayout(chanceOf(SEED + k));
      for (const { kind } of document.readings) kinds.add(kind);
      groups += document.correlations?.length ?? 0;
      expectAgreement(document);
    }
    // A constraint has no place in their program.
    expect(kinds.size).toBe(Object.keys(readingModels).length - 1);
    expect(groups).toBeGreaterThan(MIXED / 2);
    expect(MIXED + TRILATERATIONS).toBeGreaterThanOrEqual(500);
  });
});
