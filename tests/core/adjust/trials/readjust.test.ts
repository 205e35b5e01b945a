/**
 * Trials side by side against the general solver, one by one: the same readings must give the same layout. Networks are
 * those of placements, with every kind of row they have, and small ones for the kinds they have not.
 */
import { describe, expect, test } from 'vitest';
import { Linearisation } from '../../../../core/adjust/linearise.ts';
import type { Network } from '../../../../core/adjust/network.ts';
import { prepare } from '../../../../core/adjust/problem.ts';
import type { Solution } from '../../../../core/adjust/solution.ts';
import { solve } from '../../../../core/adjust/solve.ts';
import { GroupedReadings } from '../../../../core/adjust/trials/laneReadings.ts';
import { laneRow } from '../../../../core/adjust/trials/laneRows.ts';
import { LANES, LaneState } from '../../../../core/adjust/trials/laneState.ts';
import { readingDraws } from '../../../../core/adjust/trials/readingDraws.ts';
import { type Readjuster, readjuster } from '../../../../core/adjust/trials/readjust.ts';
import { randomFrom } from '../../../../core/uncertainty/random.ts';
import { demoNetwork } from '../../../bench/demoNetwork.ts';
import { perturbedNetwork } from '../../../simulation/perturbedNetwork.ts';

/** The demo network with its rear marks holding the datum, so that it is not free. */
function held(document: Network = demoNetwork()): Network {
  const fixed = { state: 'fixed', valueMm: 0 } as const;
  return {
    ...document,
    points: document.points.map((point) => {
      if (point.id === 'mark.RL') return { ...point, x: fixed, y: fixed };
      return point.id === 'mark.FL' ? { ...point, y: fixed } : point;
    }),
  };
}

function solved(network: Network): Solution {
  const result = solve(network);
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  return result.value;
}

function trialsOf(network: Network): { readonly trials: Readjuster; readonly solution: Solution } {
  const solution = solved(network);
  const made = readjuster(network, solution);
  if (!made.ok) throw new Error(JSON.stringify(made.error));
  return { trials: made.value, solution };
}

/** All lanes read what the solution's readings say. */
function readExactly(trials: Readjuster, solution: Solution): void {
  for (const [r, row] of solution.rows.entries()) {
    trials.observed.fill(row.observed, r * LANES, (r + 1) * LANES);
  }
}

/** Draws one batch, readings off by `times` their u, and answers the largest difference from the general solver. */
function largestDifference(network: Network, seed: number, times: number): number {
  const { trials, solution } = trialsOf(network);
  const rows = solution.rows.map((row, r) => ({
    row: { ...row, u: row.u * times },
    dof: solution.linearised.dof[r] ?? Number.NaN,
    flat: row.kind === 'shared',
  }));
  readingDraws(rows, randomFrom(seed))(trials.observed);
  expect(trials.readjust()).toBeGreaterThan(1);
  let largest = 0;
  for (let lane = 0; lane < LANES; lane++) {
    const observed = solution.rows.map((_, r) => trials.observed[r * LANES + lane] ?? Number.NaN);
    const one = solved(perturbedNetwork(network, solution.rows, observed));
    for (const { id, value, unit } of one.unknowns) {
      const off = (trials.state.numbers[trials.offsetOf(id) + lane] ?? Number.NaN) - value;
      // A heading and the same a whole turn on are one.
      largest = Math.max(largest, Math.abs(unit === 'rad' ? Math.atan2(Math.sin(off), Math.cos(off)) : off));
    }
  }
  return largest;
}

