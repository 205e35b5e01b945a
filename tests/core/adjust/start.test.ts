/**
 * Starting values are constructed from readings and declared sides alone. Each case has exact readings of a known
 * layout and one kind of construction, and no start in the document.
 */
import { describe, expect, test } from 'vitest';
import type { Network, Reading } from '../../../core/adjust/network.ts';
import { prepare } from '../../../core/adjust/problem.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { startValues } from '../../../core/adjust/start/start.ts';
import { fixed, fixedPoint, free, freePoint, level, network, side, solved } from './networks.ts';

/** Constructed values by name, before any least squares. */
function constructed(document: Network): ReadonlyMap<string, number> {
  const problem = prepare(document);
  if (!problem.ok) throw new Error(JSON.stringify(problem.error));
  const values = new Float64Array(problem.value.layout.slots.length);
  const result = startValues(problem.value, undefined, values);
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  return new Map(
    problem.value.layout.slots.map(({ owner, component }, i) => [
      `${owner}/${component}`,
      values[i] ?? Number.NaN,
    ]),
  );
}

function expectAt(values: ReadonlyMap<string, number>, id: string, x: number, y: number): void {
  expect(values.get(`${id}/x`), `${id} x`).toBeCloseTo(x, 6);
  expect(values.get(`${id}/y`), `${id} y`).toBeCloseTo(y, 6);
}

const A = fixedPoint('A', 0, 0);
const B = fixedPoint('B', 3000, 0);
const AB = { from: 'A', to: 'B' } as const;
const mm = (valueMm: number) => ({ valueMm, uMm: 1 });
const along = (point: string, line: { from: string; to: string }, valueMm: number): Reading => ({
  kind: 'along',
  id: `along.${point}.${line.to}`,
  point,
  line,
  ...mm(valueMm),
});
const offset = (point: string, line: { from: string; to: string }, valueMm: number): Reading => ({
  kind: 'offset',
  id: `offset.${point}.${line.to}`,
  point,
  line,
  ...mm(valueMm),
});

describe('one point from two known ones', () => {
  test('two distances and a declared side', () => {
    const readings = [level('A', 'P', 2500, 1), level('B', 'P', 2500, 1)];
    const document = network({
      points: [A, B, freePoint('P')],
      readings,
      sides: [side('P', 'A', 'B', 'right')],
    });
    expectAt(constructed(document), 'P', 1500, -2000);
  });

  test('along and offset, left positive', () => {
    const document = network({
      points: [A, B, freePoint('P')],
      readings: [along('P', AB, 700), offset('P', AB, -250)],
    });
    expectAt(constructed(document), 'P', 700, -250);
  });

  test('along beyond the end, counted from the far point back', () => {
    const BA = { from: 'B', to: 'A' } as const;
    const document = network({
      points: [A, B, freePoint('P')],
      readings: [along('P', BA, -1200), offset('P', BA, 0)],
    });
    expectAt(constructed(document), 'P', 4200, 0);
  });

  test('an offset and a distance: the further distance tells ahead from behind', () => {
    const readings = [offset('P', AB, 0), level('B', 'P', 1200, 1), level('A', 'P', 4200, 1)];
    expectAt(constructed(network({ points: [A, B, freePoint('P')], readings })), 'P', 4200, 0);
  });

  test('an offset and one distance: a side of another line tells ahead from behind', () => {
    const C = fixedPoint('C', 3000, 500);
    const readings = [offset('P', AB, 0), level('B', 'P', 1200, 1)];
    const sides = [side('P', 'B', 'C', 'right')];
    expectAt(constructed(network({ points: [A, B, C, freePoint('P')], readings, sides })), 'P', 4200, 0);
  });

  test('an angle and a distance', () => {
    const readings: readonly Reading[] = [
      {
        kind: 'angle',
        id: 'w',
        first: AB,
        second: { from: 'A', to: 'P' },
        valueRad: Math.PI / 6,
        uRad: 0.001,
      },
      level('A', 'P', 1000, 1),
    ];
    expectAt(
      constructed(network({ points: [A, B, freePoint('P')], readings })),
      'P',
      500 * Math.sqrt(3),
      500,
    );
  });

  test('two angles: the lines cross', () => {
    const readings: readonly Reading[] = [
      {
        kind: 'angle',
        id: 'a',
        first: AB,
        second: { from: 'A', to: 'P' },
        valueRad: Math.PI / 4,
        uRad: 0.001,
      },
      {
        kind: 'angle',
        id: 'b',
        first: { from: 'B', to: 'P' },
        second: AB,
        valueRad: (-3 * Math.PI) / 4,
        uRad: 0.001,
      },
    ];
    expectAt(constructed(network({ points: [A, B, freePoint('P')], readings })), 'P', 1500, 1500);
  });

  test('coordinates read directly', () => {
    const readings: readonly Reading[] = [
      { kind: 'coordinate', id: 'x', point: 'P', axis: 'x', ...mm(12) },
      { kind: 'coordinate', id: 'y', point: 'P', axis: 'y', ...mm(-34) },
    ];
    expectAt(constructed(network({ points: [freePoint('P')], readings })), 'P', 12, -34);
  });

  test('a drop past a side arm, either way', () => {
    const drop = (point: string, mark: string): Reading => ({
      kind: 'drop',
      id: `${point}.${mark}`,
      point,
      mark,
      direction: AB,
      alongMm: 3,
      acrossMm: -2,
      arm: { shared: 'arm', along: 0, across: 1 },
      uAlongMm: 1,
      uAcrossMm: 1,
    });
    const shared = [
      { id: 'arm', quantity: 'length', is: { state: 'known', valueMm: 150, uMm: 0.3 } },
    ] as const;
    const hub = network({ points: [A, B, freePoint('H')], shared, readings: [drop('H', 'B')] });
    expectAt(constructed(hub), 'H', 2997, -148);
    const mark = network({ points: [A, B, freePoint('M')], shared, readings: [drop('B', 'M')] });
    expectAt(constructed(mark), 'M', 3003, 148);
  });
});

