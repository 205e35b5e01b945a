/**
 * Readings that contradict each other: the next action asks for readings to be checked, never for a move, however far off the
 * fixture seems to stand; nothing is proven, and the verdicts that would need agreement are "cannot be judged".
 */
import { describe, expect, test } from 'vitest';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import type { PlacementInput } from '../../../core/placement/placementInput.ts';
import { slotKey } from '../../../core/placement/recipe.ts';
import { drawsFrom } from '../../simulation/draws.ts';
import { answerOf } from './answers.ts';
import { inputOf, SQUARE } from './trueLayout.ts';

const TAPES = /^(base|width|diagonal|bar|ahead|behind)\./;
const far = { ...SQUARE, target: { ...SQUARE.target, ahead: SQUARE.target.ahead + 30, left: 20 } };
const whole = inputOf(far);

/** Every tape off by a few millimetres: many small errors, as a stretched or wrongly hooked tape in tired hands gives. */
const spoilt = (seed: number): PlacementInput => {
  const draws = drawsFrom(seed);
  return {
    ...whole,
    readings: whole.readings.map((each) =>
      TAPES.test(each.id) ? { ...each, value: each.value + 4 * draws.normal() } : each,
    ),
  };
};

const answers = Array.from({ length: 60 }, (_, i) => answerOf(spoilt(i + 1)));
const failed = answers.filter((answer) => answer.globalTest?.passed === false);

describe('the global test fails', () => {
  test('the spoilt readings do fail it, and the fixture seems to want moving', () => {
    expect(failed.length).toBeGreaterThan(20);
    expect(failed.some((answer) => answer.moves.length > 0)).toBe(true);
  });

  test('the next action names a reading to check and is never a move', () => {
    for (const answer of failed) {
      expect(answer.nextAction.wordKey).toMatch(/^next\.(readAgain|oneOfThese)$/);
      expect(answer.suspects[0]?.readingIds.length).toBeGreaterThan(0);
    }
  });

  test('of several alike, one that can be read again is asked for', () => {
    const readable = new Set(whole.readings.map(slotKey));
    const several = failed.filter((answer) => (answer.suspects[0]?.readingIds.length ?? 0) > 1);
    for (const { suspects } of several) {
      const separatedBy = suspects[0]?.separatedBy;
      if (separatedBy !== undefined) expect(readable.has(separatedBy)).toBe(true);
    }
  });

  test('nothing is proven or within', () => {
    const verdictsOf = (answer: PlacementAnswer) =>
      answer.stations.flatMap((station) => station.coordinates.map((each) => each.verdict));
    for (const verdict of failed.flatMap(verdictsOf)) expect(['proven', 'within']).not.toContain(verdict);
  });
});

test('the same layout read without faults passes and is ordered to move at once', () => {
  const answer = answerOf(whole);
  expect(answer.globalTest?.passed).toBe(true);
  expect(answer.nextAction.wordKey).toMatch(/^move\./);
});
