import { describe, expect, test } from 'vitest';
import { Linearisation } from '../../../core/adjust/linearise.ts';
import type { Network, Reading } from '../../../core/adjust/network.ts';
import { prepare } from '../../../core/adjust/problem.ts';
import { free, network } from './networks.ts';
import { plainJacobian, plainProblem } from './plainModel.ts';

/** Everything a reading may touch, in no special position: no partial vanishes by symmetry. */
const start = {
  'a/x': 120.5,
  'a/y': -310.2,
  'a/z': 14.1,
  'b/x': 2710.3,
  'b/y': 205.7,
  'b/z': -8.2,
  'c/x': 905.1,
  'c/y': 1440.9,
  'c/z': 322.6,
  'box/x': 3950,
  'box/y': 260,
  'box/z': 980,
  'box/yaw': 2.7,
  'box/pitch': 0.21,
  'box/roll': -0.34,
  'tip/x': 35,
  'tip/y': -820,
  'tip/z': 140,
  'cam/x': -330,
  'cam/y': 120,
  'cam/z': 1400,
  'cam/yaw': -0.4,
  'cam/pitch': 0.33,
  'cam/roll': 0.12,
  'rim/x': -45,
  'rim/y': 760,
  'rim/z': -90,
  'scale/value': 0.0021,
  'zero/value': 1.7,
  'arm/value': 152.3,
  'bias/value': 0.013,
} as const;

const point = (id: string) => ({ id, x: free, y: free, z: free });
const own = (id: 'tip' | 'rim') => ({
  id,
  xMm: start[`${id}/x`],
  yMm: start[`${id}/y`],
  zMm: start[`${id}/z`],
  uXMm: 0.5,
  uYMm: 0.5,
  uZMm: 0.5,
});

function world(readings: readonly Reading[]): Network {
  return network({
    points: [point('a'), point('b'), point('c')],
    bodies: [
      {
        id: 'box',
        pose: { x: free, y: free, z: free, yaw: free, pitch: free, roll: free },
        points: [own('tip'), own('rim')],
      },
      {
        id: 'cam',
        pose: { x: free, y: free, z: free, yaw: free, pitch: free, roll: free },
        points: [],
      },
    ],
    shared: [
      { id: 'scale', quantity: 'ratio', is: { state: 'free' } },
      { id: 'zero', quantity: 'length', is: { state: 'free' } },
      { id: 'arm', quantity: 'length', is: { state: 'free' } },
      { id: 'bias', quantity: 'angle', is: { state: 'free' } },
    ],
    readings,
  });
}

const line = { from: 'a', to: 'b' } as const;
const bodyLine = { from: 'rim', to: 'tip' } as const;
const x = { body: 'box', axis: 'x' } as const;
const y = { body: 'box', axis: 'y' } as const;
const mm = { valueMm: 1000, uMm: 1 };
const rad = { valueRad: 0.3, uRad: 0.001 };
const both = { alongMm: 3, acrossMm: -2, uAlongMm: 1, uAcrossMm: 1 };
/** Far from what the start gives: the turn left over is large, and its derivatives are then no unit matrix. */
const seen = { xMm: 4000, yMm: 100, zMm: -300, yawRad: 2.1, pitchRad: -0.2, rollRad: 0.4 };
const poseCovariance = [4, 4, 9, 1e-6, 1e-6, 4e-6].map((v, i, all) => all.map((_, j) => (i === j ? v : 0)));
const arm = { shared: 'arm', along: 0.3, across: -0.9 };

