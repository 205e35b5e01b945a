import { describe, expect, test } from 'vitest';
import { judge, worstVerdict } from '../../../core/placement/judge.ts';

const permitted = { lower: -10, upper: 10, stated: true };
const at = (deviation: number, u: number, change: Partial<Parameters<typeof judge>[0]> = {}) =>
  judge({ deviation, u, U: 2 * u, permitted, rule: 'guarded', consistent: true, ...change });

describe('the verdict on a coordinate', () => {
  test('T = 10, u = 2: proven to 6.71, within to 10, beyond to 13.29, then outside', () => {
    expect(at(6.7, 2).verdict).toBe('proven');
    expect(at(6.72, 2).verdict).toBe('within');
    expect(at(-9.9, 2).verdict).toBe('within');
    expect(at(10.1, 2).verdict).toBe('beyond');
    expect(at(-13.2, 2).verdict).toBe('beyond');
    expect(at(13.3, 2).verdict).toBe('outside');
  });
  test('u = 6 cannot judge T = 10, wherever the target stands near it', () => {
    expect(at(1, 6).verdict).toBe('cannotBeJudged');
    expect(at(12, 6).verdict).toBe('cannotBeJudged');
    expect(at(30, 6).verdict).toBe('outside');
  });
  test('probability of conformity: 1.645 u inside the nearer limit is 95 percent', () => {
    expect(at(10 - 1.645 * 2, 2).probability).toBeCloseTo(0.95, 3);
    expect(at(10, 2).probability).toBeCloseTo(0.5, 6);
  });
  test('the rule of the job decides: simple acceptance needs no margin, the whole U needs two u', () => {
    expect(at(9.5, 2, { rule: 'simple' }).verdict).toBe('proven');
    expect(at(6.5, 2, { rule: 'fullU' }).verdict).toBe('within');
    expect(at(6.5, 2, { rule: 'fullU', U: 3 }).verdict).toBe('proven');
  });
  test('one-sided and unequal limits', () => {
    expect(at(-50, 2, { permitted: { upper: 5, stated: true } }).verdict).toBe('proven');
    expect(at(3, 2, { permitted: { upper: 5, stated: true } }).verdict).toBe('within');
    expect(at(-6, 1, { permitted: { lower: -5, upper: 15, stated: true } }).verdict).toBe('beyond');
  });
  test('without a limit nothing is judged', () => {
    expect(at(3, 1, { permitted: undefined })).toEqual({ verdict: 'notJudged' });
  });
  test('while readings contradict each other nothing is proven or within, but outside stays outside', () => {
    expect(at(0, 2, { consistent: false })).toEqual({ verdict: 'cannotBeJudged' });
    expect(at(9, 2, { consistent: false })).toEqual({ verdict: 'cannotBeJudged' });
    expect(at(30, 2, { consistent: false })).toEqual({ verdict: 'outside' });
  });
});

describe('the worst of several', () => {
  test('decides the station', () => {
    expect(worstVerdict(['proven', 'within', 'proven'])).toBe('within');
    expect(worstVerdict(['within', 'cannotBeJudged'])).toBe('cannotBeJudged');
    expect(worstVerdict(['cannotBeJudged', 'beyond', 'outside'])).toBe('outside');
    expect(worstVerdict(['notJudged', 'proven'])).toBe('proven');
    expect(worstVerdict([])).toBe('notJudged');
  });
});
