import { describe, expect, test } from 'vitest';
import type { AdjustError } from '../../../core/adjust/errors.ts';
import type { Network, Reading } from '../../../core/adjust/network.ts';
import { solve } from '../../../core/adjust/solve.ts';
import {
  failed,
  fixed,
  fixedPoint,
  free,
  freePoint,
  known,
  level,
  network,
  side,
  solved,
} from './networks.ts';

const base = [fixedPoint('A', 0, 0), fixedPoint('B', 1000, 0)];
const right = side('P', 'A', 'B', 'left');

function failure(parts: Partial<Network>): AdjustError {
  return failed(solve(network(parts)));
}

describe('what is wrong with the document', () => {
  test('an unknown point names the point and the reading', () => {
    const error = failure({ points: base, readings: [level('A', 'Q', 500, 1)] });
    expect(error).toMatchObject({ code: 'adjust/unknownPoint', ids: ['Q', 'A-Q'], cure: 'defineMissing' });
  });

  test('an unknown body and an unknown shared unknown', () => {
    const tilt: Reading = { kind: 'tilt', id: 't', body: 'ghost', axis: 'pitch', valueRad: 0, uRad: 0.001 };
    expect(failure({ points: base, readings: [tilt] })).toMatchObject({
      code: 'adjust/unknownBody',
      ids: ['ghost', 't'],
    });
    const taped: Reading = {
      kind: 'distance',
      id: 'd',
      from: 'A',
      to: 'B',
      mode: 'level',
      valueMm: 1000,
      uMm: 1,
      scale: 'tape',
    };
    expect(failure({ points: base, readings: [taped] })).toMatchObject({
      code: 'adjust/unknownShared',
      ids: ['tape', 'd'],
    });
  });

  test('a length where a ratio is wanted', () => {
    const error = failure({
      points: base,
      shared: [{ id: 'hook', quantity: 'length', is: known(0, 0.2) }],
      readings: [
        { kind: 'distance', id: 'd', from: 'A', to: 'B', mode: 'level', valueMm: 1, uMm: 1, scale: 'hook' },
      ],
    });
    expect(error).toMatchObject({ code: 'adjust/wrongUnit', ids: ['hook', 'd'], cure: 'correctDocument' });
  });

  test('two things of one name', () => {
    const error = failure({ points: [...base, freePoint('A')] });
    expect(error).toMatchObject({ code: 'adjust/duplicateId', ids: ['A'], cure: 'renameDuplicate' });
  });

  test('a side that names an unknown point', () => {
    expect(failure({ points: base, sides: [side('X', 'A', 'B', 'left')] })).toMatchObject({
      code: 'adjust/unknownPoint',
    });
  });
});

describe('what is wrong with the numbers', () => {
  test('zero uncertainty of a reading, of a known coordinate', () => {
    expect(failure({ points: [...base, freePoint('P')], readings: [level('A', 'P', 500, 0)] })).toMatchObject(
      {
        code: 'adjust/zeroUncertainty',
        ids: ['A-P'],
        cure: 'stateUncertainty',
      },
    );
    const point = { id: 'K', x: known(5, 0), y: fixed(0), z: fixed(0) };
    expect(failure({ points: [point] })).toMatchObject({ code: 'adjust/zeroUncertainty', ids: ['K'] });
  });

  for (const bad of [Number.NaN, Number.POSITIVE_INFINITY]) {
    test(`${bad} as a reading, as an uncertainty, as a fixed coordinate`, () => {
      const expected = { code: 'adjust/notFinite', cure: 'correctNumber' };
      const points = [...base, freePoint('P')];
      expect(failure({ points, readings: [level('A', 'P', bad, 1)] })).toMatchObject({
        ...expected,
        ids: ['A-P'],
      });
      expect(failure({ points, readings: [level('A', 'P', 500, bad)] })).toMatchObject({
        ...expected,
        ids: ['A-P'],
      });
      expect(failure({ points: [fixedPoint('A', bad, 0)] })).toMatchObject({ ...expected, ids: ['A'] });
    });
  }

  test('a size no bay has, and an uncertainty too small to be one', () => {
    const points = [...base, freePoint('P')];
    expect(failure({ points, readings: [level('A', 'P', 1e12, 1)] })).toMatchObject({
      code: 'adjust/notFinite',
      ids: ['A-P'],
    });
    expect(failure({ points, readings: [level('A', 'P', 500, 1e-12)] })).toMatchObject({
      code: 'adjust/zeroUncertainty',
      ids: ['A-P'],
    });
  });

  test('a negative uncertainty is no number of that kind', () => {
    expect(failure({ points: base, readings: [level('A', 'B', 1000, -1)] })).toMatchObject({
      code: 'adjust/notFinite',
    });
  });

  test('a distance from a point to itself, and between two fixed points in one place', () => {
    expect(failure({ points: base, readings: [level('A', 'A', 0, 1)] })).toMatchObject({
      code: 'adjust/coincidentPoints',
      cure: 'separatePoints',
    });
    const twin = fixedPoint('A2', 0, 0);
    expect(failure({ points: [...base, twin], readings: [level('A', 'A2', 0.1, 1)] })).toMatchObject({
      code: 'adjust/coincidentPoints',
      ids: ['A', 'A2'],
    });
  });

  test('an angle from a line without length', () => {
    const reading: Reading = {
      kind: 'angle',
      id: 'w',
      first: { from: 'A', to: 'A2' },
      second: { from: 'A', to: 'B' },
      valueRad: 0,
      uRad: 0.001,
    };
    expect(failure({ points: [...base, fixedPoint('A2', 0, 0)], readings: [reading] })).toMatchObject({
      code: 'adjust/coincidentPoints',
      ids: ['A', 'A2'],
    });
  });
});