const readings: readonly Reading[] = [
  { kind: 'drop', id: 'drop on a line', point: 'c', mark: 'a', direction: line, ...both, arm },
  {
    kind: 'drop',
    id: 'drop of a body point along a body axis',
    point: 'tip',
    mark: 'c',
    direction: y,
    ...both,
  },
  {
    kind: 'drop',
    id: 'drop along a line between body points',
    point: 'tip',
    mark: 'c',
    direction: bodyLine,
    ...both,
    arm,
  },
  {
    kind: 'distance',
    id: 'distance on the floor',
    from: 'a',
    to: 'b',
    mode: 'floor',
    ...mm,
    scale: 'scale',
    zero: 'zero',
  },
  {
    kind: 'distance',
    id: 'slope to a body point',
    from: 'a',
    to: 'tip',
    mode: 'slope',
    ...mm,
    scale: 'scale',
  },
  { kind: 'distance', id: 'slope within a body', from: 'rim', to: 'tip', mode: 'slope', ...mm },
  { kind: 'distance', id: 'level distance', from: 'c', to: 'rim', mode: 'level', ...mm, zero: 'zero' },
  { kind: 'offset', id: 'offset', point: 'c', line, ...mm, zero: 'zero' },
  { kind: 'offset', id: 'offset from a line of the body', point: 'c', line: bodyLine, ...mm },
  { kind: 'along', id: 'along', point: 'c', line, ...mm, scale: 'scale', zero: 'zero' },
  { kind: 'along', id: 'along of a body point', point: 'tip', line, ...mm },
  {
    kind: 'angle',
    id: 'angle of two lines',
    first: line,
    second: { from: 'c', to: 'a' },
    ...rad,
    zero: 'bias',
  },
  { kind: 'angle', id: 'angle to a body x axis', first: line, second: x, ...rad },
  { kind: 'angle', id: 'angle to a body y axis', first: y, second: line, ...rad },
  { kind: 'height', id: 'height above a point', point: 'tip', above: { point: 'c' }, ...mm, zero: 'zero' },
  { kind: 'height', id: 'height above a level', point: 'c', above: { levelMm: 200 }, ...mm },
  { kind: 'tilt', id: 'pitch', body: 'box', axis: 'pitch', ...rad, zero: 'bias' },
  { kind: 'tilt', id: 'roll', body: 'box', axis: 'roll', ...rad },
  { kind: 'pose', id: 'pose in the bay', body: 'box', in: 'bay', ...seen, covariance: poseCovariance },
  {
    kind: 'pose',
    id: 'pose seen by a body',
    body: 'box',
    in: { body: 'cam' },
    ...seen,
    covariance: poseCovariance,
  },
  { kind: 'coordinate', id: 'x of a body point', point: 'tip', axis: 'x', ...mm },
  { kind: 'coordinate', id: 'z of a point', point: 'a', axis: 'z', ...mm },
].map((reading) => ({ ...reading, id: reading.id.replaceAll(' ', '-') }) as Reading);

function linearised(document: Network): Linearisation {
  const problem = prepare(document);
  if (!problem.ok) throw new Error(JSON.stringify(problem.error));
  const lin = new Linearisation(problem.value);
  problem.value.layout.slots.forEach((slot, i) => {
    const key = `${slot.owner}/${slot.component}`;
    lin.state.values[i] = Object.entries(start).find(([name]) => name === key)?.[1] ?? Number.NaN;
  });
  lin.evaluate();
  return lin;
}

