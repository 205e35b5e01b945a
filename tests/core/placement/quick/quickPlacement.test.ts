/** The whole of quick placement on faultless readings: from a fixture put up by eye to the proof set. */
import { describe, expect, test } from 'vitest';
import type { PlacementInput } from '../../../../core/placement/placementInput.ts';
import { uncorrelated } from '../../../../core/placement/quick/belief.ts';
import { coordinatesOf, oddsOf, standing } from '../../../../core/placement/quick/odds.ts';
import { putUpByEye, quickPlacement, quickSteps } from '../../../../core/placement/quick/quickPlacement.ts';
import { mostTelling } from '../../../../core/placement/quick/telling.ts';
import type { QuickAnswer, QuickMove, QuickStep } from '../../../../core/placement/quick/types.ts';
import { solvePlacement } from '../../../../core/placement/solvePlacement.ts';
import type { Pose6 } from '../../../../core/rehearsal/trueBay.ts';
import { say } from '../../../../core/words/index.ts';
import { CENTRE } from '../trueLayout.ts';
import { carOnly, fixtureReadings, GOAL, groundOf, LEVEL_AHEAD } from './bay.ts';

const placement = carOnly(LEVEL_AHEAD);
const ground = groundOf(placement);

function answerTo(steps: readonly QuickStep[], input: PlacementInput = placement): QuickAnswer {
  const answer = quickPlacement({ placement: input, steps });
  if (!answer.ok) throw new Error(JSON.stringify(answer.error));
  return answer.value;
}

/** The pose after a move: as far as it was told, or until the tape reads the number (half as far and twice as far are tried). */
function exactly(pose: Pose6, { move, until }: QuickMove): Pose6 {
  const effect = move.predictedEffect;
  const at = (part: number): Pose6 => ({
    ahead: pose.ahead + part * effect.ahead,
    left: pose.left + part * effect.left,
    up: pose.up + part * effect.up,
    yaw: pose.yaw + part * effect.yaw,
    pitch: pose.pitch - part * effect.pitch,
    roll: pose.roll - part * effect.roll,
  });
  if (until === undefined) return at(1);
  const reads = (part: number): number =>
    fixtureReadings(at(part), LEVEL_AHEAD).find(({ id }) => id === until.slot.id)?.value ?? Number.NaN;
  let [low, high] = [-1, 3];
  const falls = reads(high) < reads(low);
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (reads(middle) > until.valueMm === falls) low = middle;
    else high = middle;
  }
  return at(low);
}

/** Follows the product with a hand that makes every move exactly. */
function follow(from: Pose6): {
  readonly pose: Pose6;
  readonly steps: readonly QuickStep[];
  readonly answer: QuickAnswer;
  /** The one line at the top, step by step. */
  readonly lines: readonly string[];
} {
  let pose = from;
  const steps: QuickStep[] = [];
  const lines: string[] = [];
  for (let i = 0; i < 60; i++) {
    const answer = answerTo(steps);
    lines.push(say(answer.nextAction.wordKey, answer.nextAction.values));
    const { next } = answer;
    if (next.kind === 'prove') return { pose, steps, answer, lines };
    if (next.kind === 'look') {
      const ids = next.slots.map(({ id }) => id);
      steps.push({
        kind: 'look',
        readings: fixtureReadings(pose, LEVEL_AHEAD).filter(({ id }) => ids.includes(id)),
      });
      continue;
    }
    pose = exactly(pose, next);
    steps.push({ kind: 'moved' });
  }
  throw new Error('no end');
}