describe('what is missing', () => {
  test('one distance does not place a point: it is named with the readings that would', () => {
    const error = failure({ points: [...base, freePoint('P')], readings: [level('A', 'P', 500, 1)] });
    expect(error).toMatchObject({ code: 'adjust/tooFewReadings', ids: ['P'], cure: 'addReading' });
    expect('undetermined' in error ? error.undetermined : []).toEqual([
      { id: 'P', part: 'plan', readings: ['distance', 'offset', 'along', 'drop'] },
    ]);
  });

  test('enough readings in number that leave one point open are not called too few', () => {
    const repeats = [1, 2, 3].map((k) => ({ ...level('A', 'Q', 700, 1), id: `A-Q${k}` }));
    const error = failure({
      points: [...base, freePoint('P'), freePoint('Q')],
      readings: [level('A', 'P', 600, 1), level('B', 'P', 600, 1), ...repeats],
      sides: [right],
    });
    expect(error).toMatchObject({ code: 'adjust/undetermined', ids: ['Q'] });
  });

  test('a height that nothing reads asks for a height', () => {
    const error = failure({
      points: [...base, { ...freePoint('P'), z: free }],
      readings: [level('A', 'P', 600, 1), level('B', 'P', 700, 1)],
      sides: [right],
    });
    expect(error).toMatchObject({ code: 'adjust/tooFewReadings', ids: ['P'] });
    expect('undetermined' in error ? error.undetermined : []).toEqual([
      { id: 'P', part: 'height', readings: ['height'] },
    ]);
  });

  test('a height held only by the slant of floor distances is not held', () => {
    const error = failure({
      points: [...base, fixedPoint('C', 500, 900, 12), { ...freePoint('P'), z: free }],
      readings: ['A', 'B', 'C'].map((from) => ({
        kind: 'distance' as const,
        id: `${from}-P`,
        from,
        to: 'P',
        mode: 'floor' as const,
        valueMm: from === 'C' ? 400 : 707,
        uMm: 1,
      })),
    });
    expect(error).toMatchObject({ code: 'adjust/undetermined' });
    expect('undetermined' in error ? error.undetermined[0] : undefined).toMatchObject({
      id: 'P',
      part: 'height',
    });
  });

  const pose = { x: free, y: free, z: free, yaw: free, pitch: free, roll: free };
  const bar = (y: number) => ({ xMm: 0, yMm: y, zMm: 0, uXMm: 0, uYMm: 0, uZMm: 0 });
  const body = {
    id: 'bar',
    pose,
    points: [
      { id: 'L', ...bar(-1000) },
      { id: 'R', ...bar(1000) },
    ],
  };
  const placed = (id: string, x: number, y: number): readonly Reading[] => [
    { kind: 'coordinate', id: `${id}.x`, point: id, axis: 'x', valueMm: x, uMm: 1 },
    { kind: 'coordinate', id: `${id}.y`, point: id, axis: 'y', valueMm: y, uMm: 1 },
    { kind: 'height', id: `${id}.z`, point: id, above: { levelMm: 0 }, valueMm: 900, uMm: 1 },
  ];
  const tilt = (axis: 'pitch' | 'roll'): Reading => ({
    kind: 'tilt',
    id: axis,
    body: 'bar',
    axis,
    valueRad: 0,
    uRad: 0.001,
  });

  test('a bar held by its two ends may still pitch: the tilt is asked for', () => {
    const error = failure({
      bodies: [body],
      readings: [...placed('L', 5000, 990), ...placed('R', 5000, -1010)],
    });
    expect(error).toMatchObject({ code: 'adjust/undetermined', ids: ['bar'] });
    expect('undetermined' in error ? error.undetermined : []).toEqual([
      { id: 'bar', part: 'pitch', readings: ['tilt'] },
    ]);
  });

  test('a bar held at one end may still turn: an angle or the other end is asked for', () => {
    const error = failure({
      points: base,
      bodies: [body],
      readings: [
        level('A', 'L', 600, 1),
        level('B', 'L', 700, 1),
        { kind: 'height', id: 'L.z', point: 'L', above: { point: 'A' }, valueMm: 900, uMm: 1 },
        tilt('pitch'),
        tilt('roll'),
      ],
      sides: [side('L', 'A', 'B', 'left')],
    });
    expect(error).toMatchObject({ code: 'adjust/tooFewReadings', ids: ['bar'] });
    expect('undetermined' in error ? error.undetermined : []).toContainEqual({
      id: 'bar',
      part: 'yaw',
      readings: ['angle', 'distance'],
    });
  });

  test('with both ends and a pitch it is solved', () => {
    const solution = solved(
      solve(
        network({
          bodies: [body],
          readings: [...placed('L', 5000, 990), ...placed('R', 5000, -1010), tilt('pitch')],
        }),
      ),
    );
    expect(solution.estimates.body('bar').xMm).toBeCloseTo(5000, 6);
    expect(Math.abs(solution.estimates.body('bar').yawRad)).toBeCloseTo(Math.PI, 6);
  });

  test('a shared unknown that is free and that nothing tells asks to be known', () => {
    const error = failure({
      points: base,
      shared: [{ id: 'tape.scale', quantity: 'ratio', is: { state: 'free' } }],
    });
    expect(error).toMatchObject({ code: 'adjust/tooFewReadings', ids: ['tape.scale'] });
    expect('undetermined' in error ? error.undetermined : []).toEqual([
      { id: 'tape.scale', part: 'value', readings: ['known'] },
    ]);
  });

  test('no readings at all', () => {
    const error = failure({ points: [freePoint('P'), freePoint('Q')] });
    expect(error).toMatchObject({ code: 'adjust/tooFewReadings' });
    expect([...error.ids].sort()).toEqual(['P', 'Q']);
  });

  test('an empty network, and one with everything fixed, are solved and have nothing to say', () => {
    expect(solved(solve(network({}))).unknowns).toEqual([]);
    const checked = solved(solve(network({ points: base, readings: [level('A', 'B', 1003, 1)] })));
    expect(checked.rows[0]).toMatchObject({ residual: 3, redundancy: 1, standardised: 3 });
    expect(checked.globalTest).toMatchObject({ chiSquare: 9, dof: 1, passed: false });
  });
});