/** Every kind with lanes, with scale, zero, arm, both axes of a body and both kinds of height. */
function everyKind(): Network {
  const base = held();
  return {
    ...base,
    shared: [
      ...base.shared,
      { id: 'level.zero', quantity: 'length', is: { state: 'known', valueMm: 0.4, uMm: 0.2 } },
      { id: 'tilt.zero', quantity: 'angle', is: { state: 'known', valueRad: 1e-3, uRad: 1e-3 } },
    ],
    readings: [
      ...base.readings,
      { kind: 'distance', id: 'x1', from: 'ahead.L', to: 'face', mode: 'level', valueMm: 1700, uMm: 1 },
      {
        kind: 'offset',
        id: 'x2',
        point: 'bar.carLeft',
        line: { from: 'ahead.R', to: 'ahead.L' },
        valueMm: -1000,
        uMm: 1,
        zero: 'tape.zero',
      },
      {
        kind: 'height',
        id: 'x3',
        point: 'face',
        above: { point: 'end.carLeft' },
        valueMm: 1300,
        uMm: 1,
        zero: 'level.zero',
      },
      {
        kind: 'tilt',
        id: 'x4',
        body: 'fixture',
        axis: 'roll',
        valueRad: 0.01,
        uRad: 1e-3,
        zero: 'tilt.zero',
      },
      {
        kind: 'drop',
        id: 'x5',
        point: 'face',
        mark: 'end.carRight',
        direction: { body: 'fixture', axis: 'y' },
        alongMm: 1200,
        acrossMm: 30,
        uAlongMm: 1,
        uAcrossMm: 1,
      },
      {
        kind: 'constraint',
        id: 'x6',
        terms: [
          { coefficient: 2, quantity: { of: 'coordinate', point: 'face', axis: 'x' } },
          { coefficient: -1, quantity: { of: 'pose', body: 'fixture', component: 'x' } },
          { coefficient: 3, quantity: { of: 'shared', shared: 'arm.left' } },
        ],
        value: 5000,
        u: 2,
      },
    ],
  };
}

describe('trials are the general solution of their own readings', () => {
  test.each([1, 2, 3])('errors as stated, seed %i: every unknown within 1e-6 mm', (seed) => {
    expect(largestDifference(held(), seed, 1)).toBeLessThan(1e-6);
  });

  test('errors ten times as large', () => {
    expect(largestDifference(held(), 4, 10)).toBeLessThan(1e-5);
  });

  test('with every kind of reading, distances to a point of a body among them', () => {
    const fitting = solved(everyKind());
    const read = fitting.rows.map(({ observed, residual }) => observed - residual);
    expect(largestDifference(perturbedNetwork(everyKind(), fitting.rows, read), 5, 1)).toBeLessThan(1e-6);
  });

  test('no error: the solution itself', () => {
    const { trials, solution } = trialsOf(held());
    readExactly(trials, solution);
    expect(trials.readjust()).toBeGreaterThanOrEqual(1);
    for (const { id, value } of solution.unknowns) {
      expect(Math.abs((trials.state.numbers[trials.offsetOf(id)] ?? Number.NaN) - value)).toBeLessThan(1e-7);
    }
  });

  test('lanes do not touch each other: one reading off in one lane moves that lane alone', () => {
    const { trials, solution } = trialsOf(held());
    readExactly(trials, solution);
    const row = solution.rows.findIndex(({ source }) => source === 'tape.ahead.L.ahead.R');
    trials.observed[row * LANES + 2] = (trials.observed[row * LANES + 2] ?? Number.NaN) + 3;
    trials.readjust();
    const offset = trials.placeOffset('ahead.R') + LANES;
    const y = (lane: number) => trials.state.numbers[offset + lane] ?? Number.NaN;
    expect(Math.abs(y(2) - y(0))).toBeGreaterThan(0.1);
    for (const lane of [1, 3, 4, 5, 6, 7]) expect(y(lane)).toBe(y(0));
  });
});