describe('heights', () => {
  test('are carried from point to point, up and down, and make a slope distance level', () => {
    const readings: readonly Reading[] = [
      { kind: 'height', id: 'h1', point: 'P', above: { point: 'A' }, ...mm(300) },
      { kind: 'height', id: 'h2', point: 'P', above: { point: 'Q' }, ...mm(1200) },
      { kind: 'height', id: 'h3', point: 'R', above: { levelMm: 50 }, ...mm(25) },
      { kind: 'distance', id: 'd1', from: 'A', to: 'P', mode: 'slope', ...mm(500) },
      { kind: 'distance', id: 'd2', from: 'B', to: 'P', mode: 'slope', ...mm(Math.hypot(2600, 300)) },
    ];
    const points = [A, B, ...['P', 'Q', 'R'].map((id) => ({ ...freePoint(id, 1, 1), z: free }))];
    const p = { id: 'P', x: free, y: free, z: free };
    const document = network({
      points: points.map((point) => (point.id === 'P' ? p : point)),
      readings,
      sides: [side('P', 'A', 'B', 'left')],
    });
    const values = constructed(document);
    expect(values.get('P/z')).toBe(300);
    expect(values.get('Q/z')).toBe(-900);
    expect(values.get('R/z')).toBe(75);
    const x = (400 ** 2 - 2600 ** 2 + 3000 ** 2) / 6000;
    expectAt(values, 'P', x, Math.sqrt(Math.max(0, 400 ** 2 - x ** 2)));
  });
});

const pose = { x: free, y: free, z: free, yaw: free, pitch: free, roll: free };
const own = (id: string, xMm: number, yMm: number, zMm: number) => ({
  id,
  xMm,
  yMm,
  zMm,
  uXMm: 0,
  uYMm: 0,
  uZMm: 0,
});

