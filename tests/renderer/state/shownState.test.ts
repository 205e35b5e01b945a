import { describe, expect, test } from 'vitest';
import { assess } from '../../../core/job/assess.ts';
import type { Job } from '../../../core/job/job.ts';
import { type StageId, stageById } from '../../../core/job/stages/index.ts';
import { answersOf } from '../../../renderer/state/placementView.ts';
import { shownState } from '../../../renderer/state/shownState.ts';
import { heldAfter, movedIndex, script } from '../demoHeld.ts';

const stateOf = (job: Job, stage: StageId) => shownState(stageById(stage), job, assess(job, answersOf(job)));

const whole = heldAfter(script.steps.length).job;

describe('the state of a stage in the rail', () => {
  test('nothing is done in a job without sensors, not even what has nothing to enter', () => {
    const empty = heldAfter(1).job;
    for (const stage of [
      'prechecks',
      'bay',
      'datum',
      'placement',
      'stations',
      'outcome',
      'signoff',
    ] as const) {
      expect(stateOf(empty, stage), stage).toBe('empty');
    }
    expect(stateOf(empty, 'intake')).toBe('underWay');
  });

  test('a job whose sensors all need no calibration here needs no bay', () => {
    const sensors = whole.sensors.map((sensor) => ({ ...sensor, disposition: 'notNeeded' as const }));
    const job = { ...whole, sensors };
    expect(stateOf(job, 'bay')).toBe('notNeeded');
    expect(stateOf({ ...job, sensors: sensors.map((each) => ({ ...each, disposition: null })) }, 'bay')).toBe(
      'empty',
    );
  });

  test('without a procedure no station is done', () => {
    const sensors = whole.sensors.map((sensor) => ({ ...sensor, procedure: null }));
    expect(stateOf({ ...whole, sensors }, 'stations')).toBe('empty');
  });

  test('a fixture that stands outside needs attention; a finished job waits for its signature', () => {
    expect(stateOf(heldAfter(movedIndex).job, 'placement')).toBe('stops');
    expect(stateOf(whole, 'placement')).toBe('done');
    expect(stateOf(whole, 'signoff')).toBe('underWay');
  });

  test('sign-off is done when it is signed', () => {
    const certificate = {
      certificate: 'c',
      number: 'QUAY-2-2026-0001',
      edition: 1,
      kind: 'calibrated' as const,
      sealed: whole.last,
      issuedAtUtcMs: 0,
      fileDigest: '0'.repeat(64),
      replaces: null,
      reason: '',
      recordDigest: '0'.repeat(64),
      head: '0'.repeat(64),
      signer: 'tobias',
      issuedOffsetMin: 0,
      paper: 'A4' as const,
      program: 'x',
    };
    expect(stateOf({ ...whole, certificates: [certificate] }, 'signoff')).toBe('done');
  });
});