describe('rows on lanes are the rows of the models', () => {
  test('the pull of every reading is that of its model, at layouts that fit nothing', () => {
    const network = everyKind();
    const prepared = prepare(network);
    if (!prepared.ok) throw new Error(JSON.stringify(prepared.error));
    const { layout, bound, observations } = prepared.value;
    const state = new LaneState(layout);
    const lin = new Linearisation(prepared.value);
    const uniform = randomFrom(9).uniform;
    const truth = solved(held());
    const value = new Map(truth.unknowns.map(({ id, value: v }) => [id, v] as const));
    layout.slots.forEach((slot, s) => {
      const middle = value.get(slot.id) ?? slot.prior.value ?? 0;
      const spread = slot.unit === 'mm' ? 40 : slot.unit === 'rad' ? 0.05 : 1e-3;
      for (let i = 0; i < LANES; i++) state.numbers[s * LANES + i] = middle + spread * (uniform() - 0.5);
    });
    const observed = Float64Array.from({ length: observations.length * LANES }, () => 1000 * uniform());
    const ids = {
      place: (id: string) => state.place(layout.placeById.get(id) ?? -1),
      body: (id: string) => {
        const number = layout.bodyById.get(id) ?? -1;
        return { number, pose: (layout.bodies[number]?.slot ?? 0) * LANES };
      },
      shared: (id: string | undefined) => (id === undefined ? -1 : (layout.sharedById.get(id) ?? -1) * LANES),
    };
    let first = 0;
    for (const [k, reading] of network.readings.entries()) {
      const rows = bound[k]?.heads.length ?? 0;
      const lanes = laneRow(reading, first, ids);
      if (lanes === undefined) throw new Error(`${reading.id} has no lanes`);
      const weight = new Float64Array(observations.length).fill(0.37);
      state.update();
      new GroupedReadings([lanes]).write(state, { observed, weight }, false);
      for (let lane = 0; lane < LANES; lane += 3) {
        for (let s = 0; s < layout.slots.length; s++)
          lin.state.values[s] = state.numbers[s * LANES + lane] ?? 0;
        lin.evaluate();
        const expected = new Float64Array(layout.slotOfColumn.length);
        for (let r = first; r < first + rows; r++) {
          const v = 0.37 * ((observed[r * LANES + lane] ?? 0) - (lin.rows.computed[r] ?? 0));
          for (let e = lin.rows.start[r] ?? 0; e < (lin.rows.start[r + 1] ?? 0); e++) {
            const column = lin.rows.columns[e] ?? 0;
            expected[column] = (expected[column] ?? 0) + v * (lin.rows.partials[e] ?? 0);
          }
        }
        layout.slotOfColumn.forEach((slot, column) => {
          const found = state.pull[slot * LANES + lane] ?? Number.NaN;
          const scale = 1 + Math.abs(expected[column] ?? 0);
          expect(Math.abs(found - (expected[column] ?? 0)) / scale, reading.id).toBeLessThan(1e-9);
        });
      }
      first += rows;
    }
  });
});

describe('what has no lanes says so', () => {
  const because = (network: Network): unknown => {
    const made = readjuster(network, solved(network));
    return made.ok ? undefined : [made.error.cause, made.error.ids];
  };

  test('a free network', () => {
    expect(because(demoNetwork())).toEqual(['freeNetwork', []]);
  });

  test('a constraint held exactly', () => {
    const base = held();
    const exact = {
      kind: 'constraint',
      id: 'held',
      terms: [{ coefficient: 1, quantity: { of: 'coordinate', point: 'end.carLeft', axis: 'z' } }],
      value: 17,
      u: 'exact',
    } as const;
    expect(because({ ...base, readings: [...base.readings, exact] })).toEqual(['exact', ['held']]);
  });

  test('a kind of reading that placements do not have', () => {
    const base = held();
    const seen = {
      kind: 'angle',
      id: 'seen',
      first: { from: 'mark.RL', to: 'mark.FL' },
      second: { from: 'mark.RR', to: 'mark.FR' },
      valueRad: 0,
      uRad: 0.01,
    } as const;
    expect(because({ ...base, readings: [...base.readings, seen] })).toEqual(['kindOfReading', ['seen']]);
  });

  test("another network's solution", () => {
    const base = held();
    const made = readjuster({ ...base, readings: base.readings.slice(1) }, solved(base));
    expect(made.ok ? undefined : made.error.cause).toBe('notThisNetwork');
  });
});
