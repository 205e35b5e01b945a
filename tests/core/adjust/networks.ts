/** Small builders for network documents in tests. */

import type { AdjustError } from '../../../core/adjust/errors.ts';
import type { Network, NetworkPoint, Reading, Side } from '../../../core/adjust/network.ts';
import type { Solution } from '../../../core/adjust/solution.ts';
import type { Result } from '../../../core/result.ts';

export const free = { state: 'free' } as const;
export const fixed = (valueMm: number) => ({ state: 'fixed', valueMm }) as const;
export const known = (valueMm: number, uMm: number) => ({ state: 'known', valueMm, uMm }) as const;

export function freePoint(id: string, startX?: number, startY?: number): NetworkPoint {
  return {
    id,
    x: startX === undefined ? free : { state: 'free', startMm: startX },
    y: startY === undefined ? free : { state: 'free', startMm: startY },
    z: fixed(0),
  };
}

export function fixedPoint(id: string, x: number, y: number, z = 0): NetworkPoint {
  return { id, x: fixed(x), y: fixed(y), z: fixed(z) };
}

export function level(from: string, to: string, valueMm: number, uMm: number): Reading {
  return { kind: 'distance', id: `${from}-${to}`, from, to, mode: 'level', valueMm, uMm };
}

export function side(point: string, from: string, to: string, which: 'left' | 'right'): Side {
  return { point, line: { from, to }, side: which };
}

export function network(parts: Partial<Network>): Network {
  return {
    format: 'datumline-network-1',
    points: [],
    bodies: [],
    shared: [],
    readings: [],
    sides: [],
    ...parts,
  };
}

/** The solution, or a thrown error that shows the failure. */
export function solved(result: Result<Solution, AdjustError>): Solution {
  if (!result.ok) throw new Error(`not solved: ${JSON.stringify(result.error)}`);
  return result.value;
}

/** The failure, or a thrown error. */
export function failed(result: Result<unknown, AdjustError>): AdjustError {
  if (result.ok) throw new Error('solved, but a failure was expected');
  return result.error;
}
