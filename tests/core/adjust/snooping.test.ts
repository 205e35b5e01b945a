import { describe, expect, test } from 'vitest';
import type { Network, Reading } from '../../../core/adjust/network.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { CRITICAL, DETECTABLE } from '../../../core/adjust/testLevels.ts';
import { fixed, fixedPoint, freePoint, level, network, solved } from './networks.ts';

/** Six points, every distance between them read: 15 readings for 9 unknowns and three freedoms. */
const spots = {
  A: [0, 0],
  B: [5000, 200],
  C: [4700, 2100],
  D: [2300, 3000],
  E: [-400, 1900],
  F: [2100, 900],
} as const;
type Spot = keyof typeof spots;
const ids: readonly Spot[] = ['A', 'B', 'C', 'D', 'E', 'F'];

function allDistances(errors: Readonly<Record<string, number>>): Network {
  const readings: Reading[] = ids.flatMap((from, i) =>
    ids.slice(i + 1).map((to) => {
      const [p, q] = [spots[from], spots[to]];
      const value = Math.hypot(p[0] - q[0], p[1] - q[1]) + (errors[`${from}-${to}`] ?? 0);
      return level(from, to, value, 1);
    }),
  );
  return network({ points: ids.map((id) => freePoint(id, spots[id][0], spots[id][1])), readings });
}

describe('a network with much redundancy', () => {
  test('without error nothing is suspected', () => {
    const solution = solved(solve(allDistances({})));
    expect(solution.suspicions).toEqual([]);
    expect(solution.globalTest.dof).toBe(6);
    expect(solution.globalTest.chiSquare).toBeLessThan(1e-9);
    expect(solution.globalTest.p).toBeCloseTo(1, 6);
  });

  test('one distance wrong by 20 mm is named alone, with its error', () => {
    const solution = solved(solve(allDistances({ 'B-E': 20 })));
    expect(solution.globalTest.passed).toBe(false);
    expect(solution.suspicions[0]?.sources).toEqual(['B-E']);
    expect(solution.suspicions[0]?.likelyError).toBeCloseTo(20, 1);
    expect(solution.suspicions[0]?.repeatToSeparate).toBeUndefined();
    expect(Math.abs(solution.suspicions[0]?.standardised ?? 0)).toBeGreaterThan(CRITICAL);
  });

  test('an error of exactly the detectable size is found at the critical value and some beyond', () => {
    const clean = solved(solve(allDistances({})));
    const row = clean.rows.find(({ source }) => source === 'C-E');
    expect(row?.minimalDetectable).toBeCloseTo(DETECTABLE / Math.sqrt(row?.redundancy ?? 0), 9);
    const solution = solved(solve(allDistances({ 'C-E': row?.minimalDetectable ?? 0 })));
    const w = solution.rows.find(({ source }) => source === 'C-E')?.standardised ?? 0;
    // Without other errors the expected value of w is the non-centrality, 4.13.
    expect(w).toBeCloseTo(DETECTABLE, 2);
    expect(solution.suspicions[0]?.sources).toEqual(['C-E']);
  });

  test('the suspect stays in the solution: the engine takes nothing out by itself', () => {
    const solution = solved(solve(allDistances({ 'B-E': 20 })));
    expect(solution.rows).toHaveLength(15);
    expect(solution.rows.find(({ source }) => source === 'B-E')?.redundancy).toBeGreaterThan(0);
  });

  test('u does not depend on the residuals: a priori, never scaled by them', () => {
    const [clean, wrong] = [solved(solve(allDistances({}))), solved(solve(allDistances({ 'B-E': 20 })))];
    clean.unknowns.forEach(({ u }, i) => {
      expect(wrong.unknowns[i]?.u).toBeCloseTo(u, 1);
    });
  });
});

describe('a network that cannot tell readings apart', () => {
  const line = (extra: readonly Reading[] = []): Network =>
    network({
      points: [fixedPoint('A', 0, 0), fixedPoint('B', 1000, 0), { ...freePoint('P', 400), y: fixed(0) }],
      readings: [level('A', 'P', 400, 1), level('B', 'P', 612, 1), ...extra],
    });

  test('two readings and one unknown: "one of these", and a repetition to separate them', () => {
    const solution = solved(solve(line()));
    expect(solution.globalTest.passed).toBe(false);
    expect([...(solution.suspicions[0]?.sources ?? [])].sort()).toEqual(['A-P', 'B-P']);
    expect(['A-P', 'B-P']).toContain(solution.suspicions[0]?.repeatToSeparate);
  });

  test('the advised repetition does separate them', () => {
    const solution = solved(solve(line([{ ...level('A', 'P', 400.3, 1), id: 'again' }])));
    expect(solution.suspicions[0]?.sources).toEqual(['B-P']);
    expect(solution.suspicions[0]?.likelyError).toBeCloseTo(612 - (1000 - (400 + 400.3) / 2), 6);
  });
});

describe('readings without control', () => {
  test('a reading that alone fixes something has no test and no detectable error', () => {
    const solution = solved(
      solve(
        network({
          points: [fixedPoint('A', 0, 0), { ...freePoint('P', 400), y: fixed(0) }],
          readings: [level('A', 'P', 412, 1)],
        }),
      ),
    );
    expect(solution.rows[0]).toMatchObject({ standardised: undefined, minimalDetectable: undefined });
    expect(solution.rows[0]?.redundancy).toBeCloseTo(0, 9);
    expect(solution.globalTest).toMatchObject({ dof: 0, p: 1, passed: true });
  });
});

test('the levels in use: 3.29 and 4.13 (Baarda: 0.1 % and 80 %)', () => {
  expect(CRITICAL).toBeCloseTo(3.2905, 4);
  expect(DETECTABLE).toBeCloseTo(4.1321, 4);
});
