/**
 * How the time of an adjustment grows with the layout: ten, a hundred and a thousand points of the same density in plan,
 * each taped to its neighbours, three of them given. Every u, redundancy and test as ever; the whole covariance (four
 * million numbers at a thousand points) is made only for small networks, as in use. The exponent told with each size is
 * that of the step to it from the size before.
 */
import type { Network, NetworkPoint, Reading } from '../../core/adjust/network.ts';
import { solve } from '../../core/adjust/solve.ts';
import { rounded } from './compare.ts';
import { type Timing, timed, timingOf } from './timing.ts';

const SPACING_MM = 600;
const SIZES = [
  { points: 10, runs: 41 },
  { points: 100, runs: 31 },
  { points: 1000, runs: 7 },
] as const;

/** Where a point of the uneven grid stands, mm. */
function place(i: number, width: number): readonly [number, number] {
  return [
    SPACING_MM * (i % width) + 80 * Math.sin(7.1 * i),
    SPACING_MM * Math.floor(i / width) + 80 * Math.cos(3.7 * i),
  ];
}

/** The layout: first guesses off by up to 5 mm, tapes rounded to half a millimetre. */
export function gridNetwork(count: number): Network {
  const width = Math.round(Math.sqrt(2.5 * count));
  const given = new Set([0, width - 1, count - 1]);
  const points = Array.from({ length: count }, (_, i): NetworkPoint => {
    const coordinate = (value: number, k: number) =>
      given.has(i)
        ? ({ state: 'fixed', valueMm: value } as const)
        : ({ state: 'free', startMm: value + 5 * Math.sin(3 * i + k) } as const);
    const [x, y] = place(i, width);
    return { id: `p${i}`, x: coordinate(x, 0), y: coordinate(y, 1), z: { state: 'fixed', valueMm: 0 } };
  });
  const readings = points.flatMap((_, i) => neighbours(i, width, count).map((j) => tape(i, j, width)));
  return { format: 'datumline-network-1', points, bodies: [], shared: [], readings, sides: [] };
}

/** Ahead, beside and on both diagonals, as far as the grid goes. */
function neighbours(i: number, width: number, count: number): readonly number[] {
  const [first, last] = [i % width === 0, i % width === width - 1];
  const found = last ? [i + width, i + width - 1] : [i + 1, i + width, i + width + 1];
  if (!first && !last) found.push(i + width - 1);
  return found.filter((j) => j < count);
}

function tape(i: number, j: number, width: number): Reading {
  const [[ax, ay], [bx, by]] = [place(i, width), place(j, width)];
  const valueMm = Math.round(2 * Math.hypot(ax - bx, ay - by)) / 2;
  return { kind: 'distance', id: `d${i}.${j}`, from: `p${i}`, to: `p${j}`, mode: 'level', valueMm, uMm: 0.7 };
}

/** One size measured; `exponent` is of the step from the size before: 1 linear, 2 as its square. */
export interface Growth extends Timing {
  readonly points: number;
  readonly unknowns: number;
  readonly exponent: number | null;
}

/** All three sizes, the smallest first. */
export async function benchGrowth(): Promise<readonly Growth[]> {
  const found: Growth[] = [];
  for (const { points, runs } of SIZES) {
    const network = gridNetwork(points);
    const values: number[] = [];
    let unknowns = 0;
    for (let k = -3; k < runs; k++) {
      const ms = await timed(async () => {
        const solution = solve(network);
        if (!solution.ok) throw new Error(JSON.stringify(solution.error));
        unknowns = solution.value.unknowns.length;
      });
      if (k >= 0) values.push(ms);
    }
    const timing = timingOf(`adjust ${points} points`, null, values);
    const before = found.at(-1);
    const exponent =
      before === undefined
        ? null
        : rounded(Math.log(timing.medianMs / before.medianMs) / Math.log(points / before.points));
    const step = exponent === null ? '' : `, growing with the power ${exponent}`;
    found.push({ ...timing, name: `${timing.name}${step}`, points, unknowns, exponent });
  }
  return found;
}
