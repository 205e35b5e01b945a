import { describe, expect, test } from 'vitest';
import type { CoordinateFinding } from '../../../../core/placement/finding.ts';
import { mayStand } from '../../../../core/placement/kinematics/standing.ts';
import type { DecisionRuleName } from '../../../../core/placement/requirement.ts';
import { answerOf, stationOf } from '../answers.ts';
import { CENTRE, inputOf, SQUARE } from '../trueLayout.ts';

const U = { out: 1.4, across: 1.9, up: 1.2, roll: 9e-4, pitch: 9e-4, yaw: 1e-3 };

/** Findings of the square layout with lengths within T. */
function findings(toleranceMm: number): readonly CoordinateFinding[] {
  const mm = { lower: -toleranceMm, upper: toleranceMm, stated: true };
  const station = {
    ...CENTRE,
    ahead: { ...CENTRE.ahead, permitted: mm },
    left: { ...CENTRE.left, permitted: mm },
    up: { ...CENTRE.up, permitted: mm },
  };
  return stationOf(answerOf(inputOf(SQUARE, [station]))).coordinates;
}

const threshold = (toleranceMm: number, rule: DecisionRuleName) => mayStand(U, findings(toleranceMm), rule);

describe('what may be left standing', () => {
  test('half of what the guard band leaves of a wide tolerance; the nearer of the two limits in the plan', () => {
    const left = findings(10).find(({ coordinate }) => coordinate === 'left');
    const room = (10 - 1.645 * (left?.u ?? Number.NaN)) / 2;
    const { out, across, up } = threshold(10, 'guarded');
    expect(across).toBeCloseTo(room, 9);
    expect(out).toBeCloseTo(room, 9);
    expect(up).toBeGreaterThan(room);
  });

  test('one u where the tolerance leaves no more, and where nothing could be proven', () => {
    expect(threshold(5, 'guarded').across).toBe(U.across);
    expect(threshold(2, 'guarded')).toMatchObject({ out: U.out, across: U.across, up: U.up });
  });

  test('the wider the guard band of the rule, the less; without one no more than with the default one', () => {
    const [simple, guarded, fullU] = (['simple', 'guarded', 'fullU'] as const).map(
      (rule) => threshold(10, rule).across,
    );
    expect(simple).toBe(guarded);
    expect(guarded).toBeLessThan(5);
    expect(fullU).toBeLessThan(guarded ?? 0);
  });

  test('a coordinate without a tolerance, and limits on one side of nothing, leave one u', () => {
    const bare = findings(10).map((each) => {
      const { permitted: _none, ...rest } = each;
      return rest;
    });
    expect(mayStand(U, bare, 'guarded')).toEqual(U);
    const beside = findings(10).map((each) => ({
      ...each,
      permitted: { lower: 1, upper: 30, stated: true },
    }));
    expect(mayStand(U, beside, 'guarded')).toEqual(U);
  });
});
