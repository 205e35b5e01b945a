import { describe, expect, test } from 'vitest';
import { enoughOf, jobPlan, planSetUpOf } from '../../../core/job/jobPlan.ts';
import { planDefaults } from '../../../core/planning/defaults.ts';
import { planOnce, predict } from '../../../core/planning/index.ts';
import { invariant } from '../../../core/result.ts';
import { answerOf } from '../placement/answers.ts';
import { CENTRE, inputOf, SLIDES, SQUARE } from '../placement/trueLayout.ts';

const input = inputOf(SQUARE, [CENTRE, ...SLIDES]);
const { vehicle } = answerOf(input);
const planned = jobPlan(input, vehicle);
invariant(planned.ok, 'the layout can be planned');
const plan = planned.value;

/** The same stand with a tolerance to the side of its first station, mm. */
function within(limitMm: number) {
  const [first, ...rest] = input.stations;
  invariant(first !== undefined, 'a station');
  const permitted = { lower: -limitMm, upper: limitMm, stated: true };
  const found = jobPlan(
    { ...input, stations: [{ ...first, left: { ...first.left, permitted } }, ...rest] },
    vehicle,
  );
  invariant(found.ok, 'planned');
  return found.value.proofs.find(({ proof }) => proof.station === first.id && proof.coordinate === 'left');
}

describe('the plan of a stand', () => {
  test('says of every limit of every station whether it can be proven', () => {
    const limited = input.stations.flatMap((station) =>
      (['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const).filter(
        (coordinate) => station[coordinate].permitted !== undefined,
      ),
    );
    expect(plan.proofs).toHaveLength(limited.length);
    expect(new Set(plan.proofs.map(({ proof }) => proof.station)).size).toBe(input.stations.length);
  });

  test('predicts the very U that the readings then have', () => {
    const predicted = predict(plan.design, planOnce(plan.design.laid.slots));
    invariant(predicted.ok, 'predicted');
    for (const coordinate of ['ahead', 'left', 'yaw'] as const) {
      const before = predicted.value[0]?.coordinates.find((each) => each.coordinate === coordinate)?.U ?? 0;
      const after =
        answerOf(input).stations[0]?.coordinates.find((each) => each.coordinate === coordinate)?.U ?? 0;
      // The layout stands square; lines set out by another length and no floor slope are all that differs.
      expect(Math.abs(before - after) / after, coordinate).toBeLessThan(0.15);
    }
  });

  test('a limit that only better work proves names that work; one that nothing proves names nothing', () => {
    expect(within(20)?.proof.outcome).toBe('proves');
    expect(within(20)?.wouldProve).toBeUndefined();
    const narrow = within(2.9);
    expect(narrow?.proof.outcome).not.toBe('proves');
    expect(narrow?.wouldProve).toMatchObject({ work: 'best', proves: true });
    const hopeless = within(0.2);
    expect(hopeless?.proof.outcome).toBe('cannot');
    expect(hopeless?.wouldProve).toBeUndefined();
  });

  test('before the car is measured it is one of the middle size', () => {
    const early = jobPlan(input, undefined);
    invariant(early.ok, 'planned');
    expect([early.value.carKnown, plan.carKnown]).toEqual([false, true]);
    expect(planSetUpOf(input, undefined).car).toEqual(planDefaults.car);
    expect(planSetUpOf(input, vehicle).car.wheelbaseMm).toBeCloseTo(vehicle?.wheelbase.value ?? 0, 9);
  });

  test('only a bar fixture is planned', () => {
    expect(jobPlan({ ...input, body: 'plate' }, vehicle)).toEqual({
      ok: false,
      error: { code: 'planning/otherBody' },
    });
    expect(jobPlan({ ...input, body: 'bar' }, vehicle).ok).toBe(true);
  });

  test('what is proven by reading once needs no repeat', () => {
    const found = enoughOf(plan);
    expect(found?.cost).toBe(plan.design.laid.slots.length);
    expect([...(found?.plan.values() ?? [])].every((times) => times === 1)).toBe(true);
  });
});
