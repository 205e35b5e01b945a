/** Bodies that point steeply up or down, as a mat on the floor does whose x axis is the normal of its face. */
import { describe, expect, test } from 'vitest';
import { deriveAll } from '../../../core/adjust/derive.ts';
import { iterate } from '../../../core/adjust/iterate.ts';
import { Linearisation } from '../../../core/adjust/linearise.ts';
import type { Body, Network, Reading } from '../../../core/adjust/network.ts';
import { prepare } from '../../../core/adjust/problem.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { startValues } from '../../../core/adjust/start/start.ts';
import { rotate, rotationMatrix, yawPitchRoll } from '../../../core/geometry/rotation.ts';
import { add, type Vec3 } from '../../../core/geometry/vector.ts';
import { multiply } from '../../../core/linalg/matrix.ts';
import { fixedPoint, free, network, solved } from './networks.ts';

const QUARTER = Math.PI / 2;
const STEEP = [1.1, 1.4, 1.57, QUARTER - 1e-7, QUARTER, -1.2, -QUARTER, -QUARTER + 1e-5];

const corners: readonly Vec3[] = [
  [0, 400, 300],
  [0, -400, 310],
  [12, 390, -300],
  [-5, -410, -290],
];

/** Taped from four marks and levelled, every corner: 20 readings for six unknowns; errors by a fixed pattern. */
function taped(
  attitude: { yawRad: number; pitchRad: number; rollRad: number },
  own: readonly Vec3[],
  truth: readonly Vec3[],
): Network {
  const marks = [
    fixedPoint('A', 0, 0),
    fixedPoint('B', 4000, 0, 300),
    fixedPoint('C', 4000, 3000, 700),
    fixedPoint('D', 0, 3000),
  ];
  const at: Readonly<Record<string, Vec3>> = {
    A: [0, 0, 0],
    B: [4000, 0, 300],
    C: [4000, 3000, 700],
    D: [0, 3000, 0],
  };
  const start = (value: number) => ({ state: 'free', startRad: value }) as const;
  const near = (value: number) => ({ state: 'free', startMm: value + 3 }) as const;
  const body: Body = {
    id: 'mat',
    pose: {
      x: near(2000),
      y: near(1500),
      z: near(40),
      yaw: start(attitude.yawRad),
      pitch: start(attitude.pitchRad),
      roll: start(attitude.rollRad),
    },
    points: own.map(([xMm, yMm, zMm], i) => ({ id: `c${i}`, xMm, yMm, zMm, uXMm: 0, uYMm: 0, uZMm: 0 })),
  };
  const readings = truth.flatMap(([x, y, z], i): Reading[] => [
    ...marks.map(({ id }, k): Reading => {
      const [mx, my, mz] = at[id] ?? [0, 0, 0];
      const valueMm = Math.hypot(x - mx, y - my, z - mz) + Math.sin(5 * i + k);
      return { kind: 'distance', id: `${id}.c${i}`, from: id, to: `c${i}`, mode: 'slope', valueMm, uMm: 1 };
    }),
    {
      kind: 'height',
      id: `up.c${i}`,
      point: `c${i}`,
      above: { levelMm: 0 },
      valueMm: z + 0.3 * Math.cos(i),
      uMm: 0.5,
    },
  ]);
  return network({ points: marks, bodies: [body], readings });
}

describe.each(STEEP)('pitch %f', (pitchRad) => {
  const attitude = { yawRad: 0.4, pitchRad, rollRad: -0.2 };
  const r = rotationMatrix(attitude);
  const truth = corners.map((corner) => add([2000, 1500, 40], rotate(r, corner)));
  const steep = solved(solve(taped(attitude, corners, truth)));

  test('the same body with its own axes named otherwise, so that it lies level, has the same corners and covariance', () => {
    // Own axes turned by a quarter about own y: R' = R Q', l' = Q l.
    const q = rotationMatrix({ yawRad: 0, pitchRad, rollRad: 0 });
    const back = rotationMatrix({ yawRad: 0, pitchRad: -pitchRad, rollRad: 0 });
    const flat = yawPitchRoll(multiply(r, back));
    expect(Math.abs(flat.pitchRad)).toBeLessThan(0.3);
    const level = solved(
      solve(
        taped(
          flat,
          corners.map((corner) => rotate(q, corner)),
          truth,
        ),
      ),
    );
    const all = ({ point }: Parameters<Parameters<typeof deriveAll>[1]>[0]) =>
      corners.flatMap((_, i) => {
        const p = point(`c${i}`);
        return [p.xMm, p.yMm, p.zMm];
      });
    const [a, b] = [deriveAll(steep, all), deriveAll(level, all)];
    a.values.forEach((value, i) => {
      expect(Math.abs(value - (b.values[i] ?? Number.NaN))).toBeLessThan(1e-6);
    });
    a.covariance.forEach((value, i) => {
      expect(Math.abs(value - (b.covariance[i] ?? Number.NaN))).toBeLessThan(1e-6);
    });
    expect(steep.globalTest.chiSquare).toBeCloseTo(level.globalTest.chiSquare, 7);
    expect(steep.globalTest.dof).toBe(14);
    expect(steep.condition).toBeLessThan(1e3);
  });

  test('its unknowns are turns about the bay’s axes, known to a fraction of a milliradian whatever the pitch', () => {
    const turns = steep.unknowns.filter(({ of, unit }) => of === 'body' && unit === 'rad');
    expect(turns.map(({ id }) => id)).toEqual(['mat/turnZ', 'mat/turnY', 'mat/turnX']);
    for (const { u, value } of turns) {
      expect(value).toBe(0);
      expect(u).toBeLessThan(0.002);
    }
    // The attitude is still told in yaw, pitch and roll.
    const found = rotate(rotationMatrix(steep.estimates.body('mat')), [1, 0, 0]);
    const [x, y, z] = rotate(r, [1, 0, 0]);
    expect(Math.hypot(found[0] - x, found[1] - y, found[2] - z)).toBeLessThan(0.005);
  });
});

