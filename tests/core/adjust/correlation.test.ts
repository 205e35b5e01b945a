import { describe, expect, test } from 'vitest';
import { derive } from '../../../core/adjust/derive.ts';
import type { Body, Correlation, Network, Reading } from '../../../core/adjust/network.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { DETECTABLE } from '../../../core/adjust/testLevels.ts';
import { demoNetwork } from '../../bench/demoNetwork.ts';
import { failed, fixedPoint, free, freePoint, known, level, network, side, solved } from './networks.ts';

const near = (a: number, b: number, share = 1e-9): void =>
  expect(Math.abs(a - b)).toBeLessThan(share * Math.max(1, Math.abs(b)));

describe('a common error told as a covariance or as a shared unknown is one and the same', () => {
  // Four distances to P, all too long or short by one zero error known to 2 mm, beside their own 1 mm.
  const points = [
    fixedPoint('A', 0, 0),
    fixedPoint('B', 4000, 0),
    fixedPoint('C', 4000, 3000),
    fixedPoint('D', -500, 2500),
    freePoint('P', 1500, 1200),
  ];
  const from = ['A', 'B', 'C', 'D'] as const;
  const values = { A: 1925.5, B: 2773, C: 3079.5, D: 2384.5 };
  const common = network({
    points,
    shared: [{ id: 'zero', quantity: 'length', is: known(0, 2) }],
    readings: from.map((id): Reading => ({ ...level(id, 'P', values[id], 1), zero: 'zero' }) as Reading),
  });
  const correlated = network({
    points,
    readings: from.map((id): Reading => level(id, 'P', values[id], Math.sqrt(5))),
    correlations: [
      {
        id: 'same.tape',
        rows: from.map((id) => `${id}-P/value`),
        covariance: from.map((_, i) => from.map((__, j) => (i === j ? 5 : 4))),
      },
    ],
  });
  const [a, b] = [solved(solve(common)), solved(solve(correlated))];

  test('estimate, covariance and global test agree', () => {
    for (const axis of ['xMm', 'yMm'] as const) {
      near(b.estimates.point('P')[axis], a.estimates.point('P')[axis]);
    }
    const n = a.unknowns.length;
    for (const i of [0, 1])
      for (const j of [0, 1]) near(b.covariance[2 * i + j] ?? 0, a.covariance[n * i + j] ?? 1);
    near(b.globalTest.chiSquare, a.globalTest.chiSquare, 1e-8);
    expect(b.globalTest.dof).toBe(a.globalTest.dof);
    expect(b.stopReason).toBe('converged');
  });

  test('the test of one reading and its detectable error agree, and the redundancies add up', () => {
    for (const id of from) {
      const [one, other] = [a, b].map(({ rows }) => rows.find(({ source }) => source === `${id}-P`));
      near(other?.standardised ?? Number.NaN, one?.standardised ?? 0, 1e-8);
      near(other?.minimalDetectable ?? Number.NaN, one?.minimalDetectable ?? 0, 1e-8);
    }
    expect(b.rows.reduce((sum, { redundancy }) => sum + redundancy, 0)).toBeCloseTo(b.globalTest.dof, 9);
  });

  test('neglecting the common error gives another answer: the covariance is used', () => {
    const { correlations: _, ...independent } = correlated;
    const plain = solved(solve(independent));
    expect(Math.abs(plain.estimates.point('P').xMm - b.estimates.point('P').xMm)).toBeGreaterThan(0.01);
    expect(plain.unknowns[0]?.u).not.toBeCloseTo(b.unknowns[0]?.u ?? 0, 3);
  });

  test('a blunder in one of them is named alone, with its size', () => {
    const slipped = {
      ...correlated,
      readings: correlated.readings.map((reading) =>
        reading.id === 'C-P' && reading.kind === 'distance'
          ? { ...reading, valueMm: reading.valueMm + 40 }
          : reading,
      ),
    };
    const clean = b.rows.find(({ source }) => source === 'C-P');
    const solution = solved(solve(slipped));
    expect(solution.suspicions[0]?.sources[0]).toBe('C-P');
    const already = ((clean?.standardised ?? 0) * (clean?.minimalDetectable ?? 0)) / DETECTABLE;
    expect(solution.suspicions[0]?.likelyError).toBeCloseTo(40 + already, 0);
  });

  test('a quantity lists the group as one contribution with the least dof of its members', () => {
    const few = {
      ...correlated,
      readings: correlated.readings.map((one, i) => (i === 2 ? { ...one, dof: 7 } : one)),
    };
    const found = derive(solved(solve(few)), ({ point }) => point('P').xMm);
    expect(found.contributions).toHaveLength(1);
    expect(found.contributions[0]).toMatchObject({ source: 'same.tape', kind: 'correlated', share: 1 });
    expect(found.contributions[0]?.u).toBeCloseTo(found.u, 9);
    expect(found.dof).toBeCloseTo(7, 9);
    expect(found.shareByKind).toEqual({ correlated: 1 });
  });
});

