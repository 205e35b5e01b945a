import { describe, expect, test } from 'vitest';
import { derive, deriveAll } from '../../../core/adjust/derive.ts';
import type { Body, Reading } from '../../../core/adjust/network.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { rotate, rotationMatrix, yawPitchRoll } from '../../../core/geometry/rotation.ts';
import { rotationOfTurn } from '../../../core/geometry/turn.ts';
import { multiply, transpose } from '../../../core/linalg/matrix.ts';
import { wrapRad } from '../../../core/units.ts';
import { failed, fixed, free, network, solved } from './networks.ts';

const freePose = { x: free, y: free, z: free, yaw: free, pitch: free, roll: free };
const angle = (valueRad: number) => ({ state: 'fixed', valueRad }) as const;
const body = (id: string, points: Body['points'] = [], pose: Body['pose'] = freePose): Body => ({
  id,
  pose,
  points,
});

/** A covariance with correlations everywhere: L L' of a lower triangle, places to about 1 mm, turns to about 1 mrad. */
const covariance: readonly (readonly number[])[] = (() => {
  const u = [1, 1.5, 0.8, 0.001, 0.0012, 0.0007];
  const lower = u.map((s, i) =>
    u.map((_, j) => (j > i ? 0 : s * (i === j ? 1 : 0.3 * Math.sin(i + 2 * j + 1)))),
  );
  return lower.map((a) => lower.map((b) => a.reduce((sum, value, k) => sum + value * (b[k] ?? 0), 0)));
})();

type PoseReading = Extract<Reading, { kind: 'pose' }>;
const pose = (id: string, of: string, seenIn: PoseReading['in'], numbers: readonly number[]): PoseReading => {
  const [xMm = 0, yMm = 0, zMm = 0, yawRad = 0, pitchRad = 0, rollRad = 0] = numbers;
  return { kind: 'pose', id, body: of, in: seenIn, xMm, yMm, zMm, yawRad, pitchRad, rollRad, covariance };
};

describe('one pose in the bay', () => {
  const numbers = [3100, -220, 950, 2.4, 0.12, -0.08];
  const solution = solved(
    solve(network({ bodies: [body('board')], readings: [pose('shot', 'board', 'bay', numbers)] })),
  );

  test('is the body’s pose, without redundancy', () => {
    const found = solution.estimates.body('board');
    const values = [found.xMm, found.yMm, found.zMm, found.yawRad, found.pitchRad, found.rollRad];
    values.forEach((value, i) => {
      expect(value).toBeCloseTo(numbers[i] ?? 0, 9);
    });
    expect(solution.globalTest.dof).toBe(0);
    expect(solution.rows.map(({ id }) => id)).toEqual(
      ['x', 'y', 'z', 'turnX', 'turnY', 'turnZ'].map((component) => `shot/${component}`),
    );
    for (const { standardised, observed, computed } of solution.rows) {
      expect(standardised).toBeUndefined();
      expect(computed).toBeCloseTo(observed, 9);
    }
  });

  test('has the covariance of the reading, turns taken about the bay’s axes', () => {
    // Turn vector of the found attitude against the one read: what the rows speak of, derived anew.
    const read = transpose(rotationMatrix({ yawRad: 2.4, pitchRad: 0.12, rollRad: -0.08 }));
    const set = deriveAll(solution, ({ body: of }) => {
      const found = of('board');
      const r = multiply(rotationMatrix(found), read).data;
      const skew = (i: number, j: number) => ((r[i] ?? 0) - (r[j] ?? 0)) / 2;
      return [found.xMm, found.yMm, found.zMm, skew(7, 5), skew(2, 6), skew(3, 1)];
    });
    covariance.forEach((row, i) => {
      row.forEach((value, j) => {
        const scale = Math.sqrt((covariance[i]?.[i] ?? 1) * (covariance[j]?.[j] ?? 1));
        expect(Math.abs((set.covariance[6 * i + j] ?? Number.NaN) - value) / scale).toBeLessThan(1e-7);
      });
    });
    expect(set.quantities[0]?.contributions).toMatchObject([{ source: 'shot', kind: 'pose', share: 1 }]);
  });
});