test('with yaw, pitch and roll as unknowns an upright body is lost: the normal matrix has no inverse', () => {
  const covariance = [1, 1, 1, 1e-6, 1e-6, 1e-6].map((v, i, all) => all.map((_, j) => (i === j ? v : 0)));
  const angles = { yawRad: 0.4, pitchRad: -QUARTER, rollRad: -0.2 };
  const document = network({
    bodies: [
      { id: 'mat', pose: { x: free, y: free, z: free, yaw: free, pitch: free, roll: free }, points: [] },
    ],
    readings: [
      { kind: 'pose', id: 'shot', body: 'mat', in: 'bay', xMm: 900, yMm: 20, zMm: 3, ...angles, covariance },
    ],
  });
  const attempt = (chosen: boolean) => {
    const problem = prepare(document);
    if (!problem.ok) throw new Error(problem.error.code);
    const lin = new Linearisation(problem.value);
    expect(startValues(problem.value, undefined, lin.state.values).ok).toBe(true);
    if (chosen) lin.state.chooseUnknowns();
    return iterate(lin, 50).ok;
  };
  expect(attempt(false)).toBe(false);
  expect(attempt(true)).toBe(true);
});

test('a body that stands level keeps yaw, pitch and roll, and so does a steep one of which an angle is given', () => {
  const attitude = { yawRad: 0.4, pitchRad: 1.3, rollRad: -0.2 };
  const r = rotationMatrix(attitude);
  const document = taped(
    attitude,
    corners,
    corners.map((corner) => add([2000, 1500, 40], rotate(r, corner))),
  );
  const held = {
    ...document,
    bodies: document.bodies.map((body) => ({
      ...body,
      pose: { ...body.pose, roll: { state: 'fixed', valueRad: -0.2 } as const },
    })),
  };
  const ids = solved(solve(held)).unknowns.map(({ id }) => id);
  expect(ids).toEqual(['mat/x', 'mat/y', 'mat/z', 'mat/yaw', 'mat/pitch']);
});

describe('partials of what speaks of a steep body’s angles', () => {
  const rad = { valueRad: 0.3, uRad: 0.001 };
  const pose = (component: 'yaw' | 'pitch' | 'roll'): Reading => ({
    kind: 'constraint',
    id: component,
    terms: [{ coefficient: 2, quantity: { of: 'pose', body: 'mat', component } }],
    value: 0,
    u: 1,
  });
  const readings: readonly Reading[] = [
    { kind: 'tilt', id: 'pitch.read', body: 'mat', axis: 'pitch', ...rad },
    { kind: 'tilt', id: 'roll.read', body: 'mat', axis: 'roll', ...rad },
    {
      kind: 'angle',
      id: 'x.axis',
      first: { from: 'A', to: 'B' },
      second: { body: 'mat', axis: 'x' },
      ...rad,
    },
    {
      kind: 'angle',
      id: 'y.axis',
      first: { from: 'A', to: 'B' },
      second: { body: 'mat', axis: 'y' },
      ...rad,
    },
    pose('yaw'),
    pose('pitch'),
    pose('roll'),
    { kind: 'distance', id: 'to.corner', from: 'A', to: 'c', mode: 'slope', valueMm: 1, uMm: 1 },
  ];

  test.each(readings)('$id', (reading) => {
    const body: Body = {
      id: 'mat',
      pose: { x: free, y: free, z: free, yaw: free, pitch: free, roll: free },
      points: [{ id: 'c', xMm: 100, yMm: -300, zMm: 250, uXMm: 0, uYMm: 0, uZMm: 0 }],
    };
    const problem = prepare(
      network({
        points: [fixedPoint('A', 0, 0), fixedPoint('B', 900, 100)],
        bodies: [body],
        readings: [reading],
      }),
    );
    if (!problem.ok) throw new Error(problem.error.code);
    const lin = new Linearisation(problem.value);
    const { slot } = problem.value.layout.bodies[0] ?? { slot: -1 };
    lin.state.values.set([500, 400, 300, 0.7, -1.25, 0.4], slot);
    lin.state.chooseUnknowns();
    lin.evaluate();
    const before = lin.state.values.slice();
    const { start, columns, partials } = lin.rows;
    const analytic = new Float64Array(6);
    for (let e = 0; e < (start[1] ?? 0); e++) analytic[columns[e] ?? -1] = partials[e] ?? Number.NaN;
    expect(Math.max(...analytic.map(Math.abs))).toBeGreaterThan(0);
    for (let column = 0; column < 6; column++) {
      const h = column < 3 ? 1e-2 : 1e-5;
      const shifted = (by: number): number => {
        lin.state.values.set(before);
        lin.apply(Float64Array.from({ length: 6 }, (_, i) => (i === column ? by : 0)));
        lin.evaluate();
        return lin.rows.computed[0] ?? Number.NaN;
      };
      const numeric = (shifted(h) - shifted(-h)) / (2 * h);
      const size = reading.kind === 'distance' && column > 2 ? 500 : 10;
      expect(Math.abs((analytic[column] ?? Number.NaN) - numeric) / size, `column ${column}`).toBeLessThan(
        1e-8,
      );
    }
  });
});