test('a group without any correlation changes nothing', () => {
  const document = demoNetwork();
  const tapes = document.readings.filter((reading) => reading.kind === 'distance');
  const group: Correlation = {
    id: 'tapes',
    rows: tapes.map(({ id }) => `${id}/value`),
    covariance: tapes.map((one, i) => tapes.map((_, j) => (i === j ? one.uMm * one.uMm : 0))),
  };
  const [plain, grouped] = [solved(solve(document)), solved(solve({ ...document, correlations: [group] }))];
  plain.unknowns.forEach(({ value, u }, i) => {
    expect(Math.abs((grouped.unknowns[i]?.value ?? 0) - value) / u).toBeLessThan(1e-6);
    near(grouped.unknowns[i]?.u ?? 0, u);
  });
  plain.rows.forEach((row, i) => {
    near(grouped.rows[i]?.redundancy ?? Number.NaN, row.redundancy, 1e-7);
    expect(Math.abs((grouped.rows[i]?.standardised ?? 0) - (row.standardised ?? 0))).toBeLessThan(1e-5);
  });
});

describe('known points and points of a body may be correlated too', () => {
  test('two known marks that share the error of the station they were shot from keep their distance', () => {
    // Both known to 5 mm in x, of which all but 0.1 mm is common: the line between them is still good to 0.14 mm.
    const shared = 25 - 0.01;
    const document = network({
      points: [
        { id: 'A', x: known(0, 5), y: known(0, 5), z: { state: 'fixed', valueMm: 0 } },
        { id: 'B', x: known(3000, 5), y: known(0, 5), z: { state: 'fixed', valueMm: 0 } },
      ],
      correlations: [
        {
          id: 'station',
          rows: ['A/x', 'B/x'],
          covariance: [
            [25, shared],
            [shared, 25],
          ],
        },
      ],
    });
    const solution = solved(solve(document));
    const apart = derive(solution, ({ point }) => point('B').xMm - point('A').xMm);
    expect(apart.value).toBeCloseTo(3000, 9);
    expect(apart.u).toBeCloseTo(Math.sqrt(0.02), 7);
    expect(derive(solution, ({ point }) => point('A').xMm).u).toBeCloseTo(5, 9);
  });

  test('body points with a full covariance', () => {
    const bar: Body = {
      id: 'bar',
      pose: {
        x: { state: 'fixed', valueMm: 0 },
        y: { state: 'fixed', valueMm: 0 },
        z: { state: 'fixed', valueMm: 0 },
        yaw: { state: 'fixed', valueRad: Math.PI / 2 },
        pitch: { state: 'fixed', valueRad: 0 },
        roll: { state: 'fixed', valueRad: 0 },
      },
      points: [
        { id: 'L', xMm: 0, yMm: -1000, zMm: 0, uXMm: 0, uYMm: 1, uZMm: 0 },
        { id: 'R', xMm: 0, yMm: 1000, zMm: 0, uXMm: 0, uYMm: 1, uZMm: 0 },
      ],
    };
    const group: Correlation = {
      id: 'rule',
      rows: ['L/y', 'R/y'],
      covariance: [
        [1, -0.8],
        [-0.8, 1],
      ],
    };
    const solution = solved(solve(network({ bodies: [bar], correlations: [group] })));
    // A quarter turn: the body's y is minus the bay's x.
    const apart = derive(solution, ({ point }) => point('L').xMm - point('R').xMm);
    expect(apart.value).toBeCloseTo(2000, 9);
    expect(apart.u).toBeCloseTo(Math.sqrt(1 + 1 + 1.6), 9);
  });
});

