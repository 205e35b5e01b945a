import { describe, expect, test } from 'vitest';
import { checkChoices, fieldById, stageById, stages } from '../../../core/job/stages/index.ts';
import { templateOf } from '../../../core/words/index.ts';

const fields = stages.flatMap((stage) => stage.fields.map((field) => ({ stage, field })));

describe('stage tables', () => {
  test('eight stages in the order of the work', () => {
    expect(stages.map((stage) => stage.id)).toEqual([
      'intake',
      'prechecks',
      'bay',
      'datum',
      'placement',
      'stations',
      'outcome',
      'signoff',
    ]);
  });

  test('every field id is unique and starts with its stage', () => {
    const ids = fields.map(({ field }) => field.id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { stage, field } of fields) expect(field.id.startsWith(`${stage.id}.`)).toBe(true);
  });

  test('every label, hint, choice, purpose and caution has words', () => {
    const keys = [
      ...stages.flatMap((stage) => [stage.title, stage.purpose, ...stage.cautions]),
      ...fields.flatMap(({ field }) => [
        field.label,
        ...(field.hint === undefined ? [] : [field.hint]),
        ...(field.choices ?? []).map((choice) => choice.label),
        ...(field.kind === 'check' ? checkChoices(field).map((choice) => choice.label) : []),
        ...(field.walk === undefined ? [] : [`walk.${field.walk}`]),
      ]),
    ];
    expect(keys.filter((key) => templateOf(key) === undefined)).toEqual([]);
  });

  test('a condition on another field names a field with those choices', () => {
    for (const { field } of fields) {
      if (typeof field.need === 'string' || 'whenSensor' in field.need) continue;
      const other = fieldById(field.need.whenField)?.field;
      const values = other?.choices?.map((choice) => choice.value) ?? [];
      expect(field.need.is.every((value) => values.includes(value))).toBe(true);
    }
  });

  test('a value that stops the work is one the field can take', () => {
    for (const { field } of fields) {
      const possible =
        field.kind === 'confirm' || field.kind === 'check'
          ? ['yes', 'no']
          : (field.choices ?? []).map((each) => each.value);
      for (const value of field.stops ?? []) expect(possible).toContain(value);
    }
  });

  test('looking up what is not there', () => {
    expect(fieldById('intake.shoeSize')).toBeUndefined();
    expect(() => stageById('lunch' as 'intake')).toThrow('no stage lunch');
  });
});
