import { describe, expect, test } from 'vitest';
import { assess } from '../../../core/job/assess.ts';
import type { Payload } from '../../../core/job/events.ts';
import { payloadSchema } from '../../../core/job/events.ts';
import { startState } from '../../../core/rehearsal/index.ts';
import { floorFacts, rehearsalFacts } from '../../../renderer/rehearsal/rehearsalFacts.ts';
import { seedOf, stateOf } from '../../../renderer/rehearsal/rehearsalState.ts';
import { answersOf } from '../../../renderer/state/placementView.ts';
import { Journal } from '../../core/job/madeJob.ts';
import { CENTRE } from '../../core/placement/trueLayout.ts';

const MOST = 20;

/** A rehearsal as the service would have it after the window opened it; personal texts become commitments there. */
function opened() {
  const made = new Journal();
  const commitment = { personalId: 'p1', commitment: 'a'.repeat(64) };
  const add = ({ type, payload }: { type: string; payload: Record<string, unknown> }) => {
    const value = payload.value;
    const isPersonal = typeof value === 'object' && value !== null && 'personal' in value;
    const stored = isPersonal ? { ...payload, value: commitment } : payload;
    made.add(type as 'fieldRecorded', stored as Payload<'fieldRecorded'>);
  };
  made.add('jobOpened', {
    reference: 'R-1',
    demo: false,
    rehearsal: true,
    bay: '1',
    decisionRule: 'guarded',
    follows: null,
  });
  for (const fact of rehearsalFacts(MOST).flat()) add(fact);
  const { job } = made;
  for (const fact of floorFacts(job)) add(fact);
  return made.job;
}

describe('what a rehearsal finds done', () => {
  const job = opened();

  test('it is a rehearsal, with a sensor, its procedure and its equipment', () => {
    expect(job.rehearsal).toBe(true);
    const here = job.sensors.filter((each) => each.disposition === 'staticHere');
    expect(here).toHaveLength(1);
    expect(here[0]?.procedure?.fictional).toBe(true);
    expect(here[0]?.equipment).not.toBeNull();
  });

  test('nothing is missing or stops before the measuring: the person begins at Datum', () => {
    const { missing, stops } = assess(job, answersOf(job));
    const before = ['intake', 'prechecks', 'bay'];
    expect([...missing, ...stops].filter((each) => before.includes(each.stage))).toEqual([]);
    expect(missing.some((each) => each.stage === 'datum')).toBe(true);
  });

  test('the floor has been read at four wheels and under the fixture', () => {
    const floor = job.readings.map((each) => each.quantity);
    expect(floor).toHaveLength(6);
    expect(floor.every((each) => each.startsWith('floor.'))).toBe(true);
  });

  test('each part fits one command, and every payload its schema', () => {
    for (const part of rehearsalFacts(MOST)) {
      expect(part.length).toBeGreaterThan(0);
      expect(part.length).toBeLessThanOrEqual(MOST);
      for (const { type, payload } of part) {
        const value = (payload as { value?: unknown }).value;
        if (typeof value === 'object' && value !== null && 'personal' in value) continue;
        expect(payloadSchema(type).safeParse(payload).success, `${type} ${JSON.stringify(payload)}`).toBe(
          true,
        );
      }
    }
  });
});

describe('where the fixture is kept', () => {
  const state = startState(CENTRE, 9);

  test('a whole state comes back as it was', () => {
    expect(stateOf(JSON.stringify(state))).toEqual(state);
  });

  test.each([
    null,
    '',
    '7',
    '[]',
    '{"seed":1}',
    '{"seed":-1,"pose":{}}',
    JSON.stringify({ ...state, seed: 1.5 }),
    JSON.stringify({ ...state, pose: { ...state.pose, yaw: null } }),
    JSON.stringify({ ...state, pose: { ahead: 1 } }),
  ])('anything else is none: %s', (kept) => {
    expect(stateOf(kept)).toBeUndefined();
  });

  test('the seed follows from the job, and fits the generator', () => {
    const seed = seedOf('01a21390-a7ba-7e0a-aa0f-4d1e988e4377');
    expect(seed).toBe(0x988e4377);
    expect(seedOf('01a21390-a7ba-7e0a-aa0f-4d1e988e4378')).toBe(seed + 1);
  });
});
