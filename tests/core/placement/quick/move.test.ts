/** Moves of quick placement: which are asked, what the tape must read at their end, and what is then believed. */
import { describe, expect, test } from 'vitest';
import { changed, uncorrelated, varianceAlong } from '../../../../core/placement/quick/belief.ts';
import { expectedValue } from '../../../../core/placement/quick/expected.ts';
import { afterMove, handMm, perMm, quickMove } from '../../../../core/placement/quick/move.ts';
import type { QuickKnowledge, QuickMove } from '../../../../core/placement/quick/types.ts';
import { carOnly, groundOf, LEVEL_AHEAD } from './bay.ts';

const ground = groundOf(carOnly(LEVEL_AHEAD));
const sure = uncorrelated([1, 1, 1, 1e-3, 1e-3, 1e-3]);
const off = (by: readonly number[]): QuickKnowledge => ({
  pose: changed(ground.required, by),
  covariance: sure,
});

function moveFrom(known: QuickKnowledge) {
  const { first } = quickMove(ground, known);
  if (first === undefined) throw new Error('no move');
  return first;
}

/** The levelling of a stand that tilts about its foot: the shift that makes up for it comes first. */
function levelFrom(known: QuickKnowledge): { readonly known: QuickKnowledge; readonly quick: QuickMove } {
  const quick = moveFrom(known);
  return quick.move.kind === 'level' ? { known, quick } : levelFrom(afterMove(ground, known, quick));
}

describe('a move of quick placement', () => {
  test('of a target 60 mm too far: roll it to the car until the same-side tape reads what it must', () => {
    const known = off([60, 0, 0, 0, 0, 0]);
    const quick = moveFrom(known);
    expect(quick.move).toMatchObject({ kind: 'roll', wordKey: 'move.roll.toward' });
    expect(quick.move.amountMm).toBeCloseTo(60, 0);
    expect(quick.until?.slot.id).toMatch(/^bar\.same/);
    const goal = expectedValue(ground, ground.required, 'bar.sameL');
    expect(Math.abs((quick.until?.valueMm ?? 0) - goal)).toBeLessThan(1.5);
  });

  test('to the side is held on a diagonal, the height on its own tape, a tilt on none', () => {
    expect(moveFrom(off([0, 60, 0, 0, 0, 0])).until?.slot.id).toMatch(/^bar\.diag/);
    expect(moveFrom(off([0, 0, 40, 0, 0, 0])).until?.slot.id).toBe('target.height');
    const level = levelFrom(off([0, 0, 0, 0, 0, 0.01])).quick;
    expect(level.until).toBeUndefined();
  });

  test('leaves the target about where it must stand', () => {
    const known = off([60, 0, 0, 0, 0, 0]);
    const after = afterMove(ground, known, moveFrom(known));
    expect(after.pose.at[0]).toBeCloseTo(ground.required.at[0], 0);
  });

  test('with the tape held is as good as tape, drop and settling: between 2 and 2.6 mm however far it was', () => {
    for (const mm of [40, 290]) {
      const known = { ...off([mm, 0, 0, 0, 0, 0]), covariance: uncorrelated([2, 1, 1, 1e-3, 1e-3, 1e-3]) };
      const quick = moveFrom(known);
      const u = Math.sqrt(varianceAlong(afterMove(ground, known, quick).covariance, perMm(quick.move)));
      // (1.2 mm of reading and a turn of 1 mrad at the bar end beside 2 mm of settling), along the move itself
      const along = perMm(quick.move);
      const length = along.reduce((sum, value) => sum + value * value, 0);
      expect(u / length, `${mm} mm`).toBeGreaterThan(2);
      expect(u / length, `${mm} mm`).toBeLessThan(2.7);
    }
  });

  test('told as an amount is as good as a hand: 2 mm and 5 %', () => {
    expect(handMm(100)).toBeCloseTo(Math.hypot(2, 5), 12);
    const { known, quick } = levelFrom(off([0, 0, 0, 0, 0, 0.01]));
    const { covariance } = afterMove(ground, known, quick);
    const added = (covariance[5]?.[5] ?? 0) - (known.covariance[5]?.[5] ?? 0);
    expect(Math.sqrt(added) * 1000).toBeCloseTo(handMm(quick.move.amountMm), 1);
  });

  test('waits while what it sets is not known well enough, and is not asked for what may stand', () => {
    const unsure = { ...off([60, 0, 0, 0, 0, 0]), covariance: uncorrelated([20, 1, 1, 1e-3, 1e-3, 1e-3]) };
    expect(quickMove(ground, unsure)).toEqual({ waiting: true });
    // Below its own u nothing is off that could be told.
    const blind = { ...unsure, covariance: uncorrelated([70, 1, 1, 1e-3, 1e-3, 1e-3]) };
    expect(quickMove(ground, blind)).toEqual({ waiting: false });
    expect(quickMove(ground, off([1.5, -1.5, 1.5, 1e-3, 1e-3, -1e-3]))).toEqual({ waiting: false });
  });
});
