import { describe, expect, test } from 'vitest';
import { enoughOf, jobPlan } from '../../../core/job/jobPlan.ts';
import { placementInput } from '../../../core/job/solve.ts';
import { invariant } from '../../../core/result.ts';
import { type Question, reckon } from '../../../renderer/ahead/reckon.ts';
import { enoughWords, planWords } from '../../../renderer/text/planWords.ts';
import { cameraOf, heldAfter, readingIndex } from '../demoHeld.ts';

const held = heldAfter(readingIndex('bar.sameL'));
const input = placementInput(held.job, cameraOf(held));
invariant(input.ok, 'an input');
const matter = { key: 'one', input: { ...input.value, readings: [] }, vehicle: undefined };
const plan = jobPlan(input.value, undefined);
invariant(plan.ok, 'planned');

/** As a worker hands it on: a function in it would throw. */
const handedOn = (question: Question) => structuredClone(reckon(structuredClone(question)));

describe('what is reckoned beside the window', () => {
  test('a plan says after the way there and back what it says here', () => {
    const reply = handedOn({ ...matter, ask: 'plan' });
    expect(reply).toMatchObject({ ask: 'plan', key: 'one' });
    const answer = reply.answer;
    invariant(answer !== null && 'ok' in answer && answer.ok, 'planned');
    expect(planWords(answer.value)).toEqual(planWords(plan.value));
    expect(answer.value.proofs).toEqual(plan.value.proofs);
    expect(answer.value).not.toHaveProperty('design');
    const enough = handedOn({ ...matter, ask: 'enough' }).answer;
    invariant(enough !== null && 'cost' in enough, 'enough is found');
    expect(enough).toEqual(enoughOf(plan.value));
    expect(enough.cost).toBeGreaterThan(20);
    expect(enoughWords(answer.value, enough)).toEqual(enoughWords(plan.value.design.laid, enough));
  });

  test('a body that planning does not know has no plan, and no number of readings', () => {
    const plate = { ...matter, key: 'two', input: { ...matter.input, body: 'plate' as const } };
    expect(handedOn({ ...plate, ask: 'plan' }).answer).toEqual({
      ok: false,
      error: { code: 'planning/otherBody' },
    });
    expect(handedOn({ ...plate, ask: 'enough' }).answer).toBeNull();
  });

  test('quick placement speaks the language of the question, and has nothing to say of a car that is not read', () => {
    const ask = (language: 'en' | 'de', readings = input.value.readings) =>
      handedOn({
        ask: 'quick',
        key: language,
        language,
        placement: { ...input.value, readings },
        steps: [],
      }).answer;
    const [english, german] = [ask('en'), ask('de')];
    invariant(english !== null && 'nextAction' in english, 'a step');
    invariant(german !== null && 'nextAction' in german, 'a step');
    expect(english.next.kind).toBe('look');
    expect(german.next).toEqual(english.next);
    expect(german.nextAction.values).not.toEqual(english.nextAction.values);
    expect(ask('en', [])).toBeNull();
  });
});
