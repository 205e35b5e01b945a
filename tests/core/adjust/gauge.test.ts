import { describe, expect, test } from 'vitest';
import { derive } from '../../../core/adjust/derive.ts';
import type { Network, Reading } from '../../../core/adjust/network.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { at } from '../../../core/linalg/at.ts';
import { fixedPoint, free, freePoint, level, network, solved } from './networks.ts';

const corners = {
  A: [0, 0, 0],
  B: [3000, 100, 50],
  C: [1200, 2500, -80],
  D: [900, 800, 1900],
  E: [2300, 1500, 700],
} as const;
type Corner = keyof typeof corners;
const ids: readonly Corner[] = ['A', 'B', 'C', 'D', 'E'];

function inSpace(id: Corner) {
  const [x, y, z] = corners[id];
  const start = (startMm: number) => ({ state: 'free', startMm }) as const;
  return { id, x: start(x), y: start(y), z: start(z) };
}

const slopes: readonly Reading[] = ids.flatMap((from, i) =>
  ids.slice(i + 1).map((to): Reading => {
    const [p, q] = [corners[from], corners[to]];
    const valueMm = Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]) + Math.sin(7 * i);
    return { kind: 'distance', id: `${from}${to}`, from, to, mode: 'slope', valueMm, uMm: 1 };
  }),
);

describe('freedoms of the whole layout', () => {
  test('distances in space alone: six', () => {
    const solution = solved(solve(network({ points: ids.map(inSpace), readings: slopes })));
    expect([...solution.gauge].sort()).toEqual(['tiltX', 'tiltY', 'turn', 'x', 'y', 'z']);
    expect(solution.globalTest.dof).toBe(10 + 6 - 15);
    const span = derive(solution, ({ point }) => {
      const [p, q] = [point('A'), point('E')];
      return Math.hypot(p.xMm - q.xMm, p.yMm - q.yMm, p.zMm - q.zMm);
    });
    expect(span.needsDatum).toBe(false);
    expect(derive(solution, ({ point }) => point('A').zMm - point('E').zMm).needsDatum).toBe(true);
  });

  test('one height reading knows where up is: the tilts are gone, and the heights must be held', () => {
    const heights = ids.slice(1).map(
      (point): Reading => ({
        kind: 'height',
        id: `h${point}`,
        point,
        above: { point: 'A' },
        valueMm: corners[point][2],
        uMm: 1,
      }),
    );
    const solution = solved(
      solve(network({ points: ids.map(inSpace), readings: [...slopes, ...heights.slice(0, 3)] })),
    );
    expect([...solution.gauge].sort()).toEqual(['turn', 'x', 'y', 'z']);
    expect(solution.globalTest.dof).toBe(13 + 4 - 15);
  });

  test('a fixed point leaves the turn about it', () => {
    const flat = (id: string, x: number, y: number) => freePoint(id, x, y);
    const readings = [level('A', 'B', 3000, 1), level('A', 'C', 2500, 1), level('B', 'C', 2800, 1)];
    const points = [fixedPoint('A', 500, -700), flat('B', 3500, -700), flat('C', 1500, 1600)];
    const solution = solved(solve(network({ points, readings })));
    expect(solution.gauge).toEqual(['turn']);
    expect(solution.estimates.point('A')).toMatchObject({ xMm: 500, yMm: -700 });
  });

  test('a body without points of the car: its level readings leave x, y and turn', () => {
    const pose = { x: free, y: free, z: free, yaw: free, pitch: free, roll: free };
    const own = (id: string, y: number) => ({ id, xMm: 0, yMm: y, zMm: 0, uXMm: 0, uYMm: 0, uZMm: 0 });
    const readings: readonly Reading[] = [
      { kind: 'height', id: 'hL', point: 'L', above: { levelMm: 0 }, valueMm: 900, uMm: 1 },
      { kind: 'height', id: 'hR', point: 'R', above: { levelMm: 0 }, valueMm: 910, uMm: 1 },
      { kind: 'tilt', id: 'p', body: 'bar', axis: 'pitch', valueRad: 0.01, uRad: 0.001 },
    ];
    const document = network({
      bodies: [{ id: 'bar', pose, points: [own('L', -500), own('R', 500)] }],
      readings,
    });
    const solution = solve(document);
    // Nothing reads the bar's place in plan at all: it is named, not moved about as a freedom.
    expect(solution.ok ? 'solved' : solution.error).toMatchObject({
      code: 'adjust/tooFewReadings',
      ids: ['bar'],
    });
  });
});

describe('inner constraints', () => {
  const readings = ids.flatMap((from, i) =>
    ids.slice(i + 1).map((to) => {
      const [p, q] = [corners[from], corners[to]];
      return level(from, to, Math.hypot(p[0] - q[0], p[1] - q[1]) + Math.cos(5 * i), 1);
    }),
  );
  const flat = (hold: readonly string[]): Network =>
    network({
      points: ids.map((id) => {
        const [x, y] = corners[id];
        const point = freePoint(id, x, y);
        return {
          ...point,
          ...(hold.includes(`${id}/x`) ? { x: { state: 'fixed', valueMm: x } as const } : {}),
          ...(hold.includes(`${id}/y`) ? { y: { state: 'fixed', valueMm: y } as const } : {}),
        };
      }),
      readings,
    });
  const freely = solved(solve(flat([])));

  test('the covariance has no part along any freedom: G Q is nought', () => {
    const n = freely.unknowns.length;
    const { freeMotions } = freely.linearised;
    expect(freely.gauge).toEqual(['turn', 'x', 'y']);
    for (let f = 0; f < 3; f++) {
      for (let j = 0; j < n; j++) {
        let sum = 0;
        for (let i = 0; i < n; i++) sum += at(freeMotions, f * n + i) * at(freely.covariance, i * n + j);
        expect(Math.abs(sum)).toBeLessThan(1e-9);
      }
    }
  });

  test('its trace is the smallest of all datums (Baarda, Meissl)', () => {
    const trace = (hold: readonly string[]): number =>
      solved(solve(flat(hold))).unknowns.reduce((sum, { u }) => sum + u * u, 0);
    const least = trace([]);
    for (const hold of [
      ['A/x', 'A/y', 'B/y'],
      ['C/x', 'C/y', 'D/x'],
      ['A/x', 'B/y', 'E/y'],
    ]) {
      expect(trace(hold)).toBeGreaterThan(least);
    }
  });

  test('residuals, redundancy and tests do not depend on the datum', () => {
    const held = solved(solve(flat(['A/x', 'A/y', 'B/y'])));
    freely.rows.forEach((row, i) => {
      expect(held.rows[i]?.residual).toBeCloseTo(row.residual, 7);
      expect(held.rows[i]?.redundancy).toBeCloseTo(row.redundancy, 9);
    });
  });
});
