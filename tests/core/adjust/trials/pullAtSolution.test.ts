/** The first pull of a trial without geometry, against the rows of the solution multiplied out. */
import { describe, expect, test } from 'vitest';
import { solve } from '../../../../core/adjust/solve.ts';
import { LANES } from '../../../../core/adjust/trials/laneState.ts';
import { PullAtSolution } from '../../../../core/adjust/trials/pullAtSolution.ts';
import { randomFrom } from '../../../../core/uncertainty/random.ts';
import { demoNetwork } from '../../../bench/demoNetwork.ts';

/** Two rows of two unknowns: row 0 = 2 a - b with weight 4, row 1 = 3 b with weight 0.5. */
const SMALL = {
  rowStart: Int32Array.of(0, 2, 3),
  column: Int32Array.of(0, 1, 1),
  coefficient: Float64Array.of(2, -1, 3),
  weight: Float64Array.of(4, 0.5),
};

/** The two unknowns stand in the state at 3 and 1. */
const SLOTS = Int32Array.of(1, 0);
const AT_REST = new Float64Array(2 * LANES).fill(1, 0, LANES).fill(3, LANES);
const every32 = (count: number) => Int32Array.from({ length: count }, (_, k) => k);

function solvedDemo() {
  const solved = solve(demoNetwork());
  if (!solved.ok) throw new Error(solved.error.code);
  return solved.value;
}

describe('the pull at the solution', () => {
  const { linearised, rows } = solvedDemo();
  const small = { ...linearised, ...SMALL, x: Float64Array.of(3, 1) };

  test('by hand: readings 1 and -2 off pull a by 8 and b by -4 - 3', () => {
    const observed = new Float64Array(2 * LANES).fill(11, 0, LANES).fill(18, LANES);
    const pull = new Float64Array(2 * LANES);
    new PullAtSolution(small, [0, 1], [0, 1], Float64Array.of(10, 20), SLOTS).write(observed, AT_REST, pull);
    expect([...pull]).toEqual([...Array(LANES).fill(8), ...Array(LANES).fill(-7)]);
  });

  test('rows and unknowns that are not of the stage stay out, and the order is that of the unknowns given', () => {
    const observed = new Float64Array(2 * LANES).fill(11, 0, LANES).fill(18, LANES);
    const middle = Float64Array.of(10, 20);
    const pull = new Float64Array(LANES);
    new PullAtSolution(small, [1], [1], middle, SLOTS).write(observed, AT_REST, pull);
    expect([...pull]).toEqual(Array(LANES).fill(-3));
    const both = new Float64Array(2 * LANES);
    new PullAtSolution(small, [0, 1], [1, 0], middle, SLOTS).write(observed, AT_REST, both);
    expect([...both]).toEqual([...Array(LANES).fill(-7), ...Array(LANES).fill(8)]);
  });

  test('an unknown outside that has moved by 2 in one lane moves the rows: 4 * 2 * -1 * 2 off the pull on b', () => {
    const observed = new Float64Array(2 * LANES).fill(10, 0, LANES).fill(20, LANES);
    const numbers = AT_REST.slice();
    numbers[LANES + 3] = 5;
    const pull = new Float64Array(LANES);
    new PullAtSolution(small, [0, 1], [1], Float64Array.of(10, 20), SLOTS).write(observed, numbers, pull);
    expect([...pull].map((each) => each + 0)).toEqual([0, 0, 0, 16, 0, 0, 0, 0]);
  });

  test('of a whole network: partials transposed, times weight, times what each lane reads otherwise', () => {
    const n = linearised.x.length;
    const { uniform } = randomFrom(3);
    const middle = Float64Array.from(rows, ({ observed }) => observed);
    const observed = Float64Array.from(
      { length: rows.length * LANES },
      (_, k) => (middle[Math.floor(k / LANES)] ?? 0) + uniform() - 0.5,
    );
    const every = (count: number): number[] => Array.from({ length: count }, (_, k) => k);
    const pull = new Float64Array(n * LANES);
    new PullAtSolution(linearised, every(rows.length), every(n), middle, every32(n)).write(
      observed,
      AT_REST,
      pull,
    );
    for (let lane = 0; lane < LANES; lane++) {
      const expected = new Float64Array(n);
      const size = new Float64Array(n);
      for (let r = 0; r < rows.length; r++) {
        const off = (observed[r * LANES + lane] ?? 0) - (middle[r] ?? 0);
        for (let e = linearised.rowStart[r] ?? 0; e < (linearised.rowStart[r + 1] ?? 0); e++) {
          const c = linearised.column[e] ?? 0;
          const term = (linearised.weight[r] ?? 0) * (linearised.coefficient[e] ?? 0) * off;
          expected[c] = (expected[c] ?? 0) + term;
          size[c] = (size[c] ?? 0) + Math.abs(term);
        }
      }
      for (let c = 0; c < n; c++) {
        const gap = Math.abs((pull[c * LANES + lane] ?? Number.NaN) - (expected[c] ?? 0));
        expect(gap).toBeLessThanOrEqual(1e-12 * (size[c] ?? 0));
      }
    }
  });
});