describe('every kind of reading', () => {
  for (const reading of readings) {
    const document = world([reading]);
    const lin = linearised(document);
    const plain = plainProblem(document);
    const at = plain.names.map(
      (name) => Object.entries(start).find(([key]) => key === name)?.[1] ?? Number.NaN,
    );
    const rowsOfReading = { drop: 2, pose: 6 }[reading.kind as string] ?? 1;

    test(`${reading.id}: computes what the plain model computes`, () => {
      const plainValues = plain.compute(at);
      for (let r = 0; r < rowsOfReading; r++) {
        expect(lin.rows.computed[r]).toBeCloseTo(plainValues[r] ?? Number.NaN, 9);
      }
    });

    test(`${reading.id}: partial derivatives equal differences of the plain model`, () => {
      const jacobian = plainJacobian(plain, at);
      for (let r = 0; r < rowsOfReading; r++) {
        const analytic = new Float64Array(plain.names.length);
        for (let e = lin.rows.start[r] ?? 0; e < (lin.rows.start[r + 1] ?? 0); e++) {
          const column = lin.rows.columns[e] ?? -1;
          analytic[column] = (analytic[column] ?? 0) + (lin.rows.partials[e] ?? 0);
        }
        const numeric = jacobian[r] ?? [];
        const largest = Math.max(...numeric.map(Math.abs));
        expect(largest).toBeGreaterThan(0);
        numeric.forEach((value, c) => {
          // By an angle a length changes by its lever, about a metre: rounding of the differences is of that size.
          const byAngle = /(yaw|pitch|roll)$/.test(plain.names[c] ?? '');
          const size =
            byAngle && lin.problem.observations[r]?.unit === 'mm' ? Math.max(largest, 1000) : largest;
          expect(
            Math.abs((analytic[c] ?? 0) - value) / size,
            `${reading.id} by ${plain.names[c]}`,
          ).toBeLessThan(2e-9);
        });
      }
    });
  }

  test('every kind but the constraint is held against the plain model', () => {
    const kinds = new Set(readings.map((reading) => reading.kind));
    expect([...kinds].sort()).toEqual(
      ['along', 'angle', 'coordinate', 'distance', 'drop', 'height', 'offset', 'pose', 'tilt'].sort(),
    );
  });
});

describe('constraint', () => {
  const quantities = [
    [{ of: 'coordinate', point: 'tip', axis: 'y' }, 'coordinate'],
    [{ of: 'coordinate', point: 'a', axis: 'z' }, 'coordinate'],
    [{ of: 'distance', from: 'a', to: 'tip' }, 'distance'],
    [{ of: 'level', from: 'b', to: 'rim' }, 'level'],
    [{ of: 'pose', body: 'box', component: 'yaw' }, 'pose'],
    [{ of: 'shared', shared: 'scale' }, 'shared'],
  ] as const;

  for (const [quantity, name] of quantities) {
    test(`partials of 2 ${name} equal differences of its own value`, () => {
      const document = world([
        { kind: 'constraint', id: 'k', terms: [{ coefficient: 2, quantity }], value: 0, u: 1 },
      ]);
      const lin = linearised(document);
      const { columns, partials, start: rowStart } = lin.rows;
      const analytic = new Map<number, number>();
      for (let e = 0; e < (rowStart[1] ?? 0); e++) analytic.set(columns[e] ?? -1, partials[e] ?? 0);
      const slots = [...lin.problem.layout.slotOfColumn];
      slots.forEach((slot, column) => {
        const unit = lin.problem.layout.slots[slot]?.unit;
        const h = unit === 'mm' ? 1e-3 : 1e-6;
        const middle = lin.state.values[slot] ?? 0;
        const valueAt = (value: number): number => {
          lin.state.values[slot] = value;
          lin.evaluate();
          return lin.rows.computed[0] ?? Number.NaN;
        };
        const numeric = (valueAt(middle + h) - valueAt(middle - h)) / (2 * h);
        lin.state.values[slot] = middle;
        const size = Math.max(1, Math.abs(numeric));
        expect(Math.abs((analytic.get(column) ?? 0) - numeric) / size).toBeLessThan(1e-7);
      });
    });
  }

  test('terms of two units are refused', () => {
    const document = world([
      {
        kind: 'constraint',
        id: 'k',
        terms: [
          { coefficient: 1, quantity: { of: 'coordinate', point: 'a', axis: 'x' } },
          { coefficient: 1, quantity: { of: 'pose', body: 'box', component: 'yaw' } },
        ],
        value: 0,
        u: 'exact',
      },
    ]);
    const problem = prepare(document);
    expect(problem.ok ? undefined : problem.error).toEqual({
      code: 'adjust/wrongUnit',
      ids: ['k', 'k'],
      cure: 'correctDocument',
    });
  });
});
