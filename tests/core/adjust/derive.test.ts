import { describe, expect, test } from 'vitest';
import { derive, deriveAll } from '../../../core/adjust/derive.ts';
import type { Estimates, Solution } from '../../../core/adjust/solution.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { coverageFactor } from '../../../core/uncertainty/coverage.ts';
import { demoNetwork } from '../../bench/demoNetwork.ts';
import { fixed, fixedPoint, known, network, solved } from './networks.ts';

const demo = solved(solve(demoNetwork()));

function index(solution: Solution, id: string): number {
  return solution.unknowns.findIndex((unknown) => unknown.id === id);
}

function covarianceOf(solution: Solution, a: string, b: string): number {
  return (
    solution.covariance[index(solution, a) * solution.unknowns.length + index(solution, b)] ?? Number.NaN
  );
}

describe('against analytic propagation', () => {
  test('single unknowns: the covariance matrix itself', () => {
    const names = ['mark.FL/x', 'mark.RR/y', 'fixture/yaw', 'fixture/z'] as const;
    const { covariance } = deriveAll(demo, ({ point, body }) => [
      point('mark.FL').xMm,
      point('mark.RR').yMm,
      body('fixture').yawRad,
      body('fixture').zMm,
    ]);
    names.forEach((a, i) => {
      names.forEach((b, j) => {
        const size = Math.sqrt(covarianceOf(demo, a, a) * covarianceOf(demo, b, b));
        expect(Math.abs((covariance[4 * i + j] ?? 0) - covarianceOf(demo, a, b)) / size).toBeLessThan(1e-9);
      });
    });
  });

  test('a distance: e Q e with the unit vector between the points', () => {
    const [p, q] = [demo.estimates.point('ahead.L'), demo.estimates.point('behind.R')];
    const d = [p.xMm - q.xMm, p.yMm - q.yMm, p.zMm - q.zMm];
    const size = Math.hypot(...d);
    let variance = 0;
    const parts = ['x', 'y', 'z'].flatMap((c, k) => [
      [`ahead.L/${c}`, (d[k] ?? 0) / size] as const,
      [`behind.R/${c}`, -(d[k] ?? 0) / size] as const,
    ]);
    for (const [a, ca] of parts) for (const [b, cb] of parts) variance += ca * cb * covarianceOf(demo, a, b);
    const found = derive(demo, ({ point }) => {
      const [s, t] = [point('ahead.L'), point('behind.R')];
      return Math.hypot(s.xMm - t.xMm, s.yMm - t.yMm, s.zMm - t.zMm);
    });
    expect(found.value).toBeCloseTo(size, 9);
    expect(Math.abs(found.u / Math.sqrt(variance) - 1)).toBeLessThan(1e-8);
  });

  test('a point of the body: the pose and its own coordinates both count', () => {
    const whole = derive(demo, ({ point }) => point('face').zMm);
    const poseOnly = derive(demo, ({ body }) => body('fixture').zMm + 330);
    expect(whole.contributions.some(({ kind }) => kind === 'height')).toBe(true);
    expect(whole.u).not.toBeCloseTo(poseOnly.u, 3);
    // The face is what was levelled: its height is known as well as that reading.
    expect(whole.u).toBeCloseTo(0.8, 6);
    expect(whole.contributions[0]).toMatchObject({
      source: 'level.face',
      kind: 'height',
      instrument: 'level',
    });
    expect(whole.contributions[0]?.share).toBeCloseTo(1, 6);
  });

  test('a shared unknown', () => {
    const arm = derive(demo, ({ shared }) => shared('arm.left'));
    expect(arm.value).toBeCloseTo(150, 0);
    expect(arm.u).toBeLessThanOrEqual(0.3 * (1 + 1e-9));
  });
});

describe('coverage', () => {
  test('one reading with 20 dof hands its dof on; k follows t, U is k u', () => {
    const solution = solved(
      solve(
        network({
          points: [
            fixedPoint('A', 0, 0),
            { id: 'P', x: { ...known(500, 0.4), dof: 20 }, y: fixed(0), z: fixed(0) },
          ],
        }),
      ),
    );
    const x = derive(solution, ({ point }) => 2 * point('P').xMm);
    expect(x.value).toBeCloseTo(1000, 9);
    expect(x.u).toBeCloseTo(0.8, 9);
    expect(x.dof).toBeCloseTo(20, 6);
    expect(x.k).toBeCloseTo(coverageFactor(20), 9);
    expect(x.U).toBeCloseTo(x.k * 0.8, 9);
    expect(x.contributions).toEqual([
      { source: 'P', kind: 'knownCoordinate', instrument: undefined, share: 1, u: expect.closeTo(0.8, 9) },
    ]);
  });

  test('effective dof of the demo lies between that of the drops and infinity', () => {
    const wheelbase = derive(demo, ({ point }) => {
      const [p, q] = [point('hub.FL'), point('hub.RL')];
      return Math.hypot(p.xMm - q.xMm, p.yMm - q.yMm);
    });
    expect(wheelbase.dof).toBeGreaterThan(40);
    expect(wheelbase.dof).toBeLessThan(100);
    expect(wheelbase.shareByKind.drop).toBeGreaterThan(0.7);
    const kinds = Object.values(wheelbase.shareByKind).reduce((sum, share) => sum + share, 0);
    expect(kinds).toBeCloseTo(1, 9);
  });

  test('an exact quantity has no uncertainty and nothing that contributes', () => {
    const found = derive(demo, () => 42);
    expect(found).toMatchObject({ value: 42, u: 0, U: 0, dof: Number.POSITIVE_INFINITY, contributions: [] });
  });
});

describe('datum', () => {
  const inFrame = (fn: (estimates: Estimates) => number): boolean => derive(demo, fn).needsDatum;

  test('a place in a bay frame that no reading fixes is no finding; what is between points is', () => {
    expect(inFrame(({ point }) => point('mark.FL').xMm)).toBe(true);
    expect(inFrame(({ body }) => body('fixture').yawRad)).toBe(true);
    expect(inFrame(({ point }) => point('mark.FL').zMm)).toBe(false);
    expect(inFrame(({ body }) => body('fixture').rollRad)).toBe(false);
    expect(
      inFrame(({ point }) =>
        Math.hypot(point('mark.FL').xMm - point('mark.RR').xMm, point('mark.FL').yMm - point('mark.RR').yMm),
      ),
    ).toBe(false);
  });

  test('with everything fixed in place nothing needs one', () => {
    const points = demoNetwork().points.map((point) =>
      point.id === 'mark.RL' || point.id === 'mark.FL'
        ? { ...point, x: fixed(point.id === 'mark.FL' ? 2704 : 0), y: fixed(0) }
        : point,
    );
    const held = solved(solve({ ...demoNetwork(), points }));
    expect(derive(held, ({ point }) => point('face').xMm).needsDatum).toBe(false);
  });
});

test('an id that is not in the network is a bug and throws', () => {
  expect(() => derive(demo, ({ point }) => point('nowhere').xMm)).toThrow(/no point nowhere/);
  expect(() => derive(demo, ({ body }) => body('nobody').xMm)).toThrow(/no body nobody/);
  expect(() => derive(demo, ({ shared }) => shared('nothing'))).toThrow(/no shared unknown nothing/);
});
