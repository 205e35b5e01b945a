/** A shop's own repeatability, from its record to the uncertainty of a placement. */
import { describe, expect, test } from 'vitest';
import { equipmentSchema } from '../../../core/job/equipment.ts';
import { type Repeatability, repeatabilitySchema, studiedTape } from '../../../core/job/repeatability.ts';
import { shopSchema } from '../../../core/job/shop.ts';
import { placementEquipment } from '../../../core/job/solve.ts';
import { workUncertainties } from '../../../core/placement/defaults.ts';
import type { PlacementEquipment } from '../../../core/placement/equipment.ts';
import { repeatability as repeatabilityOf, spreadFindings } from '../../../core/placement/readings.ts';
import { defaultRecipe, specOf } from '../../../core/placement/recipe.ts';
import { planDesign, predict } from '../../../core/planning/predict.ts';
import { planOnce, recipeById } from '../../../core/planning/recipes.ts';
import { answerOf, coordinateOf } from '../placement/answers.ts';
import { CENTRE, EQUIPMENT, inputOf, SQUARE } from '../placement/trueLayout.ts';
import { CAR } from '../planning/setUps.ts';
import { equipmentOf } from './madeJob.ts';

const study = (s: number, dof: number) => ({ s, dof, date: '2026-05-04', document: 'Study 7' });
const tape = (...studies: readonly ReturnType<typeof study>[]): Repeatability => ({ tape: [...studies] });
const work = (tapeRepeat?: PlacementEquipment['tapeRepeat']): PlacementEquipment => ({
  ...EQUIPMENT,
  work: 'careful',
  ...(tapeRepeat === undefined ? {} : { tapeRepeat }),
});

describe('the record', () => {
  test('a study is a positive spread with degrees of freedom, a day and a document', () => {
    expect(repeatabilitySchema.safeParse(tape(study(0.3, 40))).success).toBe(true);
    for (const wrong of [
      tape(),
      tape(study(0, 40)),
      tape(study(0.3, 0)),
      tape({ ...study(0.3, 40), date: '4 May' }),
      tape({ ...study(0.3, 40), document: '' }),
      { ...tape(study(0.3, 40)), bob: [] },
    ]) {
      expect(repeatabilitySchema.safeParse(wrong).success, JSON.stringify(wrong)).toBe(false);
    }
  });

  test('equipment and shops without it read as before', () => {
    expect(equipmentSchema.shape.repeatability.safeParse(undefined).success).toBe(true);
    expect(shopSchema.shape.repeatability.safeParse(undefined).success).toBe(true);
    const made = equipmentOf(EQUIPMENT);
    expect(equipmentSchema.parse(made)).not.toHaveProperty('repeatability');
    const repeatability = tape(study(0.3, 40));
    expect(equipmentSchema.parse({ ...made, repeatability }).repeatability).toEqual(repeatability);
  });
});

describe('when it takes the place of the default', () => {
  test('from 20 degrees of freedom on, of one study or of several together', () => {
    expect(studiedTape(undefined, 'careful')).toBeUndefined();
    expect(studiedTape(tape(study(0.3, 19)), 'careful')).toBeUndefined();
    expect(studiedTape(tape(study(0.3, 20)), 'careful')).toEqual({ mm: 0.3, dof: 20 });
    const two = studiedTape(tape(study(0.3, 12), study(0.6, 24)), 'best');
    expect(two?.dof).toBe(36);
    expect(two?.mm).toBeCloseTo(Math.sqrt((12 * 0.09 + 24 * 0.36) / 36), 12);
  });

  test("a job's equipment carries it to the solver; too little of it stays in the record", () => {
    const made = equipmentOf(EQUIPMENT);
    expect(placementEquipment(made)).not.toHaveProperty('tapeRepeat');
    const few = placementEquipment({ ...made, repeatability: tape(study(0.9, 8)) });
    expect(few).not.toHaveProperty('tapeRepeat');
    const enough = placementEquipment({ ...made, repeatability: tape(study(0.9, 48)) });
    expect(enough.tapeRepeat).toEqual({ mm: 0.9, dof: 48 });
  });

  test('only repeatability changes: class, set-up on the marks and all else stay', () => {
    const stated = workUncertainties({ work: 'typical' });
    const own = workUncertainties({ work: 'typical', tapeRepeat: { mm: 0.9, dof: 48 } });
    expect(own).toEqual({ ...stated, tapeRepeatMm: 0.9, tapeRepeatDof: 48 });
    expect(stated.tapeRepeatDof).toBe(20);
  });
});

