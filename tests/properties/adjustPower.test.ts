/**
 * Are the tests as sharp as they say? Readings are drawn with errors of their stated u, one of them with a blunder of
 * exactly the reported minimal detectable size besides: it has to be named in 80 % of the draws. Without blunder each
 * reading is suspected in 0.1 % of the draws, and the global test fails in 5 %. Eight thousand draws put four standard
 * errors of 80 % at 1.8 %.
 */
import { describe, expect, test, vi } from 'vitest';
import type { Network, Reading } from '../../core/adjust/network.ts';
import type { Solution } from '../../core/adjust/solution.ts';
import { solve } from '../../core/adjust/solve.ts';
import { CRITICAL, GLOBAL_ALPHA, POWER, SNOOPING_ALPHA } from '../../core/adjust/testLevels.ts';
import { choleskyInPlace, packedIndex, packedSize } from '../../core/linalg/cholesky.ts';
import { randomFrom } from '../../core/uncertainty/random.ts';
import { fixedPoint, freePoint, level, network, solved } from '../core/adjust/networks.ts';

// Tens of thousands of adjustments: seconds on a free machine, far more beside other work.
vi.setConfig({ testTimeout: 180_000 });

const SEED = 20261129;
const DRAWS = 8000;

const spots = {
  A: [0, 0],
  B: [5000, 200],
  C: [4700, 2100],
  D: [2300, 3000],
  E: [-400, 1900],
} as const;
type Spot = keyof typeof spots;
const ids: readonly Spot[] = ['A', 'B', 'C', 'D', 'E'];

/** Five points, all distances between them read to different u; three of them hang together when `correlated`. */
function base(correlated: boolean): Network {
  const readings: Reading[] = ids.flatMap((from, i) =>
    ids.slice(i + 1).map((to, j) => {
      const [p, q] = [spots[from], spots[to]];
      return level(from, to, Math.hypot(p[0] - q[0], p[1] - q[1]), 0.6 + 0.2 * ((i + j) % 3));
    }),
  );
  const points = ids.map((id) =>
    id === 'A' || id === 'B' ? fixedPoint(id, spots[id][0], spots[id][1]) : freePoint(id, ...spots[id]),
  );
  const together = readings.filter(({ id }) => id.includes('C'));
  const u = together.map((one) => (one.kind === 'distance' ? one.uMm : Number.NaN));
  const covariance = u.map((a, i) => u.map((b, j) => a * b * (i === j ? 1 : 0.7)));
  const rows = together.map(({ id }) => `${id}/value`);
  return network({
    points,
    readings: readings.filter(({ id }) => id !== 'A-B'),
    ...(correlated ? { correlations: [{ id: 'session', rows, covariance }] } : {}),
  });
}

/** Adds errors by the stated covariance: each reading's own, or those of its group through the factor of it. */
function drawn(document: Network, normal: () => number): Map<string, number> {
  const errors = new Map<string, number>();
  for (const one of document.readings) if (one.kind === 'distance') errors.set(one.id, one.uMm * normal());
  for (const { rows, covariance } of document.correlations ?? []) {
    const factor = new Float64Array(packedSize(rows.length));
    covariance.forEach((row, i) => {
      row.forEach((value, j) => {
        if (j <= i) factor[packedIndex(i, j)] = value;
      });
    });
    if (choleskyInPlace(factor, rows.length, 0) >= 0) throw new Error('not a covariance');
    const free = rows.map(normal);
    rows.forEach((row, i) => {
      const sum = free
        .slice(0, i + 1)
        .reduce((total, z, k) => total + (factor[packedIndex(i, k)] ?? 0) * z, 0);
      errors.set(row.split('/')[0] ?? '', sum);
    });
  }
  return errors;
}

function withErrors(document: Network, errors: ReadonlyMap<string, number>): Network {
  const readings = document.readings.map((one) =>
    one.kind === 'distance' ? { ...one, valueMm: one.valueMm + (errors.get(one.id) ?? 0) } : one,
  );
  return { ...document, readings };
}

function normalFrom(seed: number): () => number {
  const { uniform } = randomFrom(seed);
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

const named = (solution: Solution): ReadonlySet<string> =>
  new Set(solution.suspicions.flatMap(({ sources }) => sources));

describe.each([
  { name: 'independent readings', correlated: false },
  { name: 'readings of which four are correlated by 0.7', correlated: true },
])(`$name (seed ${SEED}, ${DRAWS} draws)`, ({ correlated }) => {
  const document = base(correlated);
  const truth = solved(solve(document));
  const controlled = truth.rows.filter(({ minimalDetectable }) => minimalDetectable !== undefined);

  test('a blunder of the minimal detectable size is found in 80 % of the draws, and named', () => {
    expect(controlled.length).toBe(document.readings.length);
    const normal = normalFrom(SEED);
    let found = 0;
    let told = 0;
    for (let k = 0; k < DRAWS; k++) {
      const row = controlled[k % controlled.length];
      const errors = drawn(document, normal);
      const sign = k % 2 === 0 ? 1 : -1;
      const source = row?.source ?? '';
      errors.set(source, (errors.get(source) ?? 0) + sign * (row?.minimalDetectable ?? Number.NaN));
      const solution = solved(solve(withErrors(document, errors)));
      const tested = solution.rows.find((one) => one.source === source)?.standardised ?? 0;
      if (Math.abs(tested) > CRITICAL) found++;
      if (named(solution).has(source)) told++;
    }
    expect(Math.abs(found / DRAWS - POWER)).toBeLessThan(0.02);
    // Whoever is beyond the limit is named; a failed global test names the strongest besides.
    expect(told).toBeGreaterThanOrEqual(found);
    expect(4 * Math.sqrt((POWER * (1 - POWER)) / DRAWS)).toBeLessThan(0.02);
  });

  test('without a blunder the tests fail as often as they say', () => {
    const normal = normalFrom(SEED + 1);
    let alarms = 0;
    let failed = 0;
    for (let k = 0; k < DRAWS; k++) {
      const solution = solved(solve(withErrors(document, drawn(document, normal))));
      for (const { standardised = 0 } of solution.rows) if (Math.abs(standardised) > CRITICAL) alarms++;
      if (!solution.globalTest.passed) failed++;
    }
    const tests = DRAWS * controlled.length;
    // Rows of one draw are not independent of each other: the standard error is at most that of the draws.
    const error = Math.sqrt(SNOOPING_ALPHA / DRAWS);
    expect(Math.abs(alarms / tests - SNOOPING_ALPHA)).toBeLessThan(Math.min(4 * error, 0.0005));
    const failing = Math.sqrt((GLOBAL_ALPHA * (1 - GLOBAL_ALPHA)) / DRAWS);
    expect(Math.abs(failed / DRAWS - GLOBAL_ALPHA)).toBeLessThan(4 * failing);
  });
});
