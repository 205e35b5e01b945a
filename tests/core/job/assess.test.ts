import { describe, expect, test } from 'vitest';
import {
  assess,
  conditionFails,
  isFilled,
  objections,
  placesOf,
  valueTexts,
  worseVerdict,
} from '../../../core/job/assess.ts';
import type { FieldValue } from '../../../core/job/events.ts';
import { fieldKey } from '../../../core/job/fieldKey.ts';
import type { Job } from '../../../core/job/job.ts';
import { solveAll } from '../../../core/job/solve.ts';
import { fieldById, stageById } from '../../../core/job/stages/index.ts';
import type { ProcedureCondition } from '../../../core/procedure/schema.ts';
import { readScript } from '../../../electron/cli/playScript.ts';
import { demoShop } from '../../../electron/service/handlers/shop.ts';
import { foldScript } from '../../demo/foldScript.ts';

const script = readScript(new URL('../../../assets/demo/demo-job.json', import.meta.url));
const shop = demoShop();
const whole = foldScript(script, shop);

/** The finished demo job with one field changed or, with null, taken away. */
function withField(job: Job, key: string, value: FieldValue | null): Job {
  const { [key]: before, ...rest } = job.fields;
  if (value === null || before === undefined) return { ...job, fields: rest };
  return { ...job, fields: { ...rest, [key]: { ...before, value } } };
}

const keysOf = (findings: readonly { readonly key: string }[]): readonly string[] =>
  findings.map((each) => each.key);

describe('assess', () => {
  test('an empty job lacks its sensors and may get no certificate at all', () => {
    const empty = foldScript(script, shop, 0);
    const assessment = assess(empty, {});
    expect(keysOf(assessment.missing)).toContain('intake.sensors');
    expect(assessment.kind).toBeUndefined();
    expect(objections(assessment, 'notCalibrated')).not.toEqual([]);
    expect(assessment.stageStates.intake).toBe('empty');
  });

  test('every needed field of the finished job is missed when it is taken away', () => {
    const answers = solveAll(whole);
    for (const key of Object.keys(whole.fields)) {
      const field = fieldById(whole.fields[key]?.field ?? '')?.field;
      if (field?.need !== 'always') continue;
      const assessment = assess(withField(whole, key, null), answers);
      expect(keysOf(assessment.missing)).toEqual([key]);
      expect(assessment.kind).toBeUndefined();
    }
  });

  test('a pre-check answered with no stops the work and needs a reason', () => {
    const job = withField(whole, 'prechecks.steeringStraight', false);
    const assessment = assess(job, solveAll(job));
    expect(keysOf(assessment.stops)).toContain('prechecks.steeringStraight');
    expect(assessment.stageStates.prechecks).toBe('stops');
    expect(assessment.kind).toBeUndefined();
    expect(keysOf(objections(assessment, 'notCalibrated'))).toEqual(['signoff.stopReason']);
    expect(objections(assessment, 'calibrated')).not.toEqual([]);
  });

  test('an adhesive time is asked for only where glass was replaced', () => {
    const job = withField(withField(whole, 'prechecks.adhesive', null), 'prechecks.glass', 'notReplaced');
    expect(assess(job, solveAll(job)).missing).toEqual([]);
  });

  test('a routine that failed, codes that stay, a capture that failed: only not calibrated', () => {
    const answers = solveAll(whole);
    const sensor = whole.sensors[0]?.sensor ?? '';
    const failed = withField(
      whole,
      fieldKey('outcome.routine', { sensor, station: null, item: null }),
      'failed',
    );
    expect(keysOf(assess(failed, answers).stops)).toContain(`outcome.routine@${sensor}//`);
    const codes = withField(whole, 'outcome.codesStay', 'someStay');
    expect(keysOf(assess(codes, answers).stops)).toContain('outcome.codesStay');
    const last = whole.captures.at(-1);
    if (last === undefined) throw new Error('the demo job captures');
    const capture: Job = { ...whole, captures: [...whole.captures, { ...last, result: 'failed' }] };
    expect(keysOf(assess(capture, answers).stops)).toContain(`capture@${sensor}/${last.station}`);
  });

  test('a struck reading is missed and the stage that takes it is named', () => {
    const job: Job = {
      ...whole,
      readings: whole.readings.map((each) =>
        each.quantity === 'width.behind'
          ? { ...each, struck: { reason: 'readAgain', words: '', stamp: each.stamp } }
          : each,
      ),
    };
    const assessment = assess(job, solveAll(job));
    expect(assessment.missing.map((each) => [each.stage, each.label])).toContainEqual([
      'datum',
      'reading.width.behind',
    ]);
    expect(assessment.kind).toBeUndefined();
  });

  test('a procedure nobody reviewed allows rehearsal only', () => {
    const job: Job = {
      ...whole,
      sensors: whole.sensors.map((each) =>
        each.procedure === null
          ? each
          : {
              ...each,
              procedure: {
                ...each.procedure,
                source: { ...each.procedure.source, reviewedBy: null, reviewWay: 'unreviewed' },
              },
            },
      ),
    };
    expect(assess(job, solveAll(job)).stops.map((each) => each.label)).toContain('stop.unreviewed');
  });

  test('cannot be judged with a passed routine is its own certificate', () => {
    const answers = Object.fromEntries(
      Object.entries(solveAll(whole)).map(([sensor, answer]) => [
        sensor,
        answer && {
          ...answer,
          stations: answer.stations.map((each) => ({ ...each, worst: 'cannotBeJudged' as const })),
        },
      ]),
    );
    const assessment = assess(whole, answers);
    expect(assessment.kind).toBe('routineCompletedPlacementNotShown');
    expect(objections(assessment, 'calibrated')).toEqual([]);
  });

  test('within needs a reason of the signer; outside forbids calibrated', () => {
    const asWorst = (worst: 'within' | 'outside') =>
      Object.fromEntries(
        Object.entries(solveAll(whole)).map(([sensor, answer]) => [
          sensor,
          answer && { ...answer, stations: answer.stations.map((each) => ({ ...each, worst })) },
        ]),
      );
    expect(keysOf(assess(whole, asWorst('within')).missing)).toEqual(['signoff.withinReason']);
    expect(assess(whole, asWorst('outside')).stops.map((each) => each.label)).toEqual([
      'stop.placement.outside',
    ]);
  });
});