describe('what it does to a placement', () => {
  const uOf = (equipment: PlacementEquipment, coordinate: 'ahead' | 'left' | 'up' | 'pitch' = 'ahead') =>
    coordinateOf(answerOf(inputOf(SQUARE, [CENTRE], { equipment })), coordinate);

  test('a worse study raises u, a better one lowers it, the default itself changes nothing', () => {
    const stated = uOf(work());
    const { tapeRepeatMm, tapeRepeatDof } = workUncertainties(work());
    expect(uOf(work({ mm: tapeRepeatMm, dof: tapeRepeatDof }))).toEqual(stated);
    expect(uOf(work({ mm: 2, dof: 60 })).u).toBeGreaterThan(1.2 * stated.u);
    expect(uOf(work({ mm: 0.1, dof: 60 })).u).toBeLessThan(0.99 * stated.u);
    expect(uOf(work({ mm: 2, dof: 60 }), 'pitch').u / uOf(work(), 'pitch').u).toBeCloseTo(1, 12);
  });

  test('what it adds is the difference of the squares, through the same readings', () => {
    const variance = (mm: number): number => uOf(work({ mm, dof: 60 }), 'up').u ** 2;
    // The height is one tape reading held upright, whose repeatability is a part of its u by itself.
    expect((variance(0.9) - variance(0.4)) / (variance(0.65) - variance(0.4))).toBeCloseTo(
      (0.81 - 0.16) / (0.4225 - 0.16),
      2,
    );
  });

  test('its degrees of freedom reach the coverage factor', () => {
    const [few, many] = [20, 200].map((dof) => uOf(work({ mm: 3, dof })));
    if (few === undefined || many === undefined) throw new Error('two answers');
    expect(few.u).toBeCloseTo(many.u, 9);
    expect(many.dof).toBeGreaterThan(2 * few.dof);
    expect(many.k).toBeLessThan(few.k);
  });

  test('planning predicts what the solution will have', () => {
    const equipment = work({ mm: 0.9, dof: 48 });
    const setUp = { car: CAR, equipment, stations: [CENTRE], decisionRule: 'guarded' as const };
    const design = planDesign(
      { ...setUp, beyondAheadMm: SQUARE.beyondAhead, beyondBehindMm: SQUARE.beyondBehind },
      recipeById('default'),
    );
    if (!design.ok) throw new Error(design.error.code);
    const predicted = predict(design.value, planOnce(design.value.laid.slots));
    if (!predicted.ok) throw new Error(predicted.error.code);
    const found = answerOf(inputOf(SQUARE, [CENTRE], { equipment }));
    for (const { coordinate, U } of predicted.value[0]?.coordinates ?? []) {
      expect(U / coordinateOf(found, coordinate).U, coordinate).toBeCloseTo(1, 6);
    }
    expect(predicted.value[0]?.coordinates).toHaveLength(6);
  });

  test('repeats are held against it: 2.8 s', () => {
    const input = inputOf(SQUARE, [CENTRE], { equipment: work() });
    const recipe = defaultRecipe(input);
    const spec = specOf(recipe, { id: 'base.L', purpose: 'proof' });
    if (spec === undefined) throw new Error('no base.L');
    const own = workUncertainties(work({ mm: 0.9, dof: 48 }));
    expect(repeatabilityOf(spec, own)).toBe(0.9);
    const first = input.readings.find(({ id }) => id === 'base.L');
    if (first === undefined) throw new Error('no reading of base.L');
    const apart = [first, { ...first, ref: 'again', value: first.value + 2 }];
    expect(spreadFindings(recipe, apart, workUncertainties(work()))).toHaveLength(1);
    expect(spreadFindings(recipe, apart, own)).toEqual([]);
  });
});
