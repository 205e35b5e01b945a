import { describe, expect, test } from 'vitest';
import { stages } from '../../../core/job/stages/index.ts';
import { defaultRecipe } from '../../../core/placement/recipe.ts';
import { templateOf } from '../../../core/words/index.ts';
import { STAGE_WORDS } from '../../../core/words/stages.ts';

/** Every key that the stage tables name, with the place that names it. */
const named = stages.flatMap((stage) => [
  stage.title,
  stage.purpose,
  ...stage.cautions,
  ...stage.fields.flatMap((field) => [
    field.label,
    ...(field.hint === undefined ? [] : [field.hint]),
    ...(field.choices ?? []).map((choice) => choice.label),
    ...(field.reasons ?? []).map((reason) => reason.label),
  ]),
]);

describe('wording of the stage tables', () => {
  test.each([...new Set(named)])('%s has wording', (key) => {
    expect(templateOf(key)).toBeDefined();
  });

  test('nothing is worded that no table names', () => {
    const spare = Object.keys(STAGE_WORDS).filter((key) => !named.includes(key));
    expect(spare).toEqual([]);
  });

  test('a label has no slot: it stands by itself', () => {
    expect(Object.values(STAGE_WORDS).filter((template) => template.includes('{'))).toEqual([]);
  });

  test('two fields of one stage never read alike', () => {
    for (const stage of stages) {
      const labels = stage.fields.map((field) => templateOf(field.label));
      expect(new Set(labels).size, stage.id).toBe(labels.length);
    }
  });

  test('every reading that a stage may ask for has a name', () => {
    const unnamed = defaultRecipe({ thrustLine: true, bodyFace: true }).filter(
      (spec) => templateOf(spec.label) === undefined,
    );
    expect(unnamed).toEqual([]);
  });
});