describe('a chain: the bay sees a camera, the camera sees a board, the board carries a point', () => {
  const camera = { at: [500, 300, 1400] as const, yawRad: 0.3, pitchRad: 0.2, rollRad: -0.1 };
  const board = { at: [2900, 80, -350] as const, yawRad: 3.0, pitchRad: -0.15, rollRad: 0.05 };
  const own = [12, -340, 210] as const;
  const outer = rotationMatrix(camera);
  const inBay = (() => {
    const [x, y, z] = rotate(outer, board.at);
    return [x + camera.at[0], y + camera.at[1], z + camera.at[2]] as const;
  })();
  const point = { id: 'centre', xMm: own[0], yMm: own[1], zMm: own[2], uXMm: 0, uYMm: 0, uZMm: 0 };
  const shot = pose('shot', 'board', { body: 'camera' }, [
    ...board.at,
    board.yawRad,
    board.pitchRad,
    board.rollRad,
  ]);
  const held: Body['pose'] = {
    x: fixed(camera.at[0]),
    y: fixed(camera.at[1]),
    z: fixed(camera.at[2]),
    yaw: angle(camera.yawRad),
    pitch: angle(camera.pitchRad),
    roll: angle(camera.rollRad),
  };
  const attitude = multiply(outer, rotationMatrix(board));

  test('forward: the point stands where the two poses put it', () => {
    const solution = solved(
      solve(network({ bodies: [body('camera', [], held), body('board', [point])], readings: [shot] })),
    );
    const arm = rotate(attitude, own);
    const found = solution.estimates.point('centre');
    expect(found.xMm).toBeCloseTo(inBay[0] + arm[0], 7);
    expect(found.yMm).toBeCloseTo(inBay[1] + arm[1], 7);
    expect(found.zMm).toBeCloseTo(inBay[2] + arm[2], 7);
    // Started right: a pose is constructed, not searched for.
    expect(solution.iterations).toBeLessThanOrEqual(2);
  });

  test('backward: a held board tells where the camera stands', () => {
    const ypr = yawPitchRoll(attitude);
    const [x, y, z] = inBay;
    const there = {
      x: fixed(x),
      y: fixed(y),
      z: fixed(z),
      yaw: angle(ypr.yawRad),
      pitch: angle(ypr.pitchRad),
      roll: angle(ypr.rollRad),
    };
    const solution = solved(
      solve(network({ bodies: [body('camera'), body('board', [point], there)], readings: [shot] })),
    );
    const found = solution.estimates.body('camera');
    expect(found.xMm).toBeCloseTo(500, 7);
    expect(found.zMm).toBeCloseTo(1400, 7);
    // Whole turns do not matter.
    expect(wrapRad(found.yawRad)).toBeCloseTo(0.3, 9);
    expect(found.pitchRad).toBeCloseTo(0.2, 9);
    expect(found.rollRad).toBeCloseTo(-0.1, 9);
    expect(solution.iterations).toBeLessThanOrEqual(2);
  });

  test('neither held: the whole may lie anywhere and tip over, the two stay where they are to each other', () => {
    const solution = solved(
      solve(network({ bodies: [body('camera'), body('board', [point])], readings: [shot] })),
    );
    expect([...solution.gauge].sort()).toEqual(['tiltX', 'tiltY', 'turn', 'x', 'y', 'z']);
    const relative = derive(solution, ({ body: of }) => {
      const [c, b] = [of('camera'), of('board')];
      return rotate(transpose(rotationMatrix(c)), [b.xMm - c.xMm, b.yMm - c.yMm, b.zMm - c.zMm])[0];
    });
    expect(relative.value).toBeCloseTo(2900, 6);
    expect(relative.u).toBeCloseTo(Math.sqrt(covariance[0]?.[0] ?? 0), 7);
    expect(relative.needsDatum).toBe(false);
  });

  test('seen twice, by 5 mm and 2 mrad apart: half way, and u less by the root of two', () => {
    const turned = yawPitchRoll(multiply(rotationOfTurn([0, 0, 0.002]), rotationMatrix(board)));
    const [x, y, z] = board.at;
    const again = pose('again', 'board', { body: 'camera' }, [
      x + 5,
      y,
      z,
      turned.yawRad,
      turned.pitchRad,
      turned.rollRad,
    ]);
    const solution = solved(
      solve(network({ bodies: [body('camera', [], held), body('board', [point])], readings: [shot, again] })),
    );
    expect(solution.globalTest.dof).toBe(6);
    const along = derive(solution, ({ body: of }) => {
      const b = of('board');
      return rotate(transpose(outer), [b.xMm - 500, b.yMm - 300, b.zMm - 1400])[0];
    });
    expect(along.value).toBeCloseTo(2902.5, 3);
    expect(along.u).toBeCloseTo(Math.sqrt((covariance[0]?.[0] ?? 0) / 2), 4);
    const [first] = solution.rows;
    expect(first?.redundancy).toBeCloseTo(0.5, 4);
    // Weighted residuals add up to the generalised square of the difference over twice the covariance.
    expect(solution.globalTest.chiSquare).toBeGreaterThan(1);
    expect(solution.rows.reduce((sum, { redundancy }) => sum + redundancy, 0)).toBeCloseTo(6, 8);
  });
});

describe('what a pose may not be', () => {
  test('of a body in itself, in an unknown body, with a singular or lopsided covariance', () => {
    const good = pose('shot', 'board', { body: 'board' }, [0, 0, 0, 0, 0, 0]);
    const refused = (reading: Reading) =>
      failed(solve(network({ bodies: [body('board')], readings: [reading] })));
    expect(refused(good)).toEqual({
      code: 'adjust/sameBody',
      ids: ['board', 'shot'],
      cure: 'correctDocument',
    });
    expect(refused({ ...good, in: { body: 'rig' } })).toMatchObject({
      code: 'adjust/unknownBody',
      ids: ['rig', 'shot'],
    });
    const inBay = { ...good, in: 'bay' as const };
    const ones = covariance.map((row) => row.map(() => 1));
    expect(refused({ ...inBay, covariance: ones })).toMatchObject({
      code: 'adjust/badCovariance',
      why: 'notPositive',
    });
    const zero = covariance.map((row, i) => row.map((value, j) => (i === 4 || j === 4 ? 0 : value)));
    expect(refused({ ...inBay, covariance: zero })).toMatchObject({
      code: 'adjust/zeroUncertainty',
      ids: ['shot'],
    });
    const lopsided = covariance.map((row, i) =>
      row.map((value, j) => (i === 1 && j === 3 ? value + 1e-4 : value)),
    );
    expect(refused({ ...inBay, covariance: lopsided })).toMatchObject({
      why: 'notSymmetric',
      ids: ['shot', 'shot/y', 'shot/turnX'],
    });
  });
});
