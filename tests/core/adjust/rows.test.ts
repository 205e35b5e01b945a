import { describe, expect, test } from 'vitest';
import { Linearisation } from '../../../core/adjust/linearise.ts';
import type { Body, Network } from '../../../core/adjust/network.ts';
import { prepare } from '../../../core/adjust/problem.ts';
import { demoNetwork } from '../../bench/demoNetwork.ts';
import { fixedPoint, free, network } from './networks.ts';

const body: Body = {
  id: 'stand',
  pose: { x: free, y: free, z: free, yaw: free, pitch: free, roll: free },
  points: [{ id: 'tip', xMm: 100, yMm: -300, zMm: 250, uXMm: 0, uYMm: 0.4, uZMm: 0 }],
};

const steepNetwork = network({
  points: [fixedPoint('A', 0, 0), fixedPoint('B', 900, 100)],
  bodies: [body],
  readings: [
    { kind: 'distance', id: 'd', from: 'A', to: 'tip', mode: 'slope', valueMm: 700, uMm: 1 },
    {
      kind: 'angle',
      id: 'a',
      first: { from: 'A', to: 'B' },
      second: { body: 'stand', axis: 'y' },
      valueRad: 0.4,
      uRad: 0.01,
    },
    { kind: 'tilt', id: 't', body: 'stand', axis: 'roll', valueRad: 0.1, uRad: 0.01 },
  ],
});

function linearised(document: Network): Linearisation {
  const problem = prepare(document);
  if (!problem.ok) throw new Error(problem.error.code);
  return new Linearisation(problem.value);
}

/** Places in no special relation to each other. */
function scatter({ state }: Linearisation, seed: number): void {
  state.values.forEach((_, i) => {
    state.values[i] = (state.layout.slots[i]?.unit === 'mm' ? 1000 : 0.2) * Math.sin(7 * i + seed);
  });
}

function written({ rows, residuals }: Linearisation) {
  const used = rows.start.at(-1) ?? 0;
  return {
    start: [...rows.start],
    columns: [...rows.columns.subarray(0, used)],
    // A sum that begins with nought has no negative nought.
    partials: [...rows.partials.subarray(0, used)].map((value) => value + 0),
    computed: [...rows.computed],
    residuals: [...residuals],
  };
}

describe('rows written again', () => {
  test.each([
    ['the demo placement', demoNetwork()],
    ['a body', steepNetwork],
  ])('%s: at other values they are what rows written for the first time are', (_, document) => {
    const again = linearised(document);
    for (const seed of [1, 2, 3]) {
      const anew = linearised(document);
      for (const lin of [again, anew]) {
        scatter(lin, seed);
        lin.evaluate();
      }
      expect(written(again)).toEqual(written(anew));
    }
  });

  test('when other unknowns are chosen in between they follow the new ones', () => {
    const again = linearised(steepNetwork);
    const steepPitch = (lin: Linearisation): void => {
      scatter(lin, 1);
      lin.state.values[(lin.state.layout.bodies[0]?.slot ?? 0) + 4] = 1.5;
    };
    steepPitch(again);
    again.evaluate();
    const before = written(again);
    again.state.chooseUnknowns();
    again.evaluate();
    const anew = linearised(steepNetwork);
    steepPitch(anew);
    anew.state.chooseUnknowns();
    anew.evaluate();
    expect(again.state.steep[0]).toBe(1);
    expect(written(again)).toEqual(written(anew));
    expect(written(again).partials).not.toEqual(before.partials);
  });

  test('a partial left out is a bug, not a row in the wrong place', () => {
    const { rows } = linearised(steepNetwork);
    const write = (slots: readonly number[]): void => {
      rows.begin();
      rows.row(1);
      for (const slot of slots) rows.slot(slot, 1);
      rows.end();
    };
    write([6, 7, 8]);
    write([6, 7, 8]);
    expect(() => write([6, 7])).toThrow('models write the same partials every time');
    expect(() => write([6, 7, 8, 9])).toThrow();
  });
});
