/**
 * What must hold for every layout, tried on random ones: the placement network with random errors in its readings. Seeded: a failure prints its counterexample and comes back the same.
 */
import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { deriveAll } from '../../core/adjust/derive.ts';
import type { Network, Reading } from '../../core/adjust/network.ts';
import type { Estimates, Solution } from '../../core/adjust/solution.ts';
import { solve } from '../../core/adjust/solve.ts';
import { demoNetwork } from '../bench/demoNetwork.ts';
import { free, known, solved } from '../core/adjust/networks.ts';
import { withDatum, withErrors } from './placementErrors.ts';

// Hundreds of adjustments each: seconds on a free machine, far more beside other work.
vi.setConfig({ testTimeout: 180_000 });

const SEED = 20261125;
const runs = (numRuns: number) => ({ seed: SEED, numRuns });

const errors = fc.array(fc.double({ min: -1.5, max: 1.5, noNaN: true }), { minLength: 60, maxLength: 60 });
const placement = errors.map((list) => withErrors(demoNetwork(), list));

/** Where the target's face stands from the car's left line, how the fixture is turned to it, and the two hub distances. */
function findings({ point, body }: Estimates): number[] {
  const [rear, front, face] = [point('hub.RL'), point('hub.FL'), point('face')];
  const heading = Math.atan2(front.yMm - rear.yMm, front.xMm - rear.xMm);
  const [dx, dy] = [face.xMm - rear.xMm, face.yMm - rear.yMm];
  const turn = body('fixture').yawRad - heading;
  const right = point('hub.FR');
  return [
    Math.cos(heading) * dx + Math.sin(heading) * dy,
    Math.cos(heading) * dy - Math.sin(heading) * dx,
    face.zMm - rear.zMm,
    Math.atan2(Math.sin(turn), Math.cos(turn)),
    body('fixture').pitchRad,
    Math.hypot(front.xMm - rear.xMm, front.yMm - rear.yMm),
    Math.hypot(front.xMm - right.xMm, front.yMm - right.yMm),
  ];
}

/** Same values and covariance, to a share of their own uncertainties. */
function expectSame(a: Solution, b: Solution, mirror: readonly number[] = []): void {
  const [one, other] = [deriveAll(a, findings), deriveAll(b, findings)];
  const u = one.quantities.map((quantity) => quantity.u);
  one.values.forEach((value, i) => {
    const turned = (other.values[i] ?? Number.NaN) * (mirror[i] ?? 1);
    // Yaw near half a turn wraps: compare on the circle.
    const gap = i === 3 ? Math.atan2(Math.sin(value - turned), Math.cos(value - turned)) : value - turned;
    expect(Math.abs(gap) / (u[i] ?? 0), `value ${i}`).toBeLessThan(1e-5);
  });
  const m = u.length;
  one.covariance.forEach((value, k) => {
    const [i, j] = [Math.floor(k / m), k % m];
    const sign = (mirror[i] ?? 1) * (mirror[j] ?? 1);
    const scale = (u[i] ?? 0) * (u[j] ?? 0);
    expect(
      Math.abs(value - sign * (other.covariance[k] ?? Number.NaN)) / scale,
      `covariance ${i} ${j}`,
    ).toBeLessThan(1e-6);
  });
  expect(Math.abs(a.globalTest.chiSquare - b.globalTest.chiSquare)).toBeLessThan(1e-6);
  expect(a.globalTest.dof).toBe(b.globalTest.dof);
}

