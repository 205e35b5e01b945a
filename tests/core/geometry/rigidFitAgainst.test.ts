/**
 * Rotations and rigid fits against gl-matrix, which is not ours, on random motions. gl-matrix counts in doubles once told
 * to; its matrices run column by column.
 */
import { glMatrix, mat3, quat, vec3 } from 'gl-matrix';
import { describe, expect, test } from 'vitest';
import { move, rigidFit } from '../../../core/geometry/rigidFit.ts';
import { rotationMatrix, yawPitchRoll } from '../../../core/geometry/rotation.ts';
import { rotationOfTurn, turnChange, turnOfRotation } from '../../../core/geometry/turn.ts';
import { inner, length, subtract, type Vec3 } from '../../../core/geometry/vector.ts';
import { type Matrix, multiply } from '../../../core/linalg/matrix.ts';
import { type Random, randomFrom } from '../../../core/uncertainty/random.ts';

glMatrix.setMatrixArrayType(Array);

const SEED = 20261128;
const MOTIONS = 600;

const between = (low: number, high: number, { uniform }: Random): number => low + (high - low) * uniform();

/** A rotation from all of them alike: four normal numbers, made a unit quaternion (Box and Muller). */
function anyRotation(random: Random): quat {
  const normal = () => Math.sqrt(-2 * Math.log(random.uniform())) * Math.cos(2 * Math.PI * random.uniform());
  return quat.normalize(quat.create(), [normal(), normal(), normal(), normal()]);
}

const tuple = (v: ArrayLike<number>): Vec3 => [v[0] ?? Number.NaN, v[1] ?? Number.NaN, v[2] ?? Number.NaN];

/** Largest difference of our row-by-row matrix and theirs. */
function gap(ours: Matrix, q: quat): number {
  const theirs = mat3.fromQuat(mat3.create(), q);
  return ours.data.reduce((most, value, i) => {
    const [row, column] = [Math.floor(i / 3), i % 3];
    return Math.max(most, Math.abs(value - (theirs[3 * column + row] ?? Number.NaN)));
  }, 0);
}

function cloud(random: Random): Vec3[] {
  const count = 3 + Math.floor(6 * random.uniform());
  return Array.from({ length: count }, () => [
    between(-3000, 3000, random),
    between(-2000, 2000, random),
    between(-500, 1500, random),
  ]);
}

