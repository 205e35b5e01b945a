/**
 * NIST Statistical Reference Datasets, linear least squares (certified values, https://www.itl.nist.gov/div898/strd),
 * solved by Householder QR. Also: what normal equations would lose on Longley, to show why QR is there.
 */
import { describe, expect, test } from 'vitest';
import { choleskyInPlace, choleskySolve, packedIndex, packedSize } from '../../core/linalg/cholesky.ts';
import { matrixFromRows } from '../../core/linalg/matrix.ts';
import { type LeastSquaresFit, leastSquares } from '../../core/linalg/qr.ts';

function solution(rows: readonly (readonly number[])[], y: readonly number[]): LeastSquaresFit {
  const result = leastSquares(matrixFromRows(rows), y);
  if (!result.ok) throw new Error(`rank deficient in column ${result.error.column}`);
  return result.value;
}

function standardDeviation(found: LeastSquaresFit, i: number): number {
  const n = found.x.length;
  return Math.sqrt((found.residualSquares / found.dof) * (found.cofactor[i * n + i] ?? Number.NaN));
}

/** Relative difference from a certified value. */
function off(value: number | undefined, certified: number): number {
  return Math.abs((value ?? Number.NaN) / certified - 1);
}

describe('Norris: a straight line, 36 points', () => {
  // biome-ignore format: pairs y, x as certified
  const data = [
    [0.1,0.2],[338.8,337.4],[118.1,118.2],[888.0,884.6],[9.2,10.1],[228.1,226.5],
    [668.5,666.3],[998.5,996.3],[449.1,448.6],[778.9,777.0],[559.2,558.2],[0.3,0.4],
    [0.1,0.6],[778.1,775.5],[668.8,666.9],[339.3,338.0],[448.9,447.5],[10.8,11.6],
    [557.7,556.0],[228.3,228.1],[998.0,995.8],[888.8,887.6],[119.6,120.2],[0.3,0.3],
    [0.6,0.3],[557.6,556.8],[339.3,339.1],[888.0,887.2],[998.5,999.0],[778.9,779.0],
    [10.2,11.1],[117.6,118.3],[228.9,229.2],[668.4,669.1],[449.2,448.9],[0.2,0.5],
  ] as const;
  const found = solution(
    data.map(([, x]) => [1, x]),
    data.map(([y]) => y),
  );

  test('coefficients and their standard deviations', () => {
    expect(data).toHaveLength(36);
    expect(off(found.x[0], -0.262323073774029)).toBeLessThan(1e-11);
    expect(off(found.x[1], 1.00211681802045)).toBeLessThan(1e-13);
    expect(off(standardDeviation(found, 0), 0.232818234301152)).toBeLessThan(1e-12);
    expect(off(standardDeviation(found, 1), 0.429796848199937e-3)).toBeLessThan(1e-12);
  });

  test('residual standard deviation and sum of squares; covariance of the two coefficients', () => {
    expect(off(found.residualSquares, 26.6173985294224)).toBeLessThan(1e-12);
    expect(off(Math.sqrt(found.residualSquares / found.dof), 0.884796396144373)).toBeLessThan(1e-12);
    const covariance = (found.residualSquares / found.dof) * (found.cofactor[1] ?? 0);
    // GSL's test prints -7.74327536339570e-05; exact rational arithmetic of the data gives ...6315644e-05.
    expect(off(covariance, -7.7432753633957e-5)).toBeLessThan(1e-10);
    expect(off(covariance, -7.743275363156437e-5)).toBeLessThan(1e-12);
  });
});

describe('Pontius: a parabola over x up to three million', () => {
  // biome-ignore format: as certified
  const y = [
    0.11019,0.21956,0.32949,0.43899,0.54803,0.65694,0.76562,0.87487,0.98292,1.09146,
    1.20001,1.30822,1.41599,1.52399,1.63194,1.73947,1.84646,1.95392,2.06128,2.16844,
    0.11052,0.22018,0.32939,0.43886,0.54798,0.65739,0.76596,0.87474,0.98300,1.09150,
    1.20004,1.30818,1.41613,1.52408,1.63159,1.73965,1.84696,1.95445,2.06177,2.16829,
  ];
  const found = solution(
    y.map((_, i) => {
      const x = 150000 * ((i % 20) + 1);
      return [1, x, x * x];
    }),
    y,
  );

  test('coefficients, standard deviations, residual sum of squares', () => {
    expect(off(found.x[0], 0.673565789473684e-3)).toBeLessThan(1e-10);
    expect(off(found.x[1], 0.732059160401e-6)).toBeLessThan(1e-12);
    expect(off(found.x[2], -0.316081871345029e-14)).toBeLessThan(1e-11);
    expect(off(standardDeviation(found, 0), 0.107938612033077e-3)).toBeLessThan(1e-11);
    expect(off(standardDeviation(found, 1), 0.157817399981659e-9)).toBeLessThan(1e-11);
    expect(off(standardDeviation(found, 2), 0.486652849992036e-16)).toBeLessThan(1e-11);
    expect(off(found.residualSquares, 0.155761768796992e-5)).toBeLessThan(1e-11);
  });
});