describe(`placement networks with random errors (seed ${SEED})`, () => {
  test('a free network and one with a minimal datum find the same, with the same covariance', () => {
    fc.assert(
      fc.property(placement, (document) => {
        const [freely, held] = [solved(solve(document)), solved(solve(withDatum(document)))];
        expect(freely.gauge).toEqual(['turn', 'x', 'y']);
        expect(held.gauge).toEqual([]);
        expectSame(freely, held);
        for (const { needsDatum } of deriveAll(freely, findings).quantities) expect(needsDatum).toBe(false);
      }),
      runs(50),
    );
  });

  test('unchanged when the bay frame is moved and turned', () => {
    fc.assert(
      fc.property(
        placement,
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -20_000, max: 20_000, noNaN: true }),
        fc.double({ min: -500, max: 500, noNaN: true }),
        (document, turn, shift, lift) => {
          const [c, s] = [Math.cos(turn), Math.sin(turn)];
          // Both ends of the left line known to 2 mm in every direction: a datum with uncertainty that can be turned.
          const hold = (dx: number, dy: number, dz: number, moved: boolean) => ({
            ...document,
            points: document.points.map((point) => {
              const x = { 'mark.RL': 0, 'mark.FL': 2704 }[point.id];
              if (x === undefined) return point;
              return moved
                ? { ...point, x: known(c * x + dx, 2), y: known(s * x + dy, 2) }
                : { ...point, x: known(x, 2), y: known(0, 2) };
            }),
            readings: document.readings.map((reading) =>
              reading.kind === 'height' && 'levelMm' in reading.above
                ? { ...reading, above: { levelMm: reading.above.levelMm + dz } }
                : reading,
            ),
          });
          const here = solved(solve(hold(0, 0, 0, false)));
          const there = solved(solve(hold(shift, -shift / 3, lift, true)));
          expectSame(here, there);
          const [a, b] = [here.estimates.point('face'), there.estimates.point('face')];
          expect(b.xMm).toBeCloseTo(c * a.xMm - s * a.yMm + shift, 4);
          expect(b.yMm).toBeCloseTo(s * a.xMm + c * a.yMm - shift / 3, 4);
          expect(b.zMm).toBeCloseTo(a.zMm + lift, 4);
        },
      ),
      runs(50),
    );
  });

  test('unchanged when readings, points and shared unknowns come in another order', () => {
    fc.assert(
      fc.property(placement, fc.integer({ min: 1, max: 1e6 }), (document, k) => {
        const shuffled = <T>(list: readonly T[]): T[] =>
          list
            .map((value, i) => ({ value, key: Math.sin((i + 1) * k) }))
            .sort((a, b) => a.key - b.key)
            .map(({ value }) => value);
        const other = {
          ...document,
          points: shuffled(document.points),
          readings: shuffled(document.readings),
          shared: shuffled(document.shared),
        };
        expectSame(solved(solve(document)), solved(solve(other)));
      }),
      runs(50),
    );
  });

  test('a mirrored layout has the mirrored answer', () => {
    fc.assert(
      fc.property(placement, (document) => {
        // Ahead, up, pitch and the lengths stay; left and yaw change sign.
        expectSame(solved(solve(document)), solved(solve(mirrored(document))), [1, -1, 1, -1, 1, 1, 1]);
      }),
      runs(50),
    );
  });

  test('one more reading, or an exact one, never raises the u of anything', () => {
    const pairs = fc.constantFrom(
      ['ahead.L', 'ahead.R'],
      ['mark.FL', 'mark.RR'],
      ['behind.L', 'end.carRight'],
      ['mark.RR', 'mark.FR'],
    );
    fc.assert(
      fc.property(placement, pairs, fc.boolean(), (document, [from = '', to = ''], exact) => {
        const held = withDatum(document);
        const before = solved(solve(held));
        const [a, b] = [before.estimates.point(from), before.estimates.point(to)];
        const value = Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm, a.zMm - b.zMm);
        const extra: Reading = exact
          ? {
              kind: 'constraint',
              id: 'extra',
              terms: [{ coefficient: 1, quantity: { of: 'distance', from, to } }],
              value,
              u: 'exact',
            }
          : { kind: 'distance', id: 'extra', from, to, mode: 'floor', valueMm: value, uMm: 0.3 };
        const after = solved(solve({ ...held, readings: [...held.readings, extra] }));
        before.unknowns.forEach(({ u, id }, i) => {
          expect(after.unknowns[i]?.u, id).toBeLessThanOrEqual(u * (1 + 1e-9));
        });
        const total = (solution: Solution) => solution.unknowns.reduce((sum, { u }) => sum + u, 0);
        expect(total(after)).toBeLessThan(total(before) * (1 - 1e-6));
      }),
      runs(50),
    );
  });

  test('taping again lowers U, but never the part that comes from the hub drops, and hardly that of the scale of the tape', () => {
    fc.assert(
      fc.property(placement, fc.integer({ min: 2, max: 9 }), (document, times) => {
        const taped = document.readings.filter((reading) => reading.instrument === 'tape');
        const again = Array.from({ length: times - 1 }, (_, k) =>
          taped.map((reading): Reading => ({ ...reading, id: `${reading.id}!${k}` })),
        ).flat();
        const once = solved(solve(document));
        const often = solved(solve({ ...document, readings: [...document.readings, ...again] }));
        const part = (solution: Solution, of: (source: string) => boolean): number[] =>
          deriveAll(solution, findings).quantities.map((quantity) =>
            Math.sqrt(
              quantity.contributions
                .filter(({ source }) => of(source))
                .reduce((sum, { u }) => sum + u * u, 0),
            ),
          );
        const hubDrop = (source: string) => /^drop\.[FR][LR]$/.test(source);
        const wheelbase = 5;
        const [before, after] = [part(once, hubDrop), part(often, hubDrop)];
        expect(after[wheelbase]).toBeGreaterThanOrEqual((before[wheelbase] ?? 0) * (1 - 1e-9));
        // What all taped lengths share does not average away: repetition would take nine times the readings to a third.
        const scale = (source: string) => source === 'tape.scale';
        expect(part(often, scale)[wheelbase]).toBeGreaterThan(0.95 * (part(once, scale)[wheelbase] ?? 0));
        const u = (solution: Solution) => deriveAll(solution, findings).quantities[wheelbase]?.u ?? 0;
        expect(u(often)).toBeLessThan(u(once));
        expect(u(often)).toBeGreaterThan(before[wheelbase] ?? 0);
      }),
      runs(50),
    );
  });

  test('redundancy numbers add up to the degrees of freedom and shares of variance to one', () => {
    fc.assert(
      fc.property(placement, (document) => {
        const solution = solved(solve(document));
        const sum = solution.rows.reduce((total, { redundancy }) => total + redundancy, 0);
        expect(sum).toBeCloseTo(solution.globalTest.dof, 7);
        for (const { contributions, u } of deriveAll(solution, findings).quantities) {
          expect(contributions.reduce((total, { share }) => total + share, 0)).toBeCloseTo(1, 9);
          // The parts add up to the variance of the covariance matrix: two ways to the same number.
          const squares = contributions.reduce((total, part) => total + part.u * part.u, 0);
          expect(Math.abs(Math.sqrt(squares) / u - 1)).toBeLessThan(1e-7);
        }
      }),
      runs(50),
    );
  });
});

