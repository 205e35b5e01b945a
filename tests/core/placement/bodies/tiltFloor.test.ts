/** A tilt read however often is never known better than the instrument's seat: repeats and reversal lower the rest only. */
import { describe, expect, test } from 'vitest';
import { REVERSAL, SEAT_ID, tiltByReversal } from '../../../../core/placement/bodies/reversal.ts';
import { tiltReading } from '../../../../core/placement/bodies/tilts.ts';
import { defaultUncertainties } from '../../../../core/placement/defaults.ts';
import { radFromDeg } from '../../../../core/units.ts';

const WORKS = ['typical', 'careful', 'best'] as const;

const uOf = (work: (typeof WORKS)[number], count: number): { readonly u: number; readonly dof: number } => {
  const slot = { id: 'fixture.pitch', purpose: 'proof' } as const;
  const value = { slot, value: 0, count };
  const reading = tiltReading(value, 'pitch', 0, defaultUncertainties.byWork[work]);
  if (reading.kind !== 'tilt') throw new Error('a tilt was asked for');
  return { u: reading.uRad, dof: reading.dof ?? Number.POSITIVE_INFINITY };
};

describe.each(WORKS)('%s work', (work) => {
  test('one reading: 0.05 degrees in all, as before the seat was told apart', () => {
    expect(uOf(work, 1).u).toBeCloseTo(radFromDeg(0.05), 15);
  });

  test('four readings: 0.03 kept and 0.04 / 2', () => {
    expect(uOf(work, 4).u).toBeCloseTo(radFromDeg(Math.hypot(0.03, 0.02)), 15);
  });

  test('a million readings stop at the seat', () => {
    expect(uOf(work, 1e6).u).toBeGreaterThanOrEqual(radFromDeg(0.03));
    expect(uOf(work, 1e6).u).toBeLessThan(radFromDeg(0.0301));
  });

  test('only the repeated part has few degrees of freedom: (5 / 4)^4 times the pooled 20', () => {
    expect(uOf(work, 1).dof).toBeCloseTo(20 * (5 / 4) ** 4, 9);
  });
});

test('a plate proven by reversal shares its seat between both readings: turning the instrument leaves it in', () => {
  const read = REVERSAL.map(
    (id, i) =>
      [
        id,
        {
          slot: { id, purpose: 'proof' as const },
          value: radFromDeg(0.3),
          count: 9,
          direction: i === 0 ? ('towardCar' as const) : ('awayFromCar' as const),
        },
      ] as const,
  );
  const part = tiltByReversal(new Map(read), defaultUncertainties.byWork.best);
  if (!part.ok) throw new Error(part.error.code);
  const seat = part.value.shared.find((each) => each.id === SEAT_ID);
  expect(seat?.is).toEqual({ state: 'known', valueRad: 0, uRad: radFromDeg(0.03) });
  for (const reading of part.value.readings) {
    if (reading.kind !== 'constraint') throw new Error('a reversal is two constraints');
    // Root 2 of one tilt's repeat part, over root 9.
    expect(reading.u).toBeCloseTo((Math.SQRT2 * radFromDeg(0.04)) / 3, 15);
    const ofSeat = reading.terms.find(
      (term) => term.quantity.of === 'shared' && term.quantity.shared === SEAT_ID,
    );
    expect(ofSeat?.coefficient).toBe(1);
  }
});