describe('bodies', () => {
  const bar = {
    id: 'bar',
    pose,
    points: [own('L', 0, -1000, 0), own('R', 0, 1000, 0), own('T', 50, 0, 400)],
  };

  test('from two of its points, with its tilt and a height', () => {
    const readings: readonly Reading[] = [
      level('A', 'L', Math.hypot(5000, 1000), 1),
      level('B', 'L', Math.hypot(2000, 1000), 1),
      level('A', 'R', Math.hypot(5000, 1000), 1),
      level('B', 'R', Math.hypot(2000, 1000), 1),
      { kind: 'tilt', id: 'p', body: 'bar', axis: 'pitch', valueRad: 0, uRad: 0.001 },
      { kind: 'height', id: 'h', point: 'T', above: { levelMm: 0 }, ...mm(1350) },
    ];
    const sides = [side('L', 'A', 'B', 'left'), side('R', 'A', 'B', 'right')];
    const values = constructed(network({ points: [A, B], bodies: [bar], readings, sides }));
    expectAt(values, 'bar', 5000, 0);
    expect(Math.abs(values.get('bar/yaw') ?? 0)).toBeCloseTo(Math.PI, 9);
    expect(values.get('bar/z')).toBeCloseTo(950, 9);
  });

  test('from one of its points and an angle to its axis', () => {
    const readings: readonly Reading[] = [
      along('T', AB, 4000),
      offset('T', AB, 300),
      {
        kind: 'angle',
        id: 'w',
        first: AB,
        second: { body: 'bar', axis: 'x' },
        valueRad: Math.PI / 2,
        uRad: 0.001,
      },
    ];
    const values = constructed(network({ points: [A, B], bodies: [bar], readings }));
    expectAt(values, 'bar', 4000, 250);
    expect(values.get('bar/yaw')).toBeCloseTo(Math.PI / 2, 9);
  });

  test('the y axis turns a quarter with it', () => {
    const readings: readonly Reading[] = [
      along('T', AB, 4000),
      offset('T', AB, 300),
      {
        kind: 'angle',
        id: 'w',
        first: { body: 'bar', axis: 'y' },
        second: AB,
        valueRad: -Math.PI,
        uRad: 0.001,
      },
    ];
    expect(constructed(network({ points: [A, B], bodies: [bar], readings })).get('bar/yaw')).toBeCloseTo(
      Math.PI / 2,
      9,
    );
  });

  test('two bodies joined by what they share: mats tied to each other', () => {
    const mat = (id: string) => ({
      id,
      pose: { ...pose, z: fixed(0), pitch: angle(0), roll: angle(0) },
      points: [own(`${id}.1`, 0, 0, 0), own(`${id}.2`, 800, 0, 0)],
    });
    const readings: readonly Reading[] = [
      along('m.1', AB, 500),
      offset('m.1', AB, 100),
      along('m.2', AB, 500),
      offset('m.2', AB, 900),
      level('m.1', 'n.1', 1000, 1),
      level('m.2', 'n.1', Math.hypot(1000, 800), 1),
      level('m.2', 'n.2', 1000, 1),
      level('m.1', 'n.2', Math.hypot(1000, 800), 1),
    ];
    const sides = [side('n.1', 'm.1', 'm.2', 'right'), side('n.2', 'm.1', 'm.2', 'right')];
    const values = constructed(network({ points: [A, B], bodies: [mat('m'), mat('n')], readings, sides }));
    expectAt(values, 'n', 1500, 100);
    expect(values.get('n/yaw')).toBeCloseTo(Math.PI / 2, 9);
  });
});

function angle(valueRad: number) {
  return { state: 'fixed', valueRad } as const;
}