describe(`against gl-matrix on ${MOTIONS} random motions (seeds from ${SEED})`, () => {
  test('a rigid fit finds the motion that gl-matrix made', () => {
    let compared = 0;
    for (let k = 0; k < MOTIONS; k++) {
      const random = randomFrom(SEED + k);
      const from = cloud(random);
      const q = anyRotation(random);
      const shift: Vec3 = [
        between(-9000, 9000, random),
        between(-9000, 9000, random),
        between(-900, 900, random),
      ];
      const to = from.map((p) => {
        const turned = vec3.transformQuat(vec3.create(), [...p], q);
        return tuple(vec3.add(vec3.create(), turned, [...shift]));
      });
      const fit = rigidFit(from, to);
      if (!fit.ok) throw new Error(`${SEED + k}: ${fit.error.code}`);
      // Three points nearly on a line leave the turn about it weak: their width decides what rounding may do.
      const corner = (i: number): Vec3 => from[i] ?? [0, 0, 0];
      const [a, b, c] = [corner(0), corner(1), corner(2)];
      const width = length(subtract(b, a)) * Math.sqrt(1 - cosine(subtract(b, a), subtract(c, a)) ** 2);
      if (from.length === 3 && width < 100) continue;
      compared++;
      expect(gap(fit.value.rotation, q), `${SEED + k}`).toBeLessThan(1e-11);
      for (const i of [0, 1, 2] as const) expect(Math.abs(fit.value.shift[i] - shift[i])).toBeLessThan(1e-7);
      expect(fit.value.residualSquares).toBeLessThan(1e-15);
    }
    expect(compared).toBeGreaterThan(500);
  });

  test('with errors in the points no small turn or shift of the fit by gl-matrix fits better', () => {
    for (let k = 0; k < MOTIONS; k++) {
      const random = randomFrom(SEED + k);
      const from = cloud(random);
      const q = anyRotation(random);
      const to = from.map((p) => {
        const [x, y, z] = tuple(vec3.transformQuat(vec3.create(), [...p], q));
        return [x + between(-4, 4, random), y + between(-4, 4, random), z + between(-4, 4, random)] as const;
      });
      const fit = rigidFit(from, to);
      if (!fit.ok) throw new Error(`${SEED + k}: ${fit.error.code}`);
      const moved = from.map((p) => move(fit.value, p));
      const squares = (points: readonly Vec3[]): number =>
        points.reduce((sum, p, i) => {
          const miss = subtract(to[i] ?? p, p);
          return sum + inner(miss, miss);
        }, 0);
      const best = squares(moved);
      expect(best).toBeCloseTo(fit.value.residualSquares, 6);
      for (const sign of [-1, 1]) {
        for (const axis of [0, 1, 2] as const) {
          const unit: [number, number, number] = [0, 0, 0];
          unit[axis] = 1;
          const turn = quat.setAxisAngle(quat.create(), unit, sign * 1e-4);
          expect(
            squares(moved.map((p) => tuple(vec3.transformQuat(vec3.create(), [...p], turn)))),
          ).toBeGreaterThan(best);
          const step = unit.map((e) => e * sign * 0.01);
          expect(
            squares(moved.map((p) => tuple(vec3.add(vec3.create(), [...p], tuple(step) as vec3)))),
          ).toBeGreaterThan(best);
        }
      }
    }
  });

  test('yaw, pitch and roll turn as three quaternions one after the other, and come back', () => {
    for (let k = 0; k < MOTIONS; k++) {
      const random = randomFrom(SEED + k);
      const [yawRad, rollRad] = [between(-3.1, 3.1, random), between(-3.1, 3.1, random)];
      const pitchRad = between(-1.57, 1.57, random);
      const q = quat.create();
      quat.rotateZ(q, q, yawRad);
      quat.rotateY(q, q, pitchRad);
      quat.rotateX(q, q, rollRad);
      const ours = rotationMatrix({ yawRad, pitchRad, rollRad });
      expect(gap(ours, q)).toBeLessThan(1e-14);
      const back = rotationMatrix(yawPitchRoll(ours));
      expect(gap(back, q), `${SEED + k}`).toBeLessThan(2e-15 / Math.min(1, Math.cos(pitchRad)) + 1e-14);
    }
  });

  test('turn vectors are axis and angle', () => {
    for (let k = 0; k < MOTIONS; k++) {
      const random = randomFrom(SEED + k);
      const axis = vec3.normalize(vec3.create(), [
        random.uniform() - 0.5,
        random.uniform() - 0.5,
        random.uniform() - 0.5,
      ]);
      // Small, moderate and nearly half turns.
      const angle = [1e-9, 1e-5, 0.3, 2, Math.PI - 1e-6][k % 5] ?? 0;
      const q = quat.setAxisAngle(quat.create(), axis, angle);
      const turn = tuple(vec3.scale(vec3.create(), axis, angle));
      const ours = rotationOfTurn(turn);
      expect(gap(ours, q)).toBeLessThan(1e-14);
      const back = turnOfRotation(ours);
      expect(length(subtract(back, turn)), `${SEED + k}`).toBeLessThan(1e-14 + 1e-14 * angle);
    }
    expect(turnOfRotation(rotationOfTurn([0, 0, 0]))).toEqual([0, 0, 0]);
    const half = turnOfRotation(rotationOfTurn([0, Math.PI, 0]));
    expect(Math.abs(half[1])).toBeCloseTo(Math.PI, 12);
  });

  test('a further small turn changes the turn vector as its Jacobian says', () => {
    for (let k = 0; k < 200; k++) {
      const random = randomFrom(SEED + k);
      const turn: Vec3 = [between(-1.5, 1.5, random), between(-1.5, 1.5, random), between(-1.5, 1.5, random)];
      const small = k % 2 === 0 ? turn : ([turn[0] / 500, turn[1] / 500, turn[2] / 500] as const);
      const change = turnChange(small);
      for (const axis of [0, 1, 2] as const) {
        const along = (h: number): Vec3 => {
          const step: [number, number, number] = [0, 0, 0];
          step[axis] = h;
          return turnOfRotation(multiply(rotationOfTurn(step), rotationOfTurn(small)));
        };
        const [up, down] = [along(1e-5), along(-1e-5)];
        for (const i of [0, 1, 2] as const) {
          expect(Math.abs((up[i] - down[i]) / 2e-5 - (change.data[3 * i + axis] ?? 0))).toBeLessThan(1e-9);
        }
      }
    }
  });
});

function cosine(a: Vec3, b: Vec3): number {
  return inner(a, b) / (length(a) * length(b));
}