describe('parts of an assessment', () => {
  test('the worse verdict', () => {
    expect(worseVerdict('proven', 'within')).toBe('within');
    expect(worseVerdict('outside', 'beyond')).toBe('outside');
    expect(worseVerdict('notJudged', 'proven')).toBe('proven');
  });

  test('values as texts', () => {
    expect(valueTexts(true)).toEqual(['yes']);
    expect(valueTexts(false)).toEqual(['no']);
    expect(valueTexts(12)).toEqual(['12']);
    expect(valueTexts(['glass', 'body'])).toEqual(['glass', 'body']);
    expect(valueTexts(undefined)).toEqual([]);
    expect(isFilled('  ')).toBe(false);
    expect(isFilled({ personalId: 'p', commitment: '0'.repeat(64) })).toBe(true);
  });

  test('a condition fails only where it blocks', () => {
    const value: ProcedureCondition = {
      kind: 'value',
      id: 'light',
      text: '',
      caution: null,
      blocking: true,
      unit: 'lx',
      least: 300,
      most: 900,
    };
    expect([299, 300, 900, 901].map((lux) => conditionFails(value, lux))).toEqual([true, false, false, true]);
    expect(conditionFails(value, 'bright')).toBe(true);
    expect(conditionFails({ ...value, blocking: false }, 0)).toBe(false);
    const choice: ProcedureCondition = {
      kind: 'choice',
      id: 'cover',
      text: '',
      caution: null,
      blocking: true,
      choices: [
        { value: 'original', text: 'original', fits: true },
        { value: 'painted', text: 'painted', fits: false },
      ],
    };
    expect([conditionFails(choice, 'original'), conditionFails(choice, 'painted')]).toEqual([false, true]);
  });

  test('a field stands once for the job, once a sensor, once a station, once a condition', () => {
    const count = (stage: 'intake' | 'prechecks' | 'placement' | 'stations', id: string): number => {
      const field = fieldById(id)?.field;
      return field === undefined ? -1 : placesOf(whole, stageById(stage), field).length;
    };
    const procedure = whole.sensors.find((each) => each.procedure !== null)?.procedure;
    expect(count('intake', 'intake.plate')).toBe(1);
    expect(count('placement', 'placement.markedEnd')).toBe(1);
    expect(count('stations', 'stations.conditionsHold')).toBe(procedure?.stations.length);
    expect(count('prechecks', 'prechecks.condition')).toBe(procedure?.conditions.length);
  });
});