describe('Longley: six collinear predictors', () => {
  // biome-ignore format: y, x1..x6 as certified
  const data = [
    [60323,83.0,234289,2356,1590,107608,1947],[61122,88.5,259426,2325,1456,108632,1948],
    [60171,88.2,258054,3682,1616,109773,1949],[61187,89.5,284599,3351,1650,110929,1950],
    [63221,96.2,328975,2099,3099,112075,1951],[63639,98.1,346999,1932,3594,113270,1952],
    [64989,99.0,365385,1870,3547,115094,1953],[63761,100.0,363112,3578,3350,116219,1954],
    [66019,101.2,397469,2904,3048,117388,1955],[67857,104.6,419180,2822,2857,118734,1956],
    [68169,108.4,442769,2936,2798,120445,1957],[66513,110.8,444546,4681,2637,121950,1958],
    [68655,112.6,482704,3813,2552,123366,1959],[69564,114.2,502601,3931,2514,125368,1960],
    [69331,115.7,518173,4806,2572,127852,1961],[70551,116.9,554894,4007,2827,130081,1962],
  ];
  // biome-ignore format: coefficient, standard deviation as certified
  const certified = [
    [-3482258.63459582,890420.383607373],[15.0618722713733,84.9149257747669],
    [-0.358191792925910e-1,0.334910077722432e-1],[-2.02022980381683,0.488399681651699],
    [-1.03322686717359,0.214274163161675],[-0.511041056535807e-1,0.226073200069370],
    [1829.15146461355,455.478499142212],
  ] as const;
  const rows = data.map((row) => [1, ...row.slice(1)]);
  const y = data.map((row) => row[0] ?? Number.NaN);
  const found = solution(rows, y);

  test('coefficients and standard deviations to ten digits', () => {
    certified.forEach(([b, s], i) => {
      expect(off(found.x[i], b), `coefficient ${i}`).toBeLessThan(1e-10);
      expect(off(standardDeviation(found, i), s), `standard deviation ${i}`).toBeLessThan(1e-10);
    });
    expect(off(found.residualSquares, 836424.055505915)).toBeLessThan(1e-11);
    expect(off(Math.sqrt(found.residualSquares / found.dof), 304.854073561965)).toBeLessThan(1e-11);
  });

  test('normal equations by Cholesky lose at least three digits more on the same data', () => {
    const n = 7;
    const packed = new Float64Array(packedSize(n));
    const right = new Float64Array(n);
    rows.forEach((row, r) => {
      row.forEach((value, i) => {
        right[i] = (right[i] ?? 0) + value * (y[r] ?? 0);
        for (let j = 0; j <= i; j++) {
          packed[packedIndex(i, j)] = (packed[packedIndex(i, j)] ?? 0) + value * (row[j] ?? 0);
        }
      });
    });
    expect(choleskyInPlace(packed, n, 0)).toBe(-1);
    choleskySolve(packed, n, right);
    expect(off(right[0], certified[0][0])).toBeGreaterThan(1000 * off(found.x[0], certified[0][0]));
  });
});

describe('Wampler and NoInt', () => {
  const x = Array.from({ length: 21 }, (_, i) => i);
  const powers = (v: number): number[] => [1, v, v * v, v * v * v, v * v * v * v, v * v * v * v * v];

  test('Wampler1: a quintic with all coefficients one and no residual', () => {
    const found = solution(
      x.map(powers),
      x.map((v) => powers(v).reduce((sum, p) => sum + p, 0)),
    );
    for (const value of found.x) expect(Math.abs(value - 1)).toBeLessThan(1e-8);
    expect(Math.sqrt(found.residualSquares)).toBeLessThan(1e-6);
  });

  test('Wampler2: coefficients 1, 0.1, 0.01, 0.001, 0.0001, 0.00001', () => {
    const found = solution(
      x.map(powers),
      x.map((v) => powers(v / 10).reduce((sum, p) => sum + p, 0)),
    );
    [1, 0.1, 0.01, 0.001, 0.0001, 0.00001].forEach((b, i) => {
      expect(off(found.x[i], b), `coefficient ${i}`).toBeLessThan(1e-9);
    });
  });

  test('NoInt1 and NoInt2: lines through the origin', () => {
    const one = solution(
      Array.from({ length: 11 }, (_, i) => [60 + i]),
      Array.from({ length: 11 }, (_, i) => 130 + i),
    );
    expect(off(one.x[0], 2.07438016528926)).toBeLessThan(1e-14);
    expect(off(standardDeviation(one, 0), 0.165289256198347e-1)).toBeLessThan(1e-13);
    const two = solution([[4], [5], [6]], [3, 4, 4]);
    expect(off(two.x[0], 0.727272727272727)).toBeLessThan(1e-14);
    expect(off(standardDeviation(two, 0), 0.420827318078432e-1)).toBeLessThan(1e-13);
  });

  test('a column that repeats another is refused by its number', () => {
    const rows = x.map((v) => [1, v, 3 * v - 2]);
    const result = leastSquares(matrixFromRows(rows), x);
    expect(result.ok ? undefined : result.error).toEqual({ code: 'linalg/rankDeficient', column: 2 });
  });
});
