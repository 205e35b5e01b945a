/**
 * One adjustment in space serves level floors too: where nothing slopes it gives what a plan adjustment and a separate
 * adjustment of heights give, and on a slope it gives what they do not.
 */
import { describe, expect, test } from 'vitest';
import type { Network, NetworkPoint, Reading } from '../../../core/adjust/network.ts';
import type { Solution } from '../../../core/adjust/solution.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { fixed, free, network, solved } from './networks.ts';

const spots = { A: [0, 0], B: [5200, 100], C: [4900, 2600], D: [300, 2400], E: [2500, 1300] } as const;
type Spot = keyof typeof spots;
const ids: readonly Spot[] = ['A', 'B', 'C', 'D', 'E'];
const pairs = ids.flatMap((a, i) => ids.slice(i + 1).map((b) => [a, b] as const));

/** Height of the floor at a spot. */
const floorAt = (slope: number, id: Spot): number => slope * (spots[id][0] + 0.5 * spots[id][1]);

function readings(slope: number): {
  readonly tapes: readonly Reading[];
  readonly levels: readonly Reading[];
} {
  const tapes = pairs.map(([from, to], k): Reading => {
    const rise = floorAt(slope, to) - floorAt(slope, from);
    const length = Math.hypot(spots[to][0] - spots[from][0], spots[to][1] - spots[from][1], rise);
    const valueMm = length + 0.6 * Math.sin(7 * k);
    return { kind: 'distance', id: `${from}${to}`, from, to, mode: 'floor', valueMm, uMm: 0.7 };
  });
  const levels = pairs.map(([above, point], k): Reading => {
    const valueMm = floorAt(slope, point) - floorAt(slope, above) + 0.3 * Math.cos(5 * k);
    return { kind: 'height', id: `${above}^${point}`, point, above: { point: above }, valueMm, uMm: 0.4 };
  });
  return { tapes, levels };
}

function points(plan: 'free' | 'given', height: 'free' | 'given'): NetworkPoint[] {
  return ids.map((id) => {
    const is = (value: number, open: boolean) =>
      open ? { state: 'free' as const, startMm: value } : fixed(value);
    const [x, y] = spots[id];
    return {
      id,
      x: is(x, plan === 'free' && id !== 'A'),
      y: is(y, plan === 'free' && id !== 'A' && id !== 'B'),
      z: height === 'free' && id !== 'A' ? free : fixed(0),
    };
  });
}

function blocks(slope: number): {
  readonly joint: Solution;
  readonly plan: Solution;
  readonly height: Solution;
} {
  const { tapes, levels } = readings(slope);
  const solvedOf = (parts: Partial<Network>) => solved(solve(network(parts)));
  return {
    joint: solvedOf({ points: points('free', 'free'), readings: [...tapes, ...levels] }),
    plan: solvedOf({ points: points('free', 'given'), readings: tapes }),
    height: solvedOf({ points: points('given', 'free'), readings: levels }),
  };
}

const number = (solution: Solution, id: string): number =>
  solution.unknowns.findIndex((one) => one.id === id);

describe('a level floor', () => {
  // The heights differ by their errors only, a third of a millimetre in metres: a slant of 1e-4.
  const { joint, plan, height } = blocks(0);

  test('joint in space, or plan and heights apart: the same estimates and covariance', () => {
    for (const block of [plan, height]) {
      const n = block.unknowns.length;
      const at = block.unknowns.map(({ id }) => number(joint, id));
      block.unknowns.forEach(({ id, value, u }, i) => {
        const other = joint.unknowns[at[i] ?? -1];
        expect(Math.abs((other?.value ?? Number.NaN) - value), id).toBeLessThan(1e-3);
        expect(Math.abs((other?.u ?? Number.NaN) / u - 1), id).toBeLessThan(1e-6);
        at.forEach((column, j) => {
          const gap =
            (joint.covariance[(at[i] ?? 0) * joint.unknowns.length + column] ?? Number.NaN) -
            (block.covariance[i * n + j] ?? Number.NaN);
          expect(Math.abs(gap) / (u * (block.unknowns[j]?.u ?? 1))).toBeLessThan(1e-6);
        });
      });
    }
    expect(joint.globalTest.dof).toBe(plan.globalTest.dof + height.globalTest.dof);
    expect(joint.globalTest.chiSquare).toBeCloseTo(
      plan.globalTest.chiSquare + height.globalTest.chiSquare,
      3,
    );
  });
});

test('on a slope of 3 % a floor tape taken for level is millimetres off; the joint adjustment is not', () => {
  const { joint, plan } = blocks(0.03);
  const off = (solution: Solution): number => Math.abs(solution.estimates.point('C').xMm - spots.C[0]);
  expect(off(joint)).toBeLessThan(1);
  expect(off(plan)).toBeGreaterThan(2);
});
