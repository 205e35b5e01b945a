import { describe, expect, test } from 'vitest';
import { beyondMm, settable, turnsFor, turnsText } from '../../../../core/placement/kinematics/amount.ts';

const travel = { leastMm: -10, mostMm: 30, stepMm: 0.5, perTurnMm: 1.25 };

describe('an amount as a hand makes it', () => {
  test('is rounded to the step of its part', () => {
    expect(settable(3.26, travel)).toBeCloseTo(3.5, 12);
    expect(settable(-3.24, travel)).toBeCloseTo(-3, 12);
    expect(settable(0.2, travel)).toBe(0);
    expect(settable(0.2, { ...travel, stepMm: 0 })).toBe(0.2);
  });
  test('without data is free above half a millimetre', () => {
    expect(settable(0.49, undefined)).toBe(0);
    expect(settable(-0.51, undefined)).toBe(-0.51);
  });
  test('lies beyond an end by what is missing, whichever end it is', () => {
    expect(beyondMm(34, travel)).toBe(4);
    expect(beyondMm(-13, travel)).toBe(3);
    expect(beyondMm(30, travel)).toBe(0);
    expect(beyondMm(1e9, undefined)).toBe(0);
  });
  test('is counted in turns where a screw makes it', () => {
    expect(turnsFor(-5, travel)).toBe(4);
    expect(turnsFor(5, { ...travel, perTurnMm: 0 })).toBeUndefined();
    expect(turnsFor(5, undefined)).toBeUndefined();
  });
});

describe('turns as a person counts them', () => {
  test.each([
    [1.5, '1 1/2 turns'],
    [1.53, '1 1/2 turns'],
    [0.25, '1/4 turn'],
    [0.7, '3/4 turn'],
    [1, '1 turn'],
    [1.05, '1 turn'],
    [1.25, '1 1/4 turns'],
    [2, '2 turns'],
    [12.8, '12 3/4 turns'],
    [0.1, '1/8 turn'],
    [0.03, 'a touch'],
  ])('%f is %s', (turns, text) => {
    expect(turnsText(turns)).toBe(text);
  });
});
