import { describe, expect, test } from 'vitest';
import type { Network } from '../../../core/adjust/network.ts';
import type { Solution } from '../../../core/adjust/solution.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { at, indexAt } from '../../../core/linalg/at.ts';
import { gridNetwork } from '../../bench/growth.ts';

/** 190 points: more unknowns than the whole covariance is made for without being asked. */
const grid = gridNetwork(190);
const middleRow = 'p90';

const held: Network = {
  ...grid,
  readings: [
    ...grid.readings,
    {
      kind: 'constraint',
      id: 'sameY',
      terms: [
        { coefficient: 1, quantity: { of: 'coordinate', point: middleRow, axis: 'y' } },
        { coefficient: -1, quantity: { of: 'coordinate', point: 'p91', axis: 'y' } },
      ],
      value: 0,
      u: 'exact',
    },
  ],
};

function solved(network: Network): Solution {
  const answer = solve(network);
  if (!answer.ok) throw new Error(JSON.stringify(answer.error));
  return answer.value;
}

/** a Q a' of a row from the whole covariance. */
function varianceOfRow({ covariance, unknowns, linearised }: Solution, row: number): number {
  const { rowStart, column, coefficient } = linearised;
  let sum = 0;
  for (let e = indexAt(rowStart, row); e < indexAt(rowStart, row + 1); e++) {
    for (let f = indexAt(rowStart, row); f < indexAt(rowStart, row + 1); f++) {
      const q = at(covariance, indexAt(column, e) * unknowns.length + indexAt(column, f));
      sum += at(coefficient, e) * q * at(coefficient, f);
    }
  }
  return sum;
}

describe.each([
  ['tapes alone', grid],
  ['with a hard constraint', held],
])(
  'a large network, %s: what is told without the whole covariance is what the whole one says',
  (_, network) => {
    const solution = solved(network);
    const n = solution.unknowns.length;

    test('it is large, and the covariance belongs to it', () => {
      expect(n).toBeGreaterThan(300);
      expect(solution.covariance).toHaveLength(n * n);
      expect(solution.covariance).toBe(solution.covariance);
    });

    test('u of every unknown', () => {
      solution.unknowns.forEach(({ u }, i) => {
        const whole = Math.sqrt(Math.max(0, at(solution.covariance, i * n + i)));
        expect(Math.abs(u - whole)).toBeLessThan(1e-9);
      });
    });

    test('redundancy of every row', () => {
      solution.rows.forEach(({ u, redundancy }, r) => {
        const whole = u === 0 ? 0 : 1 - varianceOfRow(solution, r) / (u * u);
        expect(Math.abs(redundancy - whole)).toBeLessThan(1e-9);
      });
      const sum = solution.rows.reduce((all, { redundancy }) => all + redundancy, 0);
      expect(sum).toBeCloseTo(solution.globalTest.dof, 6);
    });

    test('the constraint leaves no variance across it', () => {
      const [a, b] = [`${middleRow}/y`, 'p91/y'].map((id) =>
        solution.unknowns.findIndex((one) => one.id === id),
      );
      const q = (i = -1, j = -1): number => at(solution.covariance, i * n + j);
      const apart = q(a, a) + q(b, b) - 2 * q(a, b);
      if (network === held) expect(Math.abs(apart)).toBeLessThan(1e-9);
      else expect(apart).toBeGreaterThan(0.01);
    });
  },
);

test('the condition of a small network and of a large one of the same kind are of one size', () => {
  // 150 points are solved whole, 160 by the bound: the step between them may not show.
  const [whole, bound] = [solved(gridNetwork(150)), solved(gridNetwork(160))];
  expect(whole.unknowns.length).toBeLessThanOrEqual(300);
  expect(bound.unknowns.length).toBeGreaterThan(300);
  expect(bound.condition / whole.condition).toBeGreaterThan(0.8);
  expect(bound.condition / whole.condition).toBeLessThan(1.3);
});