describe('a covariance that cannot be one is refused by name', () => {
  const points = [fixedPoint('A', 0, 0), fixedPoint('B', 1000, 0), freePoint('P')];
  const base: Partial<Network> = {
    points,
    readings: [level('A', 'P', 600, 1), level('B', 'P', 700, 2)],
    sides: [side('P', 'A', 'B', 'left')],
  };
  const refused = (covariance: number[][], rows = ['A-P/value', 'B-P/value'], more: Partial<Network> = {}) =>
    failed(solve(network({ ...base, ...more, correlations: [{ id: 'g', rows, covariance }] })));
  const bad = { code: 'adjust/badCovariance', cure: 'correctCovariance' } as const;

  test.each([
    ['wrongSize', [[1]], ['g', 'A-P/value', 'B-P/value']],
    ['wrongSize', [[1, 0], [0]], ['g', 'A-P/value', 'B-P/value']],
    [
      'notFinite',
      [
        [1, Number.NaN],
        [0, 4],
      ],
      ['g', 'A-P/value', 'B-P/value'],
    ],
    [
      'notSymmetric',
      [
        [1, 0.5],
        [0.4, 4],
      ],
      ['g', 'A-P/value', 'B-P/value'],
    ],
    [
      'otherDiagonal',
      [
        [1, 0],
        [0, 4.1],
      ],
      ['g', 'B-P/value'],
    ],
    [
      'notPositive',
      [
        [1, 2],
        [2, 4],
      ],
      ['g', 'B-P/value', 'A-P/value'],
    ],
    [
      'notPositive',
      [
        [1, 3],
        [3, 4],
      ],
      ['g', 'B-P/value', 'A-P/value'],
    ],
  ])('%s: %j', (why, covariance, ids) => {
    expect(refused(covariance)).toEqual({ ...bad, why, ids });
  });

  test('a row that is not there, a row twice, an exact row', () => {
    expect(
      refused(
        [
          [1, 0],
          [0, 4],
        ],
        ['A-P/value', 'C-P/value'],
      ),
    ).toEqual({
      code: 'adjust/unknownRow',
      cure: 'defineMissing',
      ids: ['C-P/value', 'g'],
    });
    expect(
      refused(
        [
          [1, 0],
          [0, 1],
        ],
        ['A-P/value', 'A-P/value'],
      ),
    ).toEqual({
      ...bad,
      why: 'rowTwice',
      ids: ['g', 'A-P/value'],
    });
    const exact: Reading = {
      kind: 'constraint',
      id: 'k',
      terms: [{ coefficient: 1, quantity: { of: 'coordinate', point: 'P', axis: 'x' } }],
      value: 430,
      u: 'exact',
    };
    const readings = [...(base.readings ?? []), exact];
    expect(
      refused(
        [
          [1, 0],
          [0, 0],
        ],
        ['A-P/value', 'k/value'],
        { readings },
      ),
    ).toEqual({
      ...bad,
      why: 'exactRow',
      ids: ['g', 'k/value'],
    });
  });

  test('a group named like a reading', () => {
    const correlations = [
      {
        id: 'A-P',
        rows: ['A-P/value', 'B-P/value'],
        covariance: [
          [1, 0],
          [0, 4],
        ],
      },
    ];
    expect(failed(solve(network({ ...base, correlations })))).toMatchObject({ code: 'adjust/duplicateId' });
  });
});

test('a free coordinate has no row to correlate', () => {
  const points = [{ ...freePoint('P', 5, 5), x: free }];
  const correlations = [
    {
      id: 'g',
      rows: ['P/x', 'P/y'],
      covariance: [
        [1, 0],
        [0, 1],
      ],
    },
  ];
  expect(failed(solve(network({ points, correlations })))).toMatchObject({
    code: 'adjust/unknownRow',
    ids: ['P/x', 'g'],
  });
});
