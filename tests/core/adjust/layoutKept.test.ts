import { describe, expect, test } from 'vitest';
import { layOut } from '../../../core/adjust/layout.ts';
import { laidOutAs, layOutAgain } from '../../../core/adjust/layoutKept.ts';
import type { Network } from '../../../core/adjust/network.ts';

const base: Network = {
  format: 'datumline-network-1',
  points: [
    {
      id: 'A',
      x: { state: 'fixed', valueMm: 0 },
      y: { state: 'free', startMm: 5 },
      z: { state: 'known', valueMm: 3, uMm: 0.5 },
    },
    { id: 'B', x: { state: 'free' }, y: { state: 'free' }, z: { state: 'fixed', valueMm: 0 } },
  ],
  bodies: [
    {
      id: 'stand',
      pose: {
        x: { state: 'free' },
        y: { state: 'free' },
        z: { state: 'known', valueMm: 900, uMm: 1, dof: 12 },
        yaw: { state: 'free', startRad: 0.1 },
        pitch: { state: 'fixed', valueRad: 0 },
        roll: { state: 'known', valueRad: 0, uRad: 0.01 },
      },
      points: [
        { id: 'tip', xMm: 1, yMm: 2, zMm: 3, uXMm: 0, uYMm: 0.4, uZMm: 0 },
        { id: 'foot', xMm: 0, yMm: 0, zMm: -900, uXMm: 0, uYMm: 0, uZMm: 0 },
      ],
    },
  ],
  shared: [
    { id: 'hook', quantity: 'length', is: { state: 'known', valueMm: 0, uMm: 0.2 } },
    { id: 'zero', quantity: 'angle', is: { state: 'known', valueRad: 0, uRad: 0.001 } },
    { id: 'scale', quantity: 'ratio', is: { state: 'known', value: 0, u: 0.0001, dof: 20 } },
  ],
  readings: [],
  sides: [],
};

/** Every other document that differs from `value` in one number, text or absent field, or in the order or length of a list. */
function* changed(value: unknown): Generator<unknown> {
  if (typeof value === 'number') yield value + 1;
  else if (typeof value === 'string') {
    if (
      /^[A-Z]|^[a-z]+$/.test(value) &&
      !['free', 'fixed', 'known', 'length', 'angle', 'ratio'].includes(value)
    )
      yield `${value}2`;
  } else if (Array.isArray(value)) {
    if (value.length > 0) yield value.slice(1);
    if (value.length > 1) yield [...value].reverse();
    for (const [i, one] of value.entries()) for (const other of changed(one)) yield value.with(i, other);
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, one] of Object.entries(value)) {
      for (const other of changed(one)) yield { ...value, [key]: other };
    }
  }
}

/** Free, fixed or known otherwise. */
const otherStates: readonly Partial<Network>[] = [
  { points: base.points.map((point) => ({ ...point, x: { state: 'free' } })) },
  { points: base.points.map((point) => ({ ...point, y: { state: 'fixed', valueMm: 5 } })) },
  { points: base.points.map((point) => ({ ...point, z: { state: 'known', valueMm: 3, uMm: 0.5, dof: 9 } })) },
  {
    shared: base.shared.map(({ id }) => ({
      id,
      quantity: 'ratio',
      is: { state: 'known', value: 0, u: 0.2 },
    })),
  },
  { shared: base.shared.map(({ id }) => ({ id, quantity: 'length', is: { state: 'free' } })) },
];

const isNetwork = (value: unknown): value is Network => typeof value === 'object' && value !== null;

describe('the last layout', () => {
  test('serves a network that is the same in content, not only in identity', () => {
    const first = layOutAgain(base);
    expect(layOutAgain(structuredClone(base))).toBe(first);
    expect(layOutAgain({ ...base, readings: [], title: 'renamed' })).toBe(first);
    expect(first).toEqual(layOut(base));
  });

  test('serves no network that differs in any id or number, or in the order of things', () => {
    const layout = layOut(base);
    const parts = { points: base.points, bodies: base.bodies, shared: base.shared };
    let count = 0;
    for (const other of changed(parts)) {
      if (!isNetwork(other)) continue;
      count++;
      expect(laidOutAs({ ...base, ...other }, layout), JSON.stringify(other)).toBe(false);
    }
    expect(count).toBeGreaterThan(40);
  });

  test('serves no network in which something is known otherwise', () => {
    const layout = layOut(base);
    for (const other of otherStates) {
      expect(laidOutAs({ ...base, ...other }, layout), JSON.stringify(other)).toBe(false);
    }
  });

  test('changing there and back gives the right one each time', () => {
    const other: Network = { ...base, points: base.points.slice(1) };
    for (const network of [base, other, base, other]) {
      expect(layOutAgain(network)).toEqual(layOut(network));
    }
  });
});
