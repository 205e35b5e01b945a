/** Matrices of each lane's own, factored over one pattern, against products worked out by hand. */
import { describe, expect, test } from 'vitest';
import { LANES } from '../../../../core/adjust/trials/laneState.ts';
import { TurningFactor } from '../../../../core/adjust/trials/turningFactor.ts';
import { eliminate, placeOf, SymmetricPattern } from '../../../../core/linalg/elimination.ts';
import { valueCount } from '../../../../core/linalg/sparseCholesky.ts';
import { randomFrom } from '../../../../core/uncertainty/random.ts';

/** Five unknowns: a chain 0-1-2-3, and 4 that meets 0 and 3; what turns is the element of 2 and 3, and 3 itself. */
const COUPLED = [
  [0, 1],
  [1, 2],
  [2, 3],
  [0, 3, 4],
] as const;

function chain() {
  const pattern = new SymmetricPattern(5);
  for (const unknowns of COUPLED) pattern.couple(Int32Array.from(unknowns), 0, unknowns.length);
  const elimination = eliminate(pattern);
  const matrix: number[][] = Array.from({ length: 5 }, () => Array.from({ length: 5 }, () => 0));
  const steady = new Float64Array(valueCount(elimination));
  const put = (i: number, j: number, value: number): void => {
    const [one, other] = [matrix[i], matrix[j]];
    if (one === undefined || other === undefined) throw new Error('five unknowns');
    one[j] = value;
    other[i] = value;
    steady[placeOf(elimination, i, j)] = value;
  };
  for (let i = 0; i < 5; i++) put(i, i, 9 + i);
  put(0, 1, 2);
  put(1, 2, -3);
  put(2, 3, 1);
  put(0, 3, 0.5);
  put(0, 4, -1);
  put(3, 4, 2);
  const terms = [
    { place: placeOf(elimination, 2, 3), from: 0, sign: 1 },
    { place: placeOf(elimination, 3, 3), from: 1, sign: -1 },
    { place: placeOf(elimination, 3, 3), from: 0, sign: 1 },
  ] as const;
  const factor = new TurningFactor(elimination, steady, terms, new Float64Array(5).fill(5));
  return { factor, matrix, elimination };
}

describe('a factor with lanes of its own', () => {
  test('solves each lane with its own matrix, again and again', () => {
    const { factor, matrix, elimination } = chain();
    const { uniform } = randomFrom(11);
    for (let round = 0; round < 3; round++) {
      const second = Float64Array.from({ length: 2 * LANES }, () => 4 * uniform() - 2);
      expect(factor.factorise(second)).toBe(true);
      const right = Float64Array.from({ length: 5 * LANES }, () => uniform() - 0.5);
      const work = right.slice();
      factor.solve(work);
      for (let lane = 0; lane < LANES; lane++) {
        const found = (unknown: number): number =>
          work[(elimination.position[unknown] ?? 0) * LANES + lane] ?? Number.NaN;
        for (let i = 0; i < 5; i++) {
          const [first = 0, other = 0] = [second[lane], second[LANES + lane]];
          let product = 0;
          for (let j = 0; j < 5; j++) {
            const turned = i + j === 5 && i * j === 6 ? first : i === 3 && j === 3 ? first - other : 0;
            product += ((matrix[i]?.[j] ?? 0) + turned) * found(j);
          }
          const expected = right[(elimination.position[i] ?? 0) * LANES + lane] ?? Number.NaN;
          expect(Math.abs(product - expected)).toBeLessThan(1e-13);
        }
      }
    }
  });

  test('says when a lane has no minimum, and factors the next batch all the same', () => {
    const { factor } = chain();
    const second = new Float64Array(2 * LANES);
    second[LANES + 6] = 40;
    expect(factor.factorise(second)).toBe(false);
    second[LANES + 6] = 1;
    expect(factor.factorise(second)).toBe(true);
  });
});