describe('mirror images', () => {
  const readings = [level('A', 'P', 600, 1), level('B', 'P', 700, 1)];

  test('two distances without a declared side name the point and what it hangs on', () => {
    const error = failure({ points: [...base, freePoint('P')], readings });
    expect(error).toMatchObject({
      code: 'adjust/mirrorUndeclared',
      ids: ['P', 'A', 'B'],
      cure: 'declareSide',
    });
  });

  for (const which of ['left', 'right'] as const) {
    test(`declared ${which} of the line it is found there`, () => {
      const solution = solved(
        solve(network({ points: [...base, freePoint('P')], readings, sides: [side('P', 'A', 'B', which)] })),
      );
      expect(Math.sign(solution.estimates.point('P').yMm)).toBe(which === 'left' ? 1 : -1);
    });
  }

  test('a third distance that tells the two apart is enough', () => {
    const points = [...base, fixedPoint('C', 400, 900), freePoint('P')];
    const solution = solved(solve(network({ points, readings: [...readings, level('C', 'P', 1314, 3)] })));
    expect(solution.estimates.point('P').yMm).toBeCloseTo(-413.4, 0);
  });

  test('one that does not, because it stands on the same line, is not', () => {
    const points = [...base, fixedPoint('C', 2000, 0), freePoint('P')];
    const error = failure({ points, readings: [...readings, level('C', 'P', 1655, 3)] });
    expect(error.code).toBe('adjust/mirrorUndeclared');
  });

  test('a start on one side and a declaration of the other contradict each other', () => {
    const error = failure({
      points: [...base, freePoint('P', 400, -500)],
      readings,
      sides: [side('P', 'A', 'B', 'left')],
    });
    expect(error).toMatchObject({ code: 'adjust/sideContradicted', ids: ['P', 'A', 'B'], cure: 'checkSide' });
  });
});

