import { describe, expect, test } from 'vitest';
import { normalProbability, tQuantile } from '../../../core/uncertainty/coverage.ts';
import { randomFrom } from '../../../core/uncertainty/random.ts';
import { EXPANDABLE_DOF, tFromNormal, zigguratNormal } from '../../../core/uncertainty/ziggurat.ts';

describe('normal numbers by ziggurat', () => {
  const normal = zigguratNormal(randomFrom(20_261_125));
  const numbers = Float64Array.from({ length: 400_000 }, normal);

  test('mean 0, deviation 1, no skew, kurtosis 3, within four standard errors', () => {
    const n = numbers.length;
    const moment = (k: number): number => numbers.reduce((sum, z) => sum + z ** k, 0) / n;
    expect(Math.abs(moment(1))).toBeLessThan(4 / Math.sqrt(n));
    expect(Math.abs(moment(2) - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
    expect(Math.abs(moment(3))).toBeLessThan(4 * Math.sqrt(15 / n));
    expect(Math.abs(moment(4) - 3)).toBeLessThan(4 * Math.sqrt(96 / n));
  });

  test('forty cells from -4 to 4 are filled as the normal fills them', () => {
    const [cells, width] = [40, 0.2];
    const counts = new Float64Array(cells + 2);
    for (const z of numbers) {
      const cell = Math.min(cells + 1, Math.max(0, 1 + Math.floor((z + 4) / width)));
      counts[cell] = (counts[cell] ?? 0) + 1;
    }
    let chiSquare = 0;
    counts.forEach((count, cell) => {
      const [low, high] = [-4 + (cell - 1) * width, -4 + cell * width];
      const p =
        cell === 0
          ? normalProbability(-4)
          : cell === cells + 1
            ? normalProbability(-4)
            : normalProbability(high) - normalProbability(low);
      chiSquare += (count - p * numbers.length) ** 2 / (p * numbers.length);
    });
    // 99.9 % point of 41 degrees of freedom.
    expect(chiSquare).toBeLessThan(74.7);
  });

  test('the tail beyond the lowest layer comes as often as it should, on both sides', () => {
    const beyond = 3.442619855899;
    const expected = numbers.length * normalProbability(-beyond);
    const right = numbers.filter((z) => z > beyond).length;
    const left = numbers.filter((z) => z < -beyond).length;
    expect(Math.abs(right - expected)).toBeLessThan(4 * Math.sqrt(expected));
    expect(Math.abs(left - expected)).toBeLessThan(4 * Math.sqrt(expected));
  });

  test('neighbours do not remember each other', () => {
    let sum = 0;
    for (let i = 1; i < numbers.length; i++) sum += (numbers[i] ?? 0) * (numbers[i - 1] ?? 0);
    expect(Math.abs(sum / numbers.length)).toBeLessThan(4 / Math.sqrt(numbers.length));
  });

  test('one seed, one stream', () => {
    const [a, b] = [zigguratNormal(randomFrom(5)), zigguratNormal(randomFrom(5))];
    for (let i = 0; i < 100; i++) expect(a()).toBe(b());
  });
});

describe("Student's t from a normal number", () => {
  test.each([EXPANDABLE_DOF, 30, 100, 1e4])('%d degrees of freedom: the quantiles to 1e-5', (dof) => {
    for (const z of [-4, -3, -2, -1, -0.1, 0.5, 1.5, 2.5, 3.5, 4]) {
      const t = z < 0 ? tQuantile(normalProbability(z), dof) : -tQuantile(normalProbability(-z), dof);
      expect(Math.abs(tFromNormal(z, dof) - t) / Math.abs(t), `${z}`).toBeLessThan(z * z > 12 ? 1e-4 : 1e-5);
    }
  });

  test('nothing stays nothing, and the two sides are alike', () => {
    expect(tFromNormal(0, 20)).toBe(0);
    expect(tFromNormal(-1.3, 25)).toBe(-tFromNormal(1.3, 25));
  });
});
