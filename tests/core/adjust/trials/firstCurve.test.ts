/** The bend of a short tape beside a height that is hardly known, by hand. */
import { describe, expect, test } from 'vitest';
import type { Network } from '../../../../core/adjust/network.ts';
import { solve } from '../../../../core/adjust/solve.ts';
import { FirstCurve } from '../../../../core/adjust/trials/firstCurve.ts';
import { laneDistance } from '../../../../core/adjust/trials/laneDistances.ts';
import { LaneFactor } from '../../../../core/adjust/trials/laneFactor.ts';
import { LANES } from '../../../../core/adjust/trials/laneState.ts';

const fixed = { state: 'fixed', valueMm: 0 } as const;
const free = { state: 'free' } as const;

/** A fixed mark, and a point 1000 mm along x whose height is read to `uMm` and whose tape is read `twice` or once. */
function tape(uMm: number, twice: boolean) {
  const along = { kind: 'distance', from: 'a', to: 'b', mode: 'floor', valueMm: 1000, uMm: 0.5 } as const;
  const network: Network = {
    format: 'datumline-network-1',
    points: [
      { id: 'a', x: fixed, y: fixed, z: fixed },
      { id: 'b', x: { ...free, startMm: 1000 }, y: fixed, z: { ...free, startMm: 0 } },
    ],
    bodies: [],
    shared: [],
    readings: [
      { kind: 'height', id: 'height', point: 'b', above: { levelMm: 0 }, valueMm: 0, uMm },
      { ...along, id: 'tape' },
      ...(twice ? [{ ...along, id: 'again' }] : []),
    ],
    sides: [],
  };
  const solved = solve(network);
  if (!solved.ok) throw new Error(JSON.stringify(solved.error));
  const { linearised, rows } = solved.value;
  const all = rows.map((_, r) => r);
  const unknowns = [0, 1];
  // Point b is the second place: its x, y and z are slots 3 to 5, of which x and z are unknown.
  const slotOfColumn = Int32Array.of(3, 5);
  const factor = new LaneFactor(linearised, all, unknowns);
  const solvedFor = Float64Array.from(rows, ({ observed }) => observed);
  const offsets = (first: number) => ({
    ofBody: false,
    x: first * LANES,
    y: (first + 1) * LANES,
    z: (first + 2) * LANES,
  });
  const ids = {
    place: (id: string) => offsets(id === 'a' ? 0 : 3),
    body: () => ({ number: 0, pose: 0 }),
    shared: () => -1,
  };
  const distances = network.readings.flatMap((reading, row) =>
    reading.kind === 'distance' ? [laneDistance(reading, row, ids)] : [],
  );
  const curve = new FirstCurve({ linearised, rows: all, factor, slotOfColumn, solvedFor }, distances);
  const readings = new Float64Array(rows.length * LANES);
  rows.forEach(({ observed }, r) => {
    readings.fill(observed, r * LANES, (r + 1) * LANES);
  });
  const places = { x: factor.order.indexOf(0) * LANES, z: factor.order.indexOf(1) * LANES };
  return { curve, readings, places };
}

describe('the bend of a distance in a first step', () => {
  test('a height 10 mm off at 1000 mm takes 0.05 mm off the tape in that lane alone', () => {
    const { curve, readings } = tape(5, false);
    readings[2] = 10;
    curve.correct(readings);
    expect(readings[LANES + 2]).toBeCloseTo(1000 - 0.05, 9);
    expect(readings[LANES + 1]).toBe(1000);
    expect(readings[2]).toBe(10);
  });

  test('a height known to half a millimetre bends nothing worth the while', () => {
    const { curve, readings } = tape(0.5, false);
    readings[2] = 10;
    curve.correct(readings);
    expect(readings[LANES + 2]).toBe(1000);
  });

  test('tension that a step leaves pulls the risen point: 25 mm^2 * 4 / mm^2 * 1 mm * 10 / 1000', () => {
    const { curve, readings, places } = tape(5, true);
    readings[2] = 10;
    curve.correct(readings);
    const step = new Float64Array(2 * LANES);
    // Both tapes lack 0.05 mm of what the step leaves; put back, and the first lacks 1 mm more.
    for (let row = 1; row < 3; row++) readings[row * LANES + 2] = (readings[row * LANES + 2] ?? 0) + 0.05;
    readings[LANES + 2] = (readings[LANES + 2] ?? 0) + 1;
    curve.settle(readings, step);
    expect(step[places.z + 2]).toBeCloseTo(25 * 4 * 0.01, 9);
    expect(step[places.x + 2]).toBe(0);
    expect(step[places.z + 1]).toBeCloseTo(0, 12);
  });
});