describe('without a datum, or with only part of one', () => {
  // A line extended at both ends, whose own ends are only known through the extensions.
  const truth = {
    a1: [4200, 0],
    b1: [-1100, 0],
    P: [0, 0],
    Q: [3000, 0],
    a2: [4150, -1800],
    b2: [-1050, -1780],
  } as const;
  type Id = keyof typeof truth;
  const apart = (p: Id, q: Id) => Math.hypot(truth[p][0] - truth[q][0], truth[p][1] - truth[q][1]);
  const PQ = { from: 'P', to: 'Q' } as const;
  const readings: readonly Reading[] = [
    level('a1', 'b1', apart('a1', 'b1'), 1),
    level('a1', 'a2', apart('a1', 'a2'), 1),
    level('b1', 'b2', apart('b1', 'b2'), 1),
    level('a1', 'b2', apart('a1', 'b2'), 1),
    level('b1', 'a2', apart('b1', 'a2'), 1),
    level('P', 'Q', 3000, 1),
    along('a1', PQ, 4200),
    offset('a1', PQ, 0),
    along('b1', PQ, -1100),
    offset('b1', PQ, 0),
  ];
  const sides = [side('a2', 'b1', 'a1', 'right'), side('b2', 'b1', 'a1', 'right')];
  const free2 = (Object.keys(truth) as Id[]).map((id) => freePoint(id));

  function expectShape(document: Network): void {
    const values = constructed(document);
    const get = (id: string) =>
      [values.get(`${id}/x`) ?? Number.NaN, values.get(`${id}/y`) ?? Number.NaN] as const;
    for (const p of Object.keys(truth) as Id[]) {
      for (const q of Object.keys(truth) as Id[]) {
        const [s, t] = [get(p), get(q)];
        expect(Math.hypot(s[0] - t[0], s[1] - t[1]), `${p} ${q}`).toBeCloseTo(apart(p, q), 5);
      }
    }
    // Turning left from b1-a1 to b2 is negative: not mirrored.
    const [b1, a1, b2] = [get('b1'), get('a1'), get('b2')];
    expect((a1[0] - b1[0]) * (b2[1] - b1[1]) - (a1[1] - b1[1]) * (b2[0] - b1[0])).toBeLessThan(0);
  }

  test('the shape is right, wherever it lies', () => {
    expectShape(network({ points: free2, readings, sides }));
  });

  test('one fixed point and one fixed coordinate of another lay it into the bay', () => {
    const points = free2.map((point) =>
      point.id === 'a2'
        ? fixedPoint('a2', 1000, 2000)
        : point.id === 'b2'
          ? { ...point, y: fixed(2500) }
          : point,
    );
    const document = network({ points, readings, sides });
    expectShape(document);
    const solution = solved(solve(document));
    expect(solution.estimates.point('b2').yMm).toBe(2500);
    expect(solution.gauge).toEqual([]);
    expect(solution.globalTest.chiSquare).toBeLessThan(1e-9);
  });

  test('single coordinates of three points lay it too', () => {
    const turn = ([x, y]: readonly [number, number]) =>
      [0.6 * x - 0.8 * y + 70, 0.8 * x + 0.6 * y - 30] as const;
    const points = free2.map((point) => {
      const [x, y] = turn(truth[point.id as Id]);
      if (point.id === 'P') return { ...point, x: fixed(x) };
      if (point.id === 'a2') return { ...point, y: fixed(y) };
      return point.id === 'b2' ? { ...point, x: fixed(x) } : point;
    });
    const document = network({ points, readings, sides });
    expectShape(document);
    expect(solved(solve(document)).globalTest.chiSquare).toBeLessThan(1e-9);
  });

  test('two fixed points turn and shift the whole', () => {
    const points = free2.map((point) => {
      if (point.id === 'a2') return fixedPoint('a2', truth.a2[1], -truth.a2[0]);
      return point.id === 'b2' ? fixedPoint('b2', truth.b2[1], -truth.b2[0]) : point;
    });
    const document = network({ points, readings, sides });
    expectShape(document);
    expectAt(constructed(document), 'a1', 0, -4200);
  });
});

describe('given starts', () => {
  test('override the construction, by name', () => {
    const readings = [level('A', 'P', 2500, 1), level('B', 'P', 2500, 1)];
    const document = network({ points: [A, B, freePoint('P')], readings });
    const mirrored = solve(document, {
      start: new Map([
        ['P/x', 1400],
        ['P/y', -1900],
      ]),
    });
    expect(solved(mirrored).estimates.point('P').yMm).toBeCloseTo(-2000, 6);
  });

  test('never move what is fixed', () => {
    const document = network({ points: [A, B], readings: [level('A', 'B', 3001, 1)] });
    const solution = solved(solve(document, { start: new Map([['A/x', 500]]) }));
    expect(solution.estimates.point('A').xMm).toBe(0);
  });

  test('a start in which the first step overshoots a hundred times is damped, and the same answer found', () => {
    const readings = [level('A', 'P', 2500, 1), level('B', 'P', 2500, 1)];
    const start = new Map([
      ['P/x', 1500],
      ['P/y', -20],
    ]);
    const solution = solved(solve(network({ points: [A, B, freePoint('P')], readings }), { start }));
    expect(Math.abs(solution.estimates.point('P').yMm)).toBeCloseTo(2000, 5);
    expect(solution.stopReason).toBe('converged after damping');
  });
});