describe('quick placement', () => {
  const start: Pose6 = {
    ...GOAL,
    ahead: 5220,
    left: -140,
    up: 1390,
    yaw: GOAL.yaw + 0.06,
    pitch: 0.012,
    roll: -0.01,
  };

  const { pose, steps, answer, lines } = follow(start);

  test('begins with a look at two of the four bar distances: the place over the floor is what is open', () => {
    const { next, nextAction, looks } = answerTo([]);
    expect(looks).toBe(0);
    expect(next.kind).toBe('look');
    const ids = next.kind === 'look' ? next.slots.map(({ id, purpose }) => `${purpose} ${id}`) : [];
    expect(ids).toHaveLength(2);
    for (const id of ids) expect(id).toMatch(/^guide bar\./);
    expect(say(nextAction.wordKey, nextAction.values)).toMatch(/^Quick look: car's-/);
  });

  test('brings a fixture from decimetres to millimetres in few looks, and then asks for the proof set', () => {
    expect(answer.looks).toBeLessThanOrEqual(7);
    expect(answer.odds).toBeGreaterThanOrEqual(0.95);
    expect(Math.abs(pose.ahead - GOAL.ahead)).toBeLessThan(3);
    expect(Math.abs(pose.left - GOAL.left)).toBeLessThan(3);
    expect(Math.abs(pose.up - GOAL.up)).toBeLessThan(3);
    expect(Math.abs(pose.yaw - GOAL.yaw)).toBeLessThan(0.004);
    const proof = solvePlacement({
      ...placement,
      readings: [...placement.readings, ...fixtureReadings(pose, LEVEL_AHEAD)],
    });
    expect(proof.ok && proof.value.worst).toBe('proven');
  });

  test('says a move with the tape held as a number to reach', () => {
    expect(
      lines.filter((line) => /^(Turn|Roll|Shift) to \d+ mm: car's-/.test(line)).length,
    ).toBeGreaterThanOrEqual(2);
    for (const line of lines) expect(line.split(/\s+/).length, line).toBeLessThanOrEqual(12);
  });

  test('forgets what it knew when the fixture was moved otherwise', () => {
    expect(answerTo([...steps, { kind: 'disturbed' }])).toEqual(answerTo([]));
  });

  test('never enters a proof: guide readings change nothing of what is solved', () => {
    const proof = { ...placement, readings: [...placement.readings, ...fixtureReadings(start, LEVEL_AHEAD)] };
    const guides = fixtureReadings(GOAL, LEVEL_AHEAD).map((reading) => ({
      ...reading,
      purpose: 'guide' as const,
    }));
    expect(solvePlacement({ ...proof, readings: [...proof.readings, ...guides] })).toEqual(
      solvePlacement(proof),
    );
  });

  test('says what the car still lacks, and leaves other bodies to the proof set', () => {
    const without = placement.readings.filter(({ id }) => id !== 'drop.FL');
    expect(quickPlacement({ placement: { ...placement, readings: without }, steps: [] }).ok).toBe(false);
    const noFloor = placement.readings.filter(({ id }) => id !== 'floor.fixtureLeft');
    expect(quickPlacement({ placement: { ...placement, readings: noFloor }, steps: [] })).toMatchObject({
      error: { code: 'placement/undetermined', readingIds: ['floor.fixtureLeft'] },
    });
    expect(answerTo([], { ...placement, body: 'singleStand' })).toMatchObject({
      next: { kind: 'prove' },
      coordinates: [],
    });
  });
});

describe('what is odd of a proof set', () => {
  test('nothing for a target about which nothing is known, nearly all where it is known to stand right', () => {
    expect(oddsOf(coordinatesOf(ground, putUpByEye(ground)))).toBeLessThan(0.01);
    const right = { pose: ground.required, covariance: uncorrelated([1, 1, 1, 1e-3, 1e-3, 1e-3]) };
    expect(oddsOf(coordinatesOf(ground, right))).toBeGreaterThan(0.99);
    expect(coordinatesOf(ground, right)).toHaveLength(6);
  });

  test('a proof set counted with the car held still is better than one that counts the car', () => {
    for (const { coordinate, room } of coordinatesOf(ground, putUpByEye(ground)).slice(0, 2)) {
      // 10 mm less 1.645 u of the whole proof set: 2.3 mm ahead, 3.2 mm to the side for careful work
      expect(room, coordinate).toBeGreaterThan(6);
      expect(room, coordinate).toBeLessThan(8);
    }
  });

  test('what may stand grows with the room and shrinks with what is unsure', () => {
    const sure = { pose: ground.required, covariance: uncorrelated([0.5, 0.5, 0.5, 5e-4, 5e-4, 5e-4]) };
    const unsure = { pose: ground.required, covariance: uncorrelated([3, 3, 3, 3e-3, 3e-3, 3e-3]) };
    expect(standing(ground, sure, 'ahead')).toBeGreaterThan(standing(ground, unsure, 'ahead'));
    const tight = groundOf({
      ...placement,
      stations: [{ ...CENTRE, ahead: { ...CENTRE.ahead, permitted: { lower: -5, upper: 5, stated: true } } }],
    });
    expect(standing(tight, sure, 'ahead')).toBeLessThan(standing(ground, sure, 'ahead'));
  });
});

describe('the most telling pair', () => {
  test('is of the height and a tilt once the place over the floor is known', () => {
    const known = { pose: ground.required, covariance: uncorrelated([1, 1, 50, 1e-3, 0.017, 0.017]) };
    const { pair, left } = mostTelling(ground, known);
    for (const id of pair) expect(id).toMatch(/^(target|fixture)\./);
    expect(pair).toContain('target.height');
    expect(left).toBeLessThan(0.7);
  });

  test('has a diagonal when only the side is open', () => {
    const known = { pose: ground.required, covariance: uncorrelated([1, 200, 1, 1e-3, 1e-3, 1e-3]) };
    expect(mostTelling(ground, known).pair.some((id) => id.startsWith('bar.diag'))).toBe(true);
  });
});

describe('steps from the record', () => {
  const read = (id: string, fixtureSetUp: number) => ({
    id,
    purpose: 'guide' as const,
    ref: `${id}/${fixtureSetUp}`,
    value: 1,
    carSetUp: 1,
    fixtureSetUp,
  });
  const readings = [read('bar.sameL', 2), read('bar.sameR', 2), read('bar.diagLR', 3), read('bar.sameL', 4)];

  test('are looks of two within a set-up, moves and disturbances between; the open look waits', () => {
    const steps = quickSteps(readings, { first: 2, now: 4, byMove: new Set([3]) });
    expect(
      steps.map((step) => (step.kind === 'look' ? step.readings.map(({ id }) => id) : step.kind)),
    ).toEqual([['bar.sameL', 'bar.sameR'], 'moved', ['bar.diagLR'], 'disturbed']);
  });
});
