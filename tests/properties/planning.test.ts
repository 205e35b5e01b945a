/** What must hold for any plan of any car: more readings never hurt, and a tape read again does nothing to a drop's part. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { WorkClass } from '../../core/placement/equipment.ts';
import type { DecisionRuleName } from '../../core/placement/requirement.ts';
import { countsOf, evaluate } from '../../core/planning/evaluate.ts';
import { fewest } from '../../core/planning/fewest.ts';
import { limitName } from '../../core/planning/limits.ts';
import { beyondThatPasses, blockedReadings } from '../../core/planning/lineOfSight.ts';
import { predict } from '../../core/planning/predict.ts';
import { rankNext } from '../../core/planning/rank.ts';
import { recipeById } from '../../core/planning/recipes.ts';
import type { Plan, PlanSetUp, RecipeId } from '../../core/planning/types.ts';
import { CENTRE } from '../core/placement/trueLayout.ts';
import { countedThrough } from '../core/planning/countedThrough.ts';
import { designFor, planWith, setUpOf } from '../core/planning/setUps.ts';

const car = fc.record({
  wheelbaseMm: fc.integer({ min: 2300, max: 3300 }),
  trackFrontMm: fc.integer({ min: 1400, max: 1700 }),
  trackRearMm: fc.integer({ min: 1400, max: 1700 }),
  hubHeightMm: fc.integer({ min: 280, max: 360 }),
});
const work = fc.constantFrom<WorkClass>('typical', 'careful', 'best');
const recipe = fc.constantFrom<RecipeId>('default', 'oneDiagonal', 'rearOnly');

const setUpFor = (dimensions: {
  wheelbaseMm: number;
  trackFrontMm: number;
  trackRearMm: number;
  hubHeightMm: number;
}): PlanSetUp => {
  const bodyFaceAheadMm = dimensions.wheelbaseMm + 850;
  const station = { ...CENTRE, ahead: { ...CENTRE.ahead, value: bodyFaceAheadMm + 1500 } };
  return setUpOf({ car: { ...dimensions, bodyFaceAheadMm }, stations: [station] });
};

const usOf = (design: ReturnType<typeof designFor>, plan: Plan) => {
  const predicted = predict(design, plan);
  if (!predicted.ok) throw new Error(JSON.stringify(predicted.error));
  return predicted.value.flatMap(({ coordinates }) => coordinates);
};

describe('properties of planning', () => {
  test('one more of any reading never raises u or U of any coordinate, seed 41', () => {
    fc.assert(
      fc.property(
        car,
        work,
        recipe,
        fc.array(fc.nat(26), { minLength: 1, maxLength: 8 }),
        (dimensions, how, id, more) => {
          const setUp = setUpFor(dimensions);
          const design = designFor({ ...setUp, equipment: { ...setUp.equipment, work: how } }, id);
          const { slots } = design.laid;
          let plan = planWith(design);
          let before = usOf(design, plan);
          for (const which of more) {
            const key = slots[which % slots.length]?.key ?? '';
            plan = new Map([...plan, [key, (plan.get(key) ?? 0) + 1]]);
            const after = usOf(design, plan);
            for (const [i, { coordinate, u, U }] of after.entries()) {
              const was = before[i];
              expect(u, `${coordinate} u after ${key}`).toBeLessThanOrEqual((was?.u ?? 0) * (1 + 1e-9));
              expect(U, `${coordinate} U after ${key}`).toBeLessThanOrEqual((was?.U ?? 0) * (1 + 1e-9));
            }
            before = after;
          }
        },
      ),
      { seed: 41, numRuns: 40 },
    );
  });

  test('tapes read however often leave what the drops alone put into u: their part never falls below it, seed 42', () => {
    fc.assert(
      fc.property(car, work, fc.integer({ min: 2, max: 50 }), (dimensions, how, times) => {
        const setUp = setUpFor(dimensions);
        const design = designFor({ ...setUp, equipment: { ...setUp.equipment, work: how } });
        const tapes = design.laid.slots
          .filter(({ instrument }) => instrument === 'tape')
          .map(({ key }) => [key, times]);
        const variancesOf = (plan: Plan) =>
          usOf(design, plan).map(({ u, shares }) => {
            const drops = shares.filter(({ readingId }) => limitName(readingId) === 'hubDrops');
            return { whole: u * u, drops: u * u * drops.reduce((sum, { share }) => sum + share, 0) };
          });
        const once = variancesOf(planWith(design));
        const often = variancesOf(planWith(design, Object.fromEntries(tapes)));
        const [, left] = often;
        // Sideways the drops of the hubs are what the tapes hang on: repeating tapes takes nothing off their part.
        expect(left?.drops ?? 0).toBeGreaterThan(0.999 * (once[1]?.drops ?? 0));
        expect(left?.whole ?? 0).toBeLessThan(once[1]?.whole ?? 0);
        expect(left?.whole ?? 0).toBeGreaterThan(once[1]?.drops ?? 0);
      }),
      { seed: 42, numRuns: 25 },
    );
  });

  test('a car and its mirror image are planned alike, seed 43', () => {
    fc.assert(
      fc.property(
        car,
        fc.integer({ min: -600, max: 600 }),
        fc.integer({ min: 180, max: 400 }),
        (dimensions, aside, arm) => {
          const setUp = setUpFor(dimensions);
          const side = (leftMm: number, armLeft: number, armRight: number) => {
            const [base = CENTRE] = setUp.stations;
            const station = { ...base, left: { ...base.left, value: leftMm } };
            const sideArms = { left: { mm: armLeft, uMm: 0.3 }, right: { mm: armRight, uMm: 0.3 } };
            const design = designFor({
              ...setUp,
              stations: [station],
              equipment: { ...setUp.equipment, sideArms },
            });
            return { us: usOf(design, planWith(design)), blocked: blockedReadings(design.laid).length };
          };
          const [a, b] = [side(aside, arm, 280), side(-aside, 280, arm)];
          expect(a.blocked).toBe(b.blocked);
          for (const [i, { u }] of a.us.entries()) expect((b.us[i]?.u ?? 0) / u).toBeCloseTo(1, 6);
        },
      ),
      { seed: 43, numRuns: 25 },
    );
  });

  test('the ranking never proposes what gains nothing above what gains, and no fall is negative, seed 44', () => {
    fc.assert(
      fc.property(car, work, (dimensions, how) => {
        const setUp = setUpFor(dimensions);
        const design = designFor({ ...setUp, equipment: { ...setUp.equipment, work: how } });
        const ranking = rankNext(design, planWith(design));
        if (ranking.state !== 'ranked') throw new Error('nothing ranked');
        const falls = ranking.candidates.map(({ fall }) => fall);
        for (const [i, fall] of falls.entries()) {
          expect(fall).toBeGreaterThanOrEqual(-1e-9);
          expect(fall).toBeGreaterThanOrEqual((falls[i + 1] ?? Number.NEGATIVE_INFINITY) - 1e-8);
        }
      }),
      { seed: 44, numRuns: 15 },
    );
  });

  test('the variance is the sum of what the rows put into it, seed 45', () => {
    fc.assert(
      fc.property(car, recipe, (dimensions, id) => {
        const design = designFor(setUpFor(dimensions), id);
        const found = evaluate(design, countsOf(design, planWith(design)));
        if (found === undefined) throw new Error('nothing evaluated');
        const rows = design.source.length;
        for (const [k, variance] of found.variance.entries()) {
          let sum = 0;
          for (let r = 0; r < rows; r++)
            sum += (found.influence[k * rows + r] ?? 0) ** 2 * (found.weight[r] ?? 0);
          expect(sum / variance).toBeCloseTo(1, 7);
        }
      }),
      { seed: 45, numRuns: 25 },
    );
  });

  test('the extension that planning sets out leaves no reading of the default recipe blocked, seed 46', () => {
    let found = 0;
    fc.assert(
      fc.property(car, (dimensions) => {
        const setUp = setUpFor(dimensions);
        const mm = beyondThatPasses(setUp, recipeById('default'));
        if (mm === undefined) return;
        found++;
        const at = (beyond: number) =>
          blockedReadings(designFor({ ...setUp, beyondAheadMm: beyond, beyondBehindMm: beyond }).laid).length;
        expect(at(mm)).toBe(0);
        if (mm > 1000) expect(at(mm - 50)).toBeGreaterThan(0);
      }),
      { seed: 46, numRuns: 25 },
    );
    expect(found).toBeGreaterThan(20);
  });

  test('the fewest readings are those that counting through finds, for any tolerances near what once proves, seed 47', () => {
    const near = fc.double({ min: 0.985, max: 1.3, noNaN: true });
    const rule = fc.constantFrom<DecisionRuleName>('guarded', 'fullU');
    const often = fc.uniqueArray(fc.nat(26), { minLength: 3, maxLength: 3 });
    const ends: Record<string, number> = {};
    fc.assert(
      fc.property(
        car,
        work,
        recipe,
        rule,
        fc.array(near, { minLength: 6, maxLength: 6 }),
        often,
        (dimensions, how, id, by, factors, which) => {
          const bare = setUpFor(dimensions);
          const setUp = { ...bare, decisionRule: by, equipment: { ...bare.equipment, work: how } };
          const loose = designFor(setUp, id);
          const [station = CENTRE] = setUp.stations;
          const once = usOf(loose, planWith(loose));
          const limits = once.map(({ coordinate, u, U }, i) => {
            const limit = (factors[i] ?? 1) * (by === 'guarded' ? 1.645 * u : U);
            const value = station[coordinate];
            return [coordinate, { ...value, permitted: { lower: -limit, upper: limit, stated: true } }];
          });
          const design = designFor(
            { ...setUp, stations: [{ ...station, ...Object.fromEntries(limits) }] },
            id,
          );
          const { slots } = design.laid;
          // A search leaves out what is blocked; counting through knows no obstacles.
          fc.pre(blockedReadings(design.laid).length === 0);
          // The height, a drop and three more readings picked at random may be read twice.
          const twice = new Set([
            'target.height',
            'drop.RL',
            ...which.map((i) => slots[i % slots.length]?.key),
          ]);
          const bounds = new Map(slots.map(({ key }) => [key, twice.has(key) ? 2 : 1]));
          const { best } = countedThrough(design, bounds);
          const answer = fewest(design, bounds);
          ends[answer.outcome] = (ends[answer.outcome] ?? 0) + 1;
          if (answer.outcome !== 'found') {
            expect(best).toBeUndefined();
            return;
          }
          expect(answer.cost).toBe(best?.cost);
          expect(answer.seconds).toBeCloseTo(best?.seconds ?? 0, 6);
        },
      ),
      { seed: 47, numRuns: 15, endOnFailure: true },
    );
    expect(ends.found ?? 0).toBeGreaterThan(3);
    expect(ends.found).toBeLessThan(12);
  });
});
