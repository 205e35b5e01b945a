import { describe, expect, test } from 'vitest';
import { assess } from '../../../core/job/assess.ts';
import type { ControlDue } from '../../../core/job/controlDue.ts';
import { type StageId, stages } from '../../../core/job/stages/index.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { movesUnderWay } from '../../../renderer/state/movesUnderWay.ts';
import { MOST_WORDS, nextLine } from '../../../renderer/state/nextLine.ts';
import { answersOf, placementView } from '../../../renderer/state/placementView.ts';
import { slotsOf } from '../../../renderer/state/readings.ts';
import { heldAfter, movedIndex, readingIndex, SENSOR, script, stepIndex } from '../demoHeld.ts';

const helds = new Map<number, ReturnType<typeof heldAfter>>();

/** Each state of the demo job is folded and solved once for all stages. */
function heldOnce(count: number) {
  const held = helds.get(count) ?? heldAfter(count);
  helds.set(count, held);
  return held;
}

function lineAfter(count: number, stage: StageId, control?: ControlDue) {
  const { job } = heldOnce(count);
  const sensor = job.sensors.find((each) => each.sensor === SENSOR);
  const view = sensor === undefined ? undefined : placementView(job, sensor);
  const recipe = view?.recipe ?? [];
  return nextLine({
    stage,
    job,
    assessment: assess(job, answersOf(job)),
    answer: view?.answer.ok === true ? view.answer.value : undefined,
    recipe,
    slots: sensor === undefined ? [] : slotsOf(job, SENSOR, recipe, stage),
    moves: sensor === undefined ? undefined : movesUnderWay(heldOnce(count), sensor),
    control,
  });
}

describe('the line at the top', () => {
  test('an empty job asks for what Intake lacks first', () => {
    expect(lineAfter(0, 'intake')).toEqual({
      text: 'Enter: the sensors of this job',
      go: undefined,
      moves: [],
    });
    expect(lineAfter(1, 'intake').text).not.toContain('identification');
  });

  test('names the reading that comes next in walking order', () => {
    expect(lineAfter(readingIndex('floor.RL'), 'bay').text).toBe("Read: staff at the car's left rear wheel");
    expect(lineAfter(readingIndex('bar.sameR'), 'placement').text).toBe(
      "Read: car's-right point ahead to car's-right bar end",
    );
  });

  test('says the first move when the fixture is known and must be moved, and Done closes that one', () => {
    const line = lineAfter(movedIndex, 'placement');
    expect(line.text).toMatch(/^Turn: car's-left end \d+ mm away from the car/);
    expect(line.moves.map((move) => move.kind)).toEqual(['turn']);
    // Others follow: what is read afterwards is said with the last one.
    expect(line.text).not.toMatch(/read/);
    expect(lineAfter(movedIndex, 'stations')).toMatchObject({ text: line.text, go: 'placement', moves: [] });
    expect(line.go).toBeUndefined();
  });

  test('a control that is due comes before everything at the car, and says nothing of its value', () => {
    const due: ControlDue = {
      slot: { id: 'bar.sameL', purpose: 'control' },
      cause: { kind: 'pause', minutes: 45 },
      state: 'due',
      limit: 2,
    };
    const line = lineAfter(movedIndex, 'placement', due);
    expect(line.text).toMatch(/control/i);
    expect(line.text).not.toMatch(/\d/);
    expect(line.moves).toEqual([]);
    expect(lineAfter(movedIndex, 'placement', { ...due, state: 'disagrees', difference: 5 }).text).toBe(
      'Control does not agree. Read the fixture again.',
    );
    expect(lineAfter(movedIndex, 'intake', due)).toEqual(lineAfter(movedIndex, 'intake'));
  });

  test('after Done it asks for the first reading again, and Done is gone', () => {
    const line = lineAfter(movedIndex + 1, 'placement');
    expect(line.text).toMatch(/^Read/);
    expect(line.moves).toEqual([]);
  });

  test('a stage of the fixture leads to where the next thing is done', () => {
    const captured = stepIndex((step) => step.do === 'capture') + 1;
    expect(lineAfter(captured, 'placement')).toMatchObject({ go: 'stations' });
    expect(lineAfter(readingIndex('floor.RL'), 'placement')).toMatchObject({ go: 'bay' });
    expect(lineAfter(captured, 'stations').text).toMatch(/^Set the slide to/);
  });

  test('what stands proven is captured before the slide is touched', () => {
    const before = stepIndex((step) => step.do === 'capture');
    expect(lineAfter(before, 'stations').text).toBe('Capture on the scan tool: Centre');
    expect(lineAfter(before, 'placement')).toMatchObject({
      text: 'Capture on the scan tool: Centre',
      go: 'stations',
    });
    const second = stepIndex((step) => step.do === 'capture', 2);
    expect(lineAfter(second, 'stations').text).toBe(
      "Capture on the scan tool: Slide, 550 mm to the car's left",
    );
  });

  test('a finished stage names the next one that lacks something', () => {
    const line = lineAfter(readingIndex('floor.FL'), 'intake');
    expect(line).toEqual({ text: 'Intake done. Go on with Bay.', go: 'bay', moves: [] });
  });

  test('a finished job leads to sign-off, and there to the held press', () => {
    expect(lineAfter(script.steps.length, 'intake').go).toBe('signoff');
    expect(lineAfter(script.steps.length, 'signoff')).toEqual({
      text: 'Read what is below, then hold to sign.',
      go: undefined,
      moves: [],
    });
    expect(lineAfter(movedIndex, 'signoff').text).toMatch(/Not ready/);
  });

  test(`is never longer than ${MOST_WORDS} words and never says a banned one, all through the demo job`, () => {
    for (let count = 0; count <= script.steps.length; count += 1) {
      for (const stage of stages) {
        const { text } = lineAfter(count, stage.id);
        expect(text.split(/\s+/).length, text).toBeLessThanOrEqual(MOST_WORDS);
        expect(wordFaults(text), text).toEqual([]);
        expect(text, text).not.toMatch(/[{}]|undefined/);
      }
    }
  }, 120_000);
});
