/**
 * Verdict and probability of conformity for every form of tolerance under every decision rule (JCGM 106:2012, clauses 7
 * and 8; ISO 14253-1). u = 0.1 throughout: guard bands 0.1645 (guarded), 0 (simple), 0.2 (full U).
 */
import { describe, expect, test } from 'vitest';
import { decideWithinCircle } from '../../../core/uncertainty/conformity.ts';
import { normalProbability } from '../../../core/uncertainty/coverage.ts';
import { type DecisionRule, decide, type Tolerance } from '../../../core/uncertainty/decision.ts';
import { drawsFrom } from '../../simulation/draws.ts';

const U = 0.1;
const RULES = ['guarded', 'simple', 'fullU'] as const;

function word(deviation: number, tolerance: Tolerance, rule: DecisionRule, u = U): string {
  const { verdict, wording } = decide(deviation, u, tolerance, rule);
  return wording ?? verdict;
}

// biome-ignore format: a table; deviation, then the word of each rule
const forms: readonly (readonly [string, Tolerance, readonly (readonly [number, string, string, string])[]])[] = [
  ['at most 1, nothing below', { upper: 1 }, [
    [-50, 'proven', 'proven', 'proven'],
    [0.79, 'proven', 'proven', 'proven'],
    [0.82, 'proven', 'proven', 'within'],
    [0.9, 'within', 'proven', 'within'],
    [1.1, 'beyond', 'outside', 'beyond'],
    [1.18, 'outside', 'outside', 'beyond'],
    [1.21, 'outside', 'outside', 'outside'],
  ]],
  ['at least -1, nothing above', { lower: -1 }, [
    [50, 'proven', 'proven', 'proven'],
    [-0.82, 'proven', 'proven', 'within'],
    [-0.9, 'within', 'proven', 'within'],
    [-1.1, 'beyond', 'outside', 'beyond'],
    [-1.21, 'outside', 'outside', 'outside'],
  ]],
  ['unequal, -0.5 to 2', { lower: -0.5, upper: 2 }, [
    [-0.55, 'beyond', 'outside', 'beyond'],
    [-0.4, 'within', 'proven', 'within'],
    [-0.32, 'proven', 'proven', 'within'],
    [1.81, 'proven', 'proven', 'within'],
    [1.9, 'within', 'proven', 'within'],
    [2.18, 'outside', 'outside', 'beyond'],
  ]],
  ['a range that leaves no deviation out, 3 to 5', { lower: 3, upper: 5 }, [
    [0, 'outside', 'outside', 'outside'],
    [2.9, 'beyond', 'outside', 'beyond'],
    [3.1, 'within', 'proven', 'within'],
    [4, 'proven', 'proven', 'proven'],
    [4.82, 'proven', 'proven', 'within'],
    [5.21, 'outside', 'outside', 'outside'],
  ]],
];

describe.each(forms)('%s', (_name, tolerance, rows) => {
  test.each(rows)('%d: guarded %s, simple %s, full U %s', (deviation, ...words) => {
    expect(RULES.map((rule) => word(deviation, tolerance, rule))).toEqual(words);
  });

  test.each(rows)(
    '%d: the probability does not depend on the rule and is that of the normal',
    (deviation) => {
      const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = tolerance;
      const expected =
        normalProbability((upper - deviation) / U) - normalProbability((lower - deviation) / U);
      for (const rule of RULES) {
        expect(decide(deviation, U, tolerance, rule).probability).toBeCloseTo(expected, 12);
      }
    },
  );
});

describe('within a circle of radius 1', () => {
  const at = (x: number, y: number, rule: DecisionRule): string => {
    const { verdict, wording } = decideWithinCircle({ x, y, uX: U, uY: U }, 1, rule);
    return wording ?? verdict;
  };

  test('along any direction the three rules stand apart as for one limit', () => {
    for (const angle of [0, 0.7, 2.1, 4]) {
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const words = (r: number) => RULES.map((rule) => at(r * c, r * s, rule));
      expect(words(0.3)).toEqual(['proven', 'proven', 'proven']);
      expect(words(0.81)).toEqual(['proven', 'proven', 'within']);
      expect(words(0.9)).toEqual(['within', 'proven', 'within']);
      expect(words(1.1)).toEqual(['beyond', 'outside', 'beyond']);
      expect(words(1.21)).toEqual(['outside', 'outside', 'outside']);
    }
  });

  test('its probability is the share of a simulation', () => {
    const draws = drawsFrom(17);
    const found = { x: 0.6, y: -0.5, uX: 0.3, uY: 0.15, r: 0.4 };
    const runs = 40_000;
    let inside = 0;
    for (let i = 0; i < runs; i++) {
      const [a, b] = [draws.normal(), draws.normal()];
      const x = found.x + found.uX * a;
      const y = found.y + found.uY * (found.r * a + Math.sqrt(1 - found.r * found.r) * b);
      if (x * x + y * y <= 1) inside += 1;
    }
    const { probability } = decideWithinCircle(found, 1, 'guarded');
    expect(Math.abs(inside / runs - probability)).toBeLessThan(4 * Math.sqrt(0.25 / runs));
  });
});

test('a tolerance that twice u fills cannot be judged, whatever its form', () => {
  const wide = 0.6;
  for (const tolerance of [{ lower: -1, upper: 1 }, { lower: 3, upper: 5 }, { upper: 1 }]) {
    expect(word(tolerance.upper - 0.1, tolerance, 'guarded', wide)).toBe('cannotBeJudged');
  }
});