/** The document seen in a mirror along the car: left and right change places. */
function mirrored(document: Network): Network {
  return {
    ...document,
    bodies: document.bodies.map((body) => ({
      ...body,
      points: body.points.map((point) => ({ ...point, yMm: -point.yMm })),
    })),
    readings: document.readings.map((reading): Reading => {
      switch (reading.kind) {
        case 'drop':
          return {
            ...reading,
            acrossMm: -reading.acrossMm,
            ...(reading.arm === undefined ? {} : { arm: { ...reading.arm, across: -reading.arm.across } }),
          };
        case 'offset':
          return { ...reading, valueMm: -reading.valueMm };
        case 'tilt':
          return reading.axis === 'roll' ? { ...reading, valueRad: -reading.valueRad } : reading;
        default:
          return reading;
      }
    }),
    sides: document.sides.map((one) => ({ ...one, side: one.side === 'left' ? 'right' : 'left' })),
  };
}

test('the layout is in the plan of the true one: nothing in these tests passes by being empty', () => {
  const solution = solved(solve(withDatum(demoNetwork())));
  expect(solution.unknowns.length).toBe(54);
  expect(solution.globalTest.passed).toBe(true);
  expect(findings(solution.estimates)[0]).toBeCloseTo(4963, -1);
  expect(free.state).toBe('free');
});