describe('constraints', () => {
  const x = (point: string, value: number, id: string): Reading => ({
    kind: 'constraint',
    id,
    terms: [{ coefficient: 1, quantity: { of: 'coordinate', point, axis: 'x' } }],
    value,
    u: 'exact',
  });
  const triangle = [level('A', 'P', 600, 1), level('B', 'P', 700, 1)];
  const points = [...base, freePoint('P')];

  test('two that cannot both hold are named', () => {
    const error = failure({
      points,
      readings: [...triangle, x('P', 430, 'k1'), x('P', 431, 'k2')],
      sides: [right],
    });
    expect(error).toMatchObject({ code: 'adjust/contradictoryConstraints', cure: 'dropConstraint' });
    expect([...error.ids].sort()).toEqual(['k1', 'k2']);
  });

  test('one that contradicts what is fixed is named', () => {
    const error = failure({ points, readings: [...triangle, x('A', 3, 'k')], sides: [right] });
    expect(error).toMatchObject({ code: 'adjust/contradictoryConstraints', ids: ['k'] });
  });

  test('one said twice is one', () => {
    const once = solved(
      solve(network({ points, readings: [...triangle, x('P', 430, 'k1')], sides: [right] })),
    );
    const twice = solved(
      solve(
        network({ points, readings: [...triangle, x('P', 430, 'k1'), x('P', 430, 'k2')], sides: [right] }),
      ),
    );
    expect(twice.estimates.point('P')).toEqual(once.estimates.point('P'));
    expect(twice.globalTest.dof).toBe(once.globalTest.dof);
    expect(once.globalTest.dof).toBe(1);
  });

  test('a chain of three equalities that closes wrongly is a contradiction', () => {
    const equal = (a: string, b: string, value: number, id: string): Reading => ({
      kind: 'constraint',
      id,
      terms: [
        { coefficient: 1, quantity: { of: 'coordinate', point: b, axis: 'x' } },
        { coefficient: -1, quantity: { of: 'coordinate', point: a, axis: 'x' } },
      ],
      value,
      u: 'exact',
    });
    const three = ['P', 'Q', 'R'].map((id) => freePoint(id));
    const placed = three.flatMap(({ id }) => [level('A', id, 600, 1), level('B', id, 700, 1)]);
    const error = failure({
      points: [...base, ...three],
      readings: [...placed, equal('P', 'Q', 5, 'e1'), equal('Q', 'R', 5, 'e2'), equal('P', 'R', 11, 'e3')],
      sides: three.map(({ id }) => side(id, 'A', 'B', 'left')),
    });
    expect(error.code).toBe('adjust/contradictoryConstraints');
    expect([...error.ids].sort()).toEqual(['e1', 'e2', 'e3']);
  });

  test('held exactly, with no uncertainty left in it', () => {
    const solution = solved(
      solve(network({ points, readings: [...triangle, x('P', 430, 'k')], sides: [right] })),
    );
    expect(solution.estimates.point('P').xMm).toBeCloseTo(430, 9);
    expect(solution.unknowns.find(({ id }) => id === 'P/x')?.u).toBeLessThan(1e-6);
    expect(solution.rows.find(({ source }) => source === 'k')).toMatchObject({ u: 0, redundancy: 0 });
  });
});

test('readings so wrong that no place fits end as not converged, with the worst named, never as an answer', () => {
  const solution = solve(
    network({
      points: [...base, freePoint('P', 500, 300)],
      readings: [level('A', 'P', 600, 1), level('B', 'P', 700, 1)],
    }),
    { maxIterations: 1 },
  );
  expect(solution.ok ? undefined : solution.error).toMatchObject({
    code: 'adjust/notConverged',
    cure: 'checkReadings',
    iterations: 1,
  });
});

test('a shape the construction does not know asks for a start, and is solved with one', () => {
  // Three-point resection by angles alone.
  const points = [fixedPoint('A', 0, 0), fixedPoint('B', 1000, 100), fixedPoint('C', 2000, -50)];
  const truth = [900, -1300] as const;
  const heading = (x: number, y: number): number => Math.atan2(y - truth[1], x - truth[0]);
  const angle = (from: readonly [string, number], to: readonly [string, number]): Reading => ({
    kind: 'angle',
    id: `${from[0]}${to[0]}`,
    first: { from: 'P', to: from[0] },
    second: { from: 'P', to: to[0] },
    valueRad: to[1] - from[1],
    uRad: 0.0001,
  });
  const to = { A: heading(0, 0), B: heading(1000, 100), C: heading(2000, -50) };
  const readings = [angle(['A', to.A], ['B', to.B]), angle(['B', to.B], ['C', to.C])];
  expect(failure({ points: [...points, freePoint('P')], readings })).toMatchObject({
    code: 'adjust/noStart',
    ids: ['P'],
    cure: 'giveStart',
  });
  const started = solved(solve(network({ points: [...points, freePoint('P', 700, -1000)], readings })));
  expect(started.estimates.point('P').xMm).toBeCloseTo(truth[0], 5);
  expect(started.estimates.point('P').yMm).toBeCloseTo(truth[1], 5);
});
